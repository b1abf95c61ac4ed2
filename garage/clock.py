"""The one place where the project asks what time it is, and which zone is in force."""

import logging
from collections.abc import Iterator
from contextlib import contextmanager
from contextvars import ContextVar
from datetime import datetime, timedelta, tzinfo

from django.utils import timezone

from garage.engine import moments

log = logging.getLogger("garage.clock")
# A clock that is set back by hand or by a time server is set back by less. By more it was wrong before: what it said
# then cannot hold up everything until it comes again.
MOST_HELD = timedelta(days=1)
_earliest: ContextVar[datetime | None] = ContextVar("earliest", default=None)


def now() -> datetime:
    """Never before the last write, within one (`after`)."""
    at, earliest = timezone.now(), _earliest.get()
    return max(at, earliest) if earliest else at


@contextmanager
def after(last: datetime | None) -> Iterator[None]:
    """What is written within comes after the `last` write, though the clock was set back meanwhile.

    Else work would seem done before the reading that it makes void, and a log would tell it the wrong way round.
    """
    ahead = last - now() if last else timedelta()
    if ahead > timedelta(minutes=1):
        log.warning("the clock stands %s before the last write", ahead)
    token = _earliest.set(last if timedelta() < ahead <= MOST_HELD else None)
    try:
        yield
    finally:
        _earliest.reset(token)


def zone() -> tzinfo:
    """That of the garage whose page is asked for."""
    return timezone.get_current_timezone()


def clock_words(moment: datetime, at: datetime) -> str:
    """`20:30`, with the day when it is another one than that of `at`, in the garage's time."""
    return moments.clock_words(moment, at, zone())


def dated_words(moment: datetime) -> str:
    """`Tue 2 Mar 20:30`, in the garage's time: for what may be read on another day than it is drawn."""
    return moments.dated_words(moment, zone())
