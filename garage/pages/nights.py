"""Nights of events in words."""

from garage.clock import dated_words
from garage.models import Night


def dated_night_words(night: Night) -> str:
    """`Sat 13 Mar 18:00 to Sat 13 Mar 23:00, cars ready by Sun 14 Mar 08:30`, for paper and what is kept."""
    begins, ends, due = (dated_words(moment) for moment in (night.from_at, night.until_at, night.due_at))
    return f"{begins} to {ends}, cars ready by {due}"
