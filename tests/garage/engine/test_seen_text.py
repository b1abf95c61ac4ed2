"""Text is kept as it is seen: nothing hides in it, nothing turns it round."""

import pytest

from garage.engine.words import seen_text


@pytest.mark.parametrize(
    ("typed", "kept"),
    [
        ("Heron", "Heron"),
        ("", ""),
        ("do not weld\r\nnear\ttank", "do not weld\r\nnear\ttank"),
        ("\u200b", ""),
        ("\u200d", ""),
        (" \u200b ", "  "),
        (" \u200d ", "  "),
        ("\u00a0\u200c\u200d", "\u00a0"),
        ("\ufeffHeron\u00ad", "Heron"),
        ("fit \u202enur ot\u202c", "fit nur ot"),
        ("\u2066a\u2069\u200e\u200f\u061c", "a"),
        ("a\x07\x1b[31mb\x85", "a[31mb"),
        ("क\u200dष", "क\u200dष"),
        ("👩\u200d🔧", "👩\u200d🔧"),
        ("a\0b", "a\0b"),
    ],
)
def test_what_is_kept_of_what_was_typed(typed, kept):
    assert seen_text(typed) == kept
