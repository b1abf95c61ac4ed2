"""How large pictures may come and in which sizes they are kept."""

MOST_BYTES = 12 * 1024**2
MOST_PIXELS, MOST_SIDE = 40_000_000, 12_000
# Pixels of a picture that the server itself opens; a larger one that cannot be opened small has a process of its own.
MOST_HERE = 6_000_000
# While it is opened, beside what the server holds anyway. Measured with the pinned decoder: WebP keeps two canvases,
# the picture and a copy of it, four bytes a pixel each; a JPEG of several passes keeps two bytes for every sample.
MOST_OPENING = 192 * 1024**2
WEBP_BYTES, SAMPLE_BYTES = 16.0, 2
# Longest side in px and budget in bytes: a page of thumbnails opens on a weak signal.
SIZES = {"small": (320, 20_000), "large": (1600, 250_000)}


def too_large(size: tuple[int, int]) -> bool:
    """Whether `size` (width, height in px) would take too much memory to decode."""
    return size[0] * size[1] > MOST_PIXELS or max(size) > MOST_SIDE


def opening_bytes(size: tuple[int, int], form: str, samples: float) -> int:
    """What it takes to open a picture of `size` (px) that cannot be opened small: WebP, and JPEG of several passes.

    `samples` a pixel, as the JPEG keeps them: 3 in full colour, 1.5 where colour is kept by halves.
    """
    each = WEBP_BYTES if form == "WEBP" else SAMPLE_BYTES * samples
    return round(size[0] * size[1] * each)


def fit(size: tuple[int, int], longest: int) -> tuple[int, int]:
    """`size` (px) brought within `longest`, never below 1 px and never made larger."""
    scale = min(1.0, longest / max(size))
    return max(1, round(size[0] * scale)), max(1, round(size[1] * scale))
