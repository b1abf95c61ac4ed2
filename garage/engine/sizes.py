"""Sizes of files in words."""


def size_words(size: int) -> str:
    """Bytes as `38 kB`, `1.2 MB` or `70.6 GB`."""
    if size >= 1e9:
        return f"{size / 1e9:.1f} GB"
    return f"{size / 1e6:.1f} MB" if size >= 1e6 else f"{-(-size // 1000)} kB"
