"""Whether somebody's own words say that something goes into the car, or comes out of it. Common practice, no source."""

import re

from garage.engine.names_said import NameTable, plain
from garage.engine.systems_said import systems_said

IN, OUT = "in", "out"
_SAID = NameTable(
    {
        IN: """
            fit, refit*, install*, new, renew*, replac*, change, swap, put in, put back, put on, goes in, back in,
            back on, reconnect*
        """,
        OUT: "out, off, remov*, strip, pull, take off, taken off, disconnect*, isolate, unplug*",
        "": """
            out of date, out of life, cut out switch, run out, way out, worn out, sort out, find out, check out,
            fell out, falls out, cut off switch, battery cut off, off side, fell off, came off, comes off, falls off,
            pull cable, pull handle, fire pull
        """,
    }
)
_ENDS_IN = re.compile(r"\b(?:in|on)$")


def fits_said(words: str) -> bool:
    """`Fit the harness` does, and `Harness in`; `Seat out to fit the cage` does not."""
    said = _SAID.said(words)
    return said == {IN} or (not said and bool(_ENDS_IN.search(plain(words))))


def comes_out_said(words: str) -> bool:
    """`Harness out` does; `Old belts out, new ones in` leaves the car no emptier, `Belts out of date` says a date.

    `Seat out to fit the cage` says what it is out for: other work.
    """
    work, _, aim = words.partition(" to ")
    words = work if {*systems_said(aim)} - {*systems_said(work)} else words
    return _SAID.said(words) == {OUT} and not _ENDS_IN.search(plain(words))
