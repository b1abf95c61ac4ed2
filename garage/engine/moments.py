"""Moments in words, in the garage's own time."""

from datetime import date, datetime, timedelta, tzinfo

NEAR = timedelta(days=180)  # in whole days, so that only midnight changes what is said
FAR = timedelta(days=6)  # a weekday alone would be read as one of last week or of this


def dated_words(moment: datetime, zone: tzinfo) -> str:
    """`Tue 2 Mar 18:30` of an aware moment: for what is read on any day of about that time."""
    local = moment.astimezone(zone)
    return f"{local:%a} {local.day} {local:%b %H:%M}"


def moment_words(moment: datetime, zone: tzinfo, now: datetime) -> str:
    """`Tue 2 Mar 18:30`; more than half a year away `2 Mar 2028 18:30`. Both arguments aware."""
    local = moment.astimezone(zone)
    if abs(local.date() - now.astimezone(zone).date()) < NEAR:
        return dated_words(moment, zone)
    return f"{local.day} {local:%b %Y %H:%M}"


def clock_words(moment: datetime, at: datetime, zone: tzinfo) -> str:
    """`20:30`, with the day when it is another one than that of `at`, and its date from six days off; both aware."""
    local, today = moment.astimezone(zone), at.astimezone(zone)
    if local.date() == today.date():
        return f"{local:%H:%M}"
    if is_far(moment, at, zone):
        return moment_words(moment, zone, at)
    return f"{local:%a %H:%M}"


def is_far(moment: datetime, at: datetime, zone: tzinfo) -> bool:
    """Whether a weekday alone does not say which day it is; both aware."""
    return abs(moment.astimezone(zone).date() - at.astimezone(zone).date()) >= FAR


def leaving_words(event: str, due: datetime, zone: tzinfo, now: datetime) -> str:
    """`Kiln Lane, leaves Tue 2 Mar 18:30`; past that `was due to leave`. Both moments aware."""
    verb = "leaves" if due > now else "was due to leave"
    return f"{event}, {verb} {moment_words(due, zone, now)}"


def day_words(day: date) -> str:
    """`Tue 2 Mar`."""
    return f"{day:%a} {day.day} {day:%b}"


def date_words(day: date) -> str:
    """`31 March 2026`."""
    return f"{day.day} {day:%B %Y}"


def paper_words(moment: datetime, zone: tzinfo) -> str:
    """`Tue 2 Mar 2027 18:30`: paper outlives the year."""
    local = moment.astimezone(zone)
    return f"{local:%a} {local.day} {local:%b %Y %H:%M}"
