"""What goes into the car by somebody's own words, and what comes out of it."""

import pytest

from builds.readings.engine.fits_said import comes_out_said, fits_said


@pytest.mark.parametrize(
    ("words", "fits"),
    [
        ("Fit the harness", True),
        ("New belts", True),
        ("refit seat", True),
        ("Replace the crotch strap", True),
        ("Harness back in", True),
        ("Seat in", True),
        ("Tyres on", True),
        ("Reconnect the battery", True),
        ("Harness out", False),
        ("Remove the seat", False),
        ("Seat out to fit the cage", False),
        ("Look at the belts", False),
        ("Seat fittings are rusty", False),
    ],
)
def test_what_goes_in(words, fits):
    assert fits_said(words) is fits


@pytest.mark.parametrize(
    ("words", "out"),
    [
        ("Harness out", True),
        ("Seat belts off", True),
        ("Pull the seat", True),
        ("Disconnect the battery", True),
        ("Remove the loom", True),
        ("Seat out for the weld", True),
        ("Old harness out, new one in", False),
        ("Belts out, then back on", False),
        ("Belts out of date", False),
        ("Seat belt came off", False),
        ("New cut-off switch", False),
        ("Off-side belt is tired", False),
        ("Fit the harness", False),
    ],
)
def test_what_comes_out(words, out):
    assert comes_out_said(words) is out
