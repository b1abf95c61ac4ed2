"""Sizes of files in words."""


def size_words(size: int) -> str:
    """Bytes as `38 kB` or `1.2 MB`."""
    return f"{size / 1e6:.1f} MB" if size >= 1e6 else f"{-(-size // 1000)} kB"
