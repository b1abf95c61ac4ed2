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
from parts.engine.fit.notes import note
from parts.engine.fit.numbers import FitError
from parts.engine.fit.thread import Thread
from parts.engine.fit.together import Miss, miss, together
from parts.engine.fit.verdict import DOES_NOT, FITS, NOT_KNOWN, FitVerdict
from parts.engine.fit.wish import Wish, wish

__all__ = [
    "DOES_NOT",
    "FITS",
    "KINDS",
    "NOT_KNOWN",
    "Electrical",
    "FitError",
    "FitVerdict",
    "Hub",
    "Interface",
    "Miss",
    "Thread",
    "Threaded",
    "Wheel",
    "Wish",
    "fits",
    "fits_all",
    "miss",
    "note",
    "parse",
    "read",
    "read_all",
    "stored",
    "together",
    "wish",
    "words",
]
