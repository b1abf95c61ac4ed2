"""What the rounds of trying before found, as a page sends it on: gaps in slots, `0.1f.3`."""

from collections.abc import Sequence

MOST_KNOWN = 400


def known_words(gaps: Sequence[int]) -> str:
    return ".".join(f"{gap:x}" for gap in gaps)


def read_known(text: str) -> tuple[int, ...]:
    """Nothing at all rather than half of it."""
    try:
        gaps = tuple(int(part, 16) for part in text.split(".")) if text else ()
    except ValueError:
        return ()
    return gaps if len(gaps) <= MOST_KNOWN and min(gaps, default=0) >= 0 else ()
