"""Slips of the fingers are read as the word that was meant, and no other word is."""

import pytest

from garage.engine.slips import mended


@pytest.mark.parametrize(
    ("word", "meant"),
    [
        *(("siezed", "seized"), ("berings", "bearings"), ("bering", "bearing"), ("gearboxx", "gearbox")),
        *(("gearrbox", "gearbox"), ("gerbox", "gearbox"), ("batery", "battery"), ("hearing", "hearing")),
        *(("bearing", "bearing"), ("heels", "heels"), ("brace", "brace"), ("breaks", "breaks"), ("pedals", "pedals")),
        *(("driveshat", "driveshaft"), ("subfrmae", "subframe"), ("chasis", "chassis")),
    ],
)
def test_a_slip_is_the_word_that_was_meant(word, meant):
    assert mended(word) == meant
