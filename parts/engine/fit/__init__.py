"""What fits what: threads, wheels on hubs, studs, plugs; a want beside what is offered."""

from parts.engine.fit.designation import parse
from parts.engine.fit.fits import fits, fits_all
from parts.engine.fit.interface import (
    KINDS,
    Electrical,
    Hub,
    Interface,
    Threaded,
    Wheel,
    read,
    read_all,
    stored,
    words,
)
from parts.engine.fit.numbers import FitError
from parts.engine.fit.thread import Thread
from parts.engine.fit.together import Miss, miss, together
from parts.engine.fit.verdict import Verdict
from parts.engine.fit.wish import Wish, wish

__all__ = [
    "KINDS",
    "Electrical",
    "FitError",
    "Hub",
    "Interface",
    "Miss",
    "Thread",
    "Threaded",
    "Verdict",
    "Wheel",
    "Wish",
    "fits",
    "fits_all",
    "miss",
    "parse",
    "read",
    "read_all",
    "stored",
    "together",
    "wish",
    "words",
]
