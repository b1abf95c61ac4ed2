"""The people of a garage as the people page tells of them."""

from dataclasses import dataclass
from datetime import date, datetime, timedelta
from itertools import groupby
from zoneinfo import ZoneInfo

from garage.engine.hours import minute_words, week_words
from garage.engine.presence import Window
from garage.engine.tonight import tonight_words, usual_end
from garage.facts.presence import local_minute, member_windows
from garage.models import DayHours, Garage, Membership


@dataclass(frozen=True)
class PersonCard:
    """`hours` is the week in a line; `tonight` such as "in until 22:00" or "not in today"."""

    pk: int
    name: str
    role: str
    skills: tuple[str, ...]
    hours: str
    tonight: str
    works: bool
    is_me: bool


@dataclass(frozen=True)
class DayHoursLine:
    """One day that differs; `pk` is any of its rows."""

    pk: int
    day: date
    words: str
    note: str


def suggested_end(garage: Garage, at: datetime) -> str:
    return minute_words(usual_end(local_minute(garage, at)[1]))


def _card(row: Membership, windows: list[Window], me: Membership, at: datetime) -> PersonCard:
    return PersonCard(
        pk=row.pk,
        name=row.name,
        role=row.get_role_display(),
        skills=tuple(skill.name for skill in row.skills.all()),
        hours=week_words([each.stretch for each in row.weekly_hours.all()]),
        tonight=tonight_words(windows, at, ZoneInfo(me.garage.time_zone)),
        works=row.works,
        is_me=row.pk == me.pk,
    )


def people(me: Membership, *, at: datetime, pk: int | None = None) -> list[PersonCard]:
    """Everybody still in the garage of `me`, or one of them; `at` is now."""
    windows = member_windows(me.garage, at, at + timedelta(days=2))
    rows = Membership.objects.visible_to(me).active().select_related("person")
    if pk is not None:
        rows = rows.filter(pk=pk)
    rows = rows.prefetch_related("skills", "weekly_hours")
    return [_card(row, windows.get(row.pk, []), me, at) for row in rows]


def _day_words(rows: list[DayHours]) -> str:
    hours = ", ".join(
        f"{minute_words(row.from_minute)}-{minute_words(row.until_minute)}"
        for row in sorted(rows, key=lambda row: row.from_minute or 0)
        if row.from_minute is not None and row.until_minute is not None
    )
    kinds = {row.kind for row in rows}
    if kinds == {"off"}:
        return "day off"
    return f"{hours} as well" if kinds == {"extra"} else f"only {hours}"


def days_ahead(member: Membership, today: date) -> list[DayHoursLine]:
    rows = DayHours.objects.of(member).between(today, date.max)
    lines = []
    for day, group in groupby(rows, key=lambda row: row.day):
        of_day = list(group)
        note = next((row.note for row in of_day if row.note), "")
        lines.append(DayHoursLine(of_day[0].pk, day, _day_words(of_day), note))
    return lines
