"""What a page sends on between rounds of trying: the gaps that were found, `0.1f.3`, and how long it took."""

from collections.abc import Sequence

MOST_KNOWN = 400
AT_LEAST, AT_MOST = 10.0, 60.0  # seconds of trying before a page is shown


def known_words(gaps: Sequence[int]) -> str:
    return ".".join(f"{gap:x}" for gap in gaps)


def read_known(text: str) -> tuple[int, ...]:
    """Nothing at all rather than half of it."""
    try:
        gaps = tuple(int(part, 16) for part in text.split(".")) if text else ()
    except ValueError:
        return ()
    return gaps if len(gaps) <= MOST_KNOWN and min(gaps, default=0) >= 0 else ()


def read_spent(text: str) -> float:
    """The seconds that rounds took so far, from tenths of them; 0 for what is no number."""
    return int(text) / 10 if text.isascii() and text.isdigit() and len(text) < 6 else 0.0


def read_seconds(text: str | None) -> float | None:
    """How long to try before the page is shown: as asked, at least `AT_LEAST`, at most `AT_MOST`; None unasked."""
    if text is None:
        return None
    return max(AT_LEAST, min(AT_MOST, int(text) if text.isascii() and text.isdigit() and len(text) < 6 else 0))
