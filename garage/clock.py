"""The one place where the project asks what time it is, and which zone is in force."""

from datetime import datetime, timedelta

from django.utils import timezone

from garage.engine.moments import moment_words

WEEK = timedelta(days=7)


def now() -> datetime:
    return timezone.now()


def clock_words(moment: datetime, at: datetime) -> str:
    """`20:30`, with the day when it is another one than that of `at`, in the garage's time."""
    local, today = timezone.localtime(moment), timezone.localtime(at)
    if local.date() == today.date():
        return f"{local:%H:%M}"
    if abs(local.date() - today.date()) < WEEK:
        return f"{local:%a %H:%M}"
    return f"{local:%a} {local.day} {local:%b %H:%M}"


def dated_words(moment: datetime) -> str:
    """`Tue 2 Mar 20:30`, in the garage's time: for what may be read on another day than it is drawn."""
    return moment_words(moment, timezone.get_current_timezone(), moment)
