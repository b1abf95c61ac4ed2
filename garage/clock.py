"""The one place where the project asks what time it is, and which zone is in force."""

from datetime import datetime, tzinfo

from django.utils import timezone

from garage.engine import moments


def now() -> datetime:
    return timezone.now()


def zone() -> tzinfo:
    """That of the garage whose page is asked for."""
    return timezone.get_current_timezone()


def clock_words(moment: datetime, at: datetime) -> str:
    """`20:30`, with the day when it is another one than that of `at`, in the garage's time."""
    return moments.clock_words(moment, at, zone())


def dated_words(moment: datetime) -> str:
    """`Tue 2 Mar 20:30`, in the garage's time: for what may be read on another day than it is drawn."""
    return moments.dated_words(moment, zone())
