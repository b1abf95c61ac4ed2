"""Text for a box of fixed size: as large as fits, and cut with an ellipsis when nothing does."""

import pytest
from reportlab.pdfbase.pdfmetrics import stringWidth

from garage.sheets.fit import fitted
from garage.sheets.fonts import BOLD
from garage.sheets.kit import LONGEST

SIZES = (14.0, 11.0, 8.0)


@pytest.mark.parametrize(
    "text",
    ["", "Bin 7", "Upper wishbone, left, with both bushes pressed", "x" * 500, "wide W " * 900,
     "a\nb\tc\x07", "Жук \U0001f697" * 40, "</para><b>&amp;" * 30],
    ids=["none", "short", "long", "one word", "very long", "blanks", "emoji", "markup"],
)  # fmt: skip
@pytest.mark.parametrize("box", [(100.0, 40.0), (60.0, 12.0), (200.0, 100.0)])
def test_no_line_leaves_the_box(text, box):
    found = fitted(text, *box, SIZES, BOLD)
    assert found.height <= box[1]
    for line in found.lines:
        assert stringWidth(line, BOLD, found.size) <= box[0] + 0.01


def test_short_text_is_large_and_longer_text_smaller_and_whole():
    assert fitted("Bin 7", 100, 40, SIZES).size == 14
    longer = fitted("Upper wishbone left", 60, 40, SIZES)
    assert longer.size < 14 and " ".join(longer.lines) == "Upper wishbone left"


def test_what_never_fits_is_cut_with_an_ellipsis():
    cut = fitted("wheel " * 100, 60, 24, SIZES)
    assert cut.size == 8 and cut.lines[-1].endswith("…")
    assert "…" not in "".join(fitted("wheel", 60, 24, SIZES).lines)


def test_a_long_word_is_set_smaller_before_it_is_broken():
    assert fitted("Hyphenless", 60, 60, SIZES).lines == ("Hyphenless",)
    assert len(fitted("Hyphenless" * 2, 60, 60, SIZES).lines) == 2


def test_text_without_end_is_read_to_a_limit():
    assert len("".join(fitted("x" * 10**6, 10_000, 10_000, SIZES).lines)) == LONGEST
