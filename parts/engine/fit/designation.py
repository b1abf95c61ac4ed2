"""A thread from any spelling of its designation."""

from functools import lru_cache

from parts.engine.fit.metric import parse_metric
from parts.engine.fit.numbers import FitError, tidy
from parts.engine.fit.thread import Thread
from parts.engine.fit.unified import parse_unified


@lru_cache(maxsize=4096)
def parse(text: str) -> Thread:
    """The thread that a metric or unified designation names; `str()` of it spells it one way.

    FitError with one sentence when it cannot be read. Form: ISO 965-1 and ASME B1.1, from memory.
    """
    text = tidy(text)
    if not text:
        raise FitError("Write a thread such as M12×1.25 or 1/2-20 UNF.")
    if text[0] in "Mm":
        return parse_metric(text)
    if text[0] in "#Nn0123456789":
        return parse_unified(text)
    raise FitError(f"“{text}” is no thread: write one such as M12×1.25 or 1/2-20 UNF.")
