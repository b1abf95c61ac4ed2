"""Hours of one person: the week's, a single day's, and until when tonight."""

from datetime import date

from django.db import transaction

from garage.actions.refused import Refused
from garage.engine.hours import HoursError, Stretch, check_apart, minute_words
from garage.engine.presence import Minutes
from garage.engine.tonight import ended_at
from garage.facts.presence import refuse_meanwhile, stretches_on
from garage.models import DayHours, MemberHours, Membership


@transaction.atomic
def set_week(member: Membership, *, week: list[Stretch]) -> None:
    member.weekly_hours.all().delete()
    MemberHours.objects.bulk_create(
        MemberHours(member=member, weekday=stretch.weekday, from_minute=stretch.since, until_minute=stretch.until)
        for stretch in week
    )


@transaction.atomic
def clear_day(member: Membership, *, day: date) -> None:
    """The week's hours count again on this day."""
    DayHours.objects.of(member).between(day, day).delete()


def _put(member: Membership, day: date, kinds: list[str], hours: list[Minutes], note: str) -> None:
    DayHours.objects.bulk_create(
        DayHours(member=member, day=day, kind=kind, from_minute=since, until_minute=until, note=note)
        for kind, (since, until) in zip(kinds, hours, strict=True)
    )


def _replace(member: Membership, day: date, hours: list[Minutes], note: str) -> None:
    """These hours and no others; the first row replaces the week's, the rest add to it."""
    clear_day(member, day=day)
    if hours:
        _put(member, day, ["instead"] + ["extra"] * (len(hours) - 1), hours, note)
    else:
        DayHours.objects.create(member=member, day=day, kind="off", note=note)


@transaction.atomic
def set_day(member: Membership, *, day: date, kind: str, stretches: list[Stretch], note: str = "") -> None:
    """A day off, extra sessions, or hours instead; extra ones may not overlap the day's.

    Raises Refused for hours in which he is at an event.
    """
    hours = [(stretch.since, stretch.until) for stretch in stretches]
    _refuse_away(member, day, hours)
    if kind != "extra":
        _replace(member, day, hours, note)
        return
    standing = [Stretch(day.weekday(), *minutes) for minutes in stretches_on(member, day)]
    try:
        check_apart([*standing, *stretches])
    except HoursError as wrong:
        raise Refused(str(wrong)) from wrong
    _put(member, day, ["extra"] * len(hours), hours, note)


@transaction.atomic
def in_until(member: Membership, *, day: date, now: int, until: int) -> None:
    """In today until minute `until`, whatever the week says; minutes of wall clock."""
    if until <= now:
        raise Refused(
            f"It is {minute_words(now)} already: write a later time, at most 24:00, and add"
            " an extra session for what comes after midnight."
        )
    _refuse_away(member, day, [(now, until)])
    _replace(member, day, ended_at(stretches_on(member, day), now, until), "")


def _refuse_away(member: Membership, day: date, hours: list[Minutes]) -> None:
    """Nobody is in while he is at an event: hours that begin or end in it would count for nothing."""
    refusal = refuse_meanwhile(member, day, hours)
    if refusal:
        raise Refused(refusal)


@transaction.atomic
def home_now(member: Membership, *, day: date, now: int) -> None:
    """Not in any more today: what is over stays, what was to come is gone."""
    _replace(member, day, ended_at(stretches_on(member, day), now, now), "")
