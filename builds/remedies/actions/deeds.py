"""Doing to the garage what a remedy or a trial says."""

from collections.abc import Callable, Iterable
from datetime import date

from django.db import transaction

from builds.cure.models.shop import COLDEST_MC, WARMEST_MC
from builds.needs.actions import needs
from builds.remedies.facts.deeds import Deed
from builds.remedies.pages.deed_words import Book
from builds.shop.actions import shop
from builds.work.models.job import Job
from builds.work.models.states import State
from garage.actions import events, hours, people
from garage.actions.refused import Refused
from garage.engine.hours import Stretch
from garage.facts.presence import stretches_on
from garage.models import Membership

GONE = "Something that this names is not there any more: look again."
EXTRA = "Extra hands"
MOST_ROOM, MIDNIGHT, MOST_NOTE = 50, 24 * 60, 4000


@transaction.atomic
def do(deeds: Iterable[Deed], *, by: Membership) -> None:
    """All of them or none. Raises Refused for what cannot be done; who may is not asked here."""
    book = Book(by.garage)
    for deed in deeds:
        try:
            DO[deed.kind](book, *deed.numbers, *[deed.day] * bool(deed.day))
        except KeyError as error:
            raise Refused(GONE) from error


def _again(book: Book) -> None:
    """Planning anew is all of it."""


def _stretch(day: date, since: int, until: int) -> list[Stretch]:
    if not 0 <= since < until <= MIDNIGHT:
        raise Refused("A session begins before it ends, on one day.")
    return [Stretch(day.weekday(), since, until)]


def _session(book: Book, member: int, since: int, until: int, day: date) -> None:
    whose, stretch = book.members[member], _stretch(day, since, until)
    hours.set_day(whose, day=day, kind="extra", stretches=stretch, note="so that a car makes it")


def _off(book: Book, member: int, day: date) -> None:
    hours.set_day(book.members[member], day=day, kind="off", stretches=[])


def _hands(book: Book, skill: int, since: int, until: int, day: date) -> None:
    """Somebody who is not named yet: known by a name that says so, without a way to sign in."""
    skills = [book.skills[skill]] if skill else []
    stretch = _stretch(day, since, until)
    whose = next((row for row in book.members.values() if _is_free(row, day, stretch)), None)
    if whose is None:
        identity = {"name": EXTRA, "surname": "", "email": None}
        whose = people.add(book.garage, role=Membership.Role.HELPER, skills=skills, works=True, **identity)
    whose.skills.add(*skills)
    hours.set_day(whose, day=day, kind="extra", stretches=stretch, note="to be asked")


def _is_free(row: Membership, day: date, stretch: list[Stretch]) -> bool:
    """Whether he is one of those not named yet, and not in at that time."""
    (wanted,) = stretch
    return row.name == EXTRA and not any(
        since < wanted.until and wanted.since < until for since, until in stretches_on(row, day)
    )


def _defer(book: Book, entry: int, *jobs: int) -> None:
    """Wanted work waits until the car has left; that of the car itself until it is back."""
    late = book.entries[entry]
    for job in (book.jobs[pk] for pk in jobs):
        if job.rank != Job.Rank.WANTED:
            raise Refused(f"{job} is {job.rank} work: it is not put off.")
        if job.state == State.IN_HAND or job.pinned_at:
            raise Refused(f"{job} is in hand or pinned: it is not put off.")
        own = job.vehicle_id == late.vehicle_id
        job.earliest_at = late.event.ends_at if own else late.event.due_at
        note = f"Put off so that {late.vehicle} makes {late.event}."
        if len(job.note) + len(note) < MOST_NOTE:
            job.note = f"{job.note}\n{note}".strip()
        job.save(update_fields=["earliest_at", "note"])


def _part(book: Book, need: int, day: date) -> None:
    row = book.needs[need]
    needs.change(row, what=row.what, quantity=row.quantity, supplier=row.supplier, expected_on=day)


def _degrees(warm_mc: int) -> int:
    if not COLDEST_MC <= warm_mc <= WARMEST_MC:
        raise Refused("That is no temperature of a shop.")
    return warm_mc


def _heat(book: Book, since: int, until: int, warm_mc: int, day: date) -> None:
    (stretch,) = _stretch(day, since, until)
    shop.heat(
        book.garage,
        weekdays=[],
        day=day,
        hours=[(stretch.since, stretch.until)],
        warm_mc=_degrees(warm_mc),
    )


def _hold(book: Book, warm_mc: int, day: date) -> None:
    shop.hold_at(book.garage, day, _degrees(warm_mc))


def _room(book: Book, station: int) -> None:
    row = book.stations[station]
    if row.capacity >= MOST_ROOM:
        raise Refused(f"{row} has room for {row.capacity} already.")
    row.capacity += 1
    row.save(update_fields=["capacity"])


def _home(book: Book, entry: int) -> None:
    book.entries[entry].delete()


def _enter(book: Book, event: int, vehicle: int, weight: int) -> None:
    events.enter(book.events[event], book.vehicles[vehicle], weight=_weight(weight))


def _weigh(book: Book, entry: int, weight: int) -> None:
    events.change(book.entries[entry], weight=_weight(weight))


def _weight(weight: int) -> int:
    if not 1 <= weight <= 9:
        raise Refused("A weight is between 1 and 9.")
    return weight


DO: dict[str, Callable[..., None]] = {
    "again": _again,
    "session": _session,
    "off": _off,
    "hands": _hands,
    "defer": _defer,
    "part": _part,
    "heat": _heat,
    "hold": _hold,
    "room": _room,
    "home": _home,
    "enter": _enter,
    "weigh": _weigh,
}
