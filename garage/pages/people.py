"""The people of a garage as the people page tells of them."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from itertools import groupby
from zoneinfo import ZoneInfo

from garage.access import refuse_presence
from garage.clock import clock_words
from garage.engine.hours import minute_words, week_words
from garage.engine.presence import Window
from garage.engine.tonight import left_of_today, tonight_words, usual_end
from garage.engine.words import listed_in_words
from garage.facts.presence import away_at, away_of, events_of, local_minute, member_windows
from garage.models import DayHours, Garage, Membership, Vehicle


@dataclass(frozen=True)
class PersonCard:
    """`hours` is the week in a line; `tonight` such as "in until 22:00" or "not in today".

    `limits` say on which cars alone he works, and from which he pulls parts; empty where on every one.
    `in_today` while there is something left of today to be sent home from.
    """

    pk: int
    name: str
    role: str
    skills: tuple[str, ...]
    hours: str
    tonight: str
    in_today: bool
    works: bool
    limits: tuple[str, ...]
    is_me: bool


@dataclass(frozen=True)
class DayHoursLine:
    """One day that differs; `pk` is any of its rows."""

    pk: int
    day: date
    words: str
    note: str


@dataclass(frozen=True)
class GoneLine:
    """Somebody who is out of the garage; `erased` such as "erased by Ines on Tue 2 Mar 2027", else empty."""

    pk: int
    name: str
    since: datetime
    erased: str


def gone_people(me: Membership) -> list[GoneLine]:
    """The last who left first."""
    rows = (
        Membership.objects.visible_to(me)
        .gone()
        .select_related("person", "erased_by__person")
        .order_by("-left_at", "-pk")
    )
    zone = ZoneInfo(me.garage.time_zone)
    return [GoneLine(who.pk, who.name, who.left_at, _erased(who, zone)) for who in rows]


def _erased(row: Membership, zone: ZoneInfo) -> str:
    if row.erased_at is None:
        return ""
    return f"erased by {row.erased_by.name} on {row.erased_at.astimezone(zone):%a %-d %b %Y}"


def suggested_end(garage: Garage, at: datetime) -> str:
    return minute_words(usual_end(local_minute(garage, at)[1]))


def whereabouts(member: Membership, windows: list[Window], at: datetime, zone: ZoneInfo) -> str:
    """`in until 22:00`, `not in today`, `at Saltmarsh Hill Climb until Sun 20:30`; `windows` as `hours_of`."""
    away = away_at(member, at)
    if away:
        return f"at {away.event} until {clock_words(away.until, at)}"
    return tonight_words(windows, at, zone)


def _limits(member: Membership) -> Iterator[str]:
    if member.only_cars is not None:
        yield f"Works {_only('on', member.cars.all())}."
    if member.only_donors is not None:
        yield f"Pulls parts {_only('from', member.donors.all())}."


def _only(where: str, cars: Iterable[Vehicle]) -> str:
    return f"only {where} {listed_in_words([car.name for car in cars])}" if cars else f"{where} no car"


def _card(member: Membership, windows: list[Window], me: Membership, at: datetime) -> PersonCard:
    told = refuse_presence(me) is None
    zone = ZoneInfo(me.garage.time_zone)
    return PersonCard(
        pk=member.pk,
        name=member.name,
        role=member.get_role_display(),
        skills=tuple(skill.name for skill in member.skills.all()),
        hours=week_words([hours.stretch for hours in member.weekly_hours.all()]) if told else "",
        tonight=whereabouts(member, windows, at, zone) if told else "",
        in_today=told and away_at(member, at) is None and bool(left_of_today(windows, at, zone)),
        works=member.works,
        limits=tuple(_limits(member)),
        is_me=member.pk == me.pk,
    )


def people(me: Membership, *, at: datetime, pk: int | None = None) -> list[PersonCard]:
    """Everybody still in the garage of `me`, or one of them; `at` is now. Whoever only looks is told no hours."""
    windows = member_windows(me.garage, at, at + timedelta(days=2))
    rows = Membership.objects.visible_to(me).active().select_related("person")
    if pk is not None:
        rows = rows.filter(pk=pk)
    rows = rows.prefetch_related("skills", "cars", "donors", "weekly_hours", events_of(at))
    return [_card(member, windows.get(member.pk, []), me, at) for member in rows]


def _day_words(rows: list[DayHours]) -> str:
    hours = ", ".join(
        f"{minute_words(rule.from_minute)}-{minute_words(rule.until_minute)}"
        for rule in sorted(rows, key=lambda rule: rule.from_minute or 0)
        if rule.from_minute is not None and rule.until_minute is not None
    )
    kinds = {rule.kind for rule in rows}
    if kinds == {"off"}:
        return "day off"
    return f"{hours} as well" if kinds == {"extra"} else f"only {hours}"


def days_ahead(member: Membership, today: date) -> list[DayHoursLine]:
    rows = DayHours.objects.of(member).between(today, date.max)
    lines = []
    for day, group in groupby(rows, key=lambda hours: hours.day):
        of_day = list(group)
        note = next((hours.note for hours in of_day if hours.note), "")
        lines.append(DayHoursLine(of_day[0].pk, day, _day_words(of_day), note))
    return lines


def away_ahead(member: Membership, at: datetime) -> list[str]:
    """The events at which he is and will be: `Saltmarsh Hill Climb, Sat 13 Mar 05:00 to Sun 14 Mar 20:30`."""
    return [
        f"{away.event}, {clock_words(away.since, at)} to {clock_words(away.until, at)}"
        for away in away_of(member)
        if away.until > at
    ]
