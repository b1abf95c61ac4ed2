"""What goes into the car by somebody's own words, and what comes out of it."""

import pytest

from builds.readings.engine.fits_said import fits_said


@pytest.mark.parametrize(
    ("words", "fits"),
    [
        ("Fit the harness", True),
        ("New belts", True),
        ("refit seat", True),
        ("Replace the crotch strap", True),
        ("Harness back in", True),
        ("Harness out", False),
        ("Remove the seat", False),
        ("Seat out to fit the cage", False),
        ("Look at the belts", False),
        ("Seat fittings are rusty", False),
    ],
)
def test_what_goes_in(words, fits):
    assert fits_said(words) is fits
