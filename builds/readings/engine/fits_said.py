"""Whether somebody's own words say that something goes into the car, and not out of it. Common practice, no source."""

from garage.engine.names_said import NameTable

IN, OUT = "in", "out"
_SAID = NameTable(
    {
        IN: "fit, refit*, install*, new, renew*, replac*, change, swap, put in, put back, goes in, back in",
        OUT: "out, remov*, strip, take off, taken off",
    }
)


def fits_said(words: str) -> bool:
    """`Fit the harness` does, `Seat out to fit the cage` does not."""
    return _SAID.said(words) == {IN}
