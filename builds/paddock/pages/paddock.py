"""Everything of an event's day on one page: each car's lists, line by line, as they stand."""

from collections import defaultdict
from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime
from functools import cached_property
from itertools import chain

from django.db.models import Count

from builds.joints.facts import hands_to_sign, joint_lines, puts_of
from builds.packing.engine.packing import SECTIONS
from builds.packing.models import PackItem
from builds.paddock.engine import PRESSURES
from builds.paddock.pages.joints import joint_groups
from builds.paddock.pages.rows import Act, ItemGroup, PaddockItem, counted, stands_words
from builds.readings.engine.figures import number_of
from builds.readings.engine.kind_line import KindLine
from builds.readings.engine.void import STANDS
from builds.readings.facts.readings import readings_of
from builds.readings.models.reading import Reading
from builds.scrutineering.engine.check_list import FIRST_RUN, SCRUTINEERING
from builds.scrutineering.engine.check_states import CHECK_STATES, CheckState
from builds.scrutineering.engine.ticks import void_of
from builds.scrutineering.facts.touched import touched_of
from builds.scrutineering.models.check import CheckItem
from builds.scrutineering.pages.check_list import TITLES
from builds.steps.facts.looks import hands_in
from builds.verdict.engine import Verdict
from builds.verdict.facts.verdict import verdicts
from builds.work.facts.runs import RunsByCar, runs_of
from builds.work.models.job import Job
from garage.access import OWNER, refuse_work_on
from garage.clock import dated_words
from garage.engine.units import unit_for
from garage.facts.entries import nights_ahead
from garage.models import Entry, Event, Membership, Night, Vehicle
from garage.pages.nights import dated_night_words

Lists = dict[int | None, list[ItemGroup]]  # by car, and what is for all of them

PACKED = (Act("Packed", "packed"),)
PACK_MORE = (Act("Stays here", "left"), Act("Take it back", "open"))


@dataclass(frozen=True)
class PaddockDay:
    """An event with its entries by their cars (pk), as somebody reads it at a moment."""

    event: Event
    entries: dict[int, Entry]
    me: Membership
    at: datetime

    @property
    def cars(self) -> list[Vehicle]:
        return [entry.vehicle for entry in self.entries.values()]

    @cached_property
    def runs(self) -> RunsByCar:
        return runs_of(self.event.garage, self.cars, self.at)


@dataclass(frozen=True)
class PaddockCar:
    """`works` where whoever reads it works on that car."""

    pk: int
    name: str
    tape: str
    verdict: Verdict
    lists: tuple[ItemGroup, ...]
    works: bool

    @property
    def due(self) -> ItemGroup | None:
        """The list that is worked on now: the first with a line still to do."""
        return next((group for group in self.lists if group.due), None)


@dataclass(frozen=True)
class PaddockView:
    """`rest` is what goes along for all cars together, `nights` what is done overnight and by when."""

    pk: int
    event: Event
    at: str
    cars: tuple[PaddockCar, ...]
    rest: tuple[ItemGroup, ...]
    nights: tuple[str, ...]

    @property
    def now(self) -> PaddockCar | None:
        """The car that lies open: the first with something to do."""
        return next((car for car in self.cars if car.due), None)


def paddock_view(day: PaddockDay) -> PaddockView:
    """A fixed number of queries, however many cars are entered and lines are listed."""
    event, at = day.event, day.at
    judged = verdicts(event.garage, at, day.cars, day.entries)
    parts = [make(day) for make in LISTS.values()]
    shown = tuple(
        PaddockCar(
            car.pk,
            car.name,
            car.tape,
            judged[car.pk],
            tuple(chain(*(part.get(car.pk, ()) for part in parts))),
            works=refuse_work_on(day.me, car) is None,
        )
        for car in day.cars
    )
    rest = tuple(chain(*(part.get(None, ()) for part in parts)))
    return PaddockView(event.pk, event, dated_words(at), shown, rest, _nights(event, at))


def items_of(day: PaddockDay) -> list[PaddockItem]:
    """Every line of the day as it stands, with nothing round it: what phones are told."""
    groups = chain.from_iterable(chain(*make(day).values()) for make in LISTS.values())
    return [item for group in groups for item in group.items]


def item_view(event: Event, item: str, me: Membership, at: datetime) -> PaddockItem | None:
    """One line as it stands: nothing but the lists of its kind is read for it."""
    make = LISTS.get(item.partition("-")[0])
    groups = chain(*make(day_of(event, me, at)).values()) if make else ()
    return next((line for group in groups for line in group.items if line.id == item), None)


def day_of(event: Event, me: Membership, at: datetime) -> PaddockDay:
    rows = Entry.objects.filter(event=event).kept().select_related("vehicle", "event")
    return PaddockDay(event, {entry.vehicle_id: entry for entry in rows}, me, at)


def _nights(event: Event, at: datetime) -> tuple[str, ...]:
    """`Overnight Sat 13 Mar 18:00 to Sat 13 Mar 23:00, ready by Sun 14 Mar 08:30: “Hub” (Heron)`; a query at most."""
    nights = [night for night in nights_ahead(event.garage, at) if night.event_id == event.pk]
    jobs = list(Job.objects.filter(night__in=nights).open().select_related("vehicle")) if nights else []
    return tuple(_night(night, [job for job in jobs if job.night_id == night.pk]) for night in nights)


def _night(night: Night, jobs: list[Job]) -> str:
    named = ", ".join(f"“{job}” ({job.vehicle})" for job in jobs)
    return f"Overnight {dated_night_words(night)}: {named or 'no job yet'}."


def _check_acts(state: str, owner: bool) -> tuple[tuple[Act, ...], tuple[Act, ...]]:
    """The buttons of a line that stands so: what would be refused is not offered."""
    tick = Act("Tick", "ticked", hidden=not CHECK_STATES.allows("tick", state))
    left = Act("Does not apply", "left_out", "note", hidden=not CHECK_STATES.allows("leave_out", state))
    fails, back = Act("It fails", "failed", "note"), Act("Take it back", "open")
    return (tick,), (fails, left, back) if owner else (fails, back)


def _checks(day: PaddockDay) -> Lists:
    works = touched_of(day.event.garage, day.cars, day.at, runs=day.runs)
    rows = (
        CheckItem.objects.filter(checklist__entry__event=day.event)
        .select_related("checklist__entry", "by__person")
        .annotate(count=Count("log"))
    )
    lists: dict[tuple[int, str], list[PaddockItem]] = defaultdict(list)
    for check in rows:
        car = check.checklist.entry.vehicle_id
        void = void_of(check, works.get(car, ()), day.event.gates_at, day.at)
        acts, more = _check_acts(check.state, day.me.role == OWNER)
        lists[car, check.checklist.kind].append(
            PaddockItem(
                f"check-{check.pk}",
                check.text,
                CheckState.OPEN if void else check.state,
                stands_words(check, void),
                check.count,
                acts,
                more,
                section=check.section,
                notes=True,
            )
        )
    groups: Lists = defaultdict(list)
    for kind in (FIRST_RUN, SCRUTINEERING):
        for car in day.cars:
            if items := lists.get((car.pk, kind)):
                groups[car.pk].append(counted(TITLES[kind], items, "ticked"))
    return groups


def _joints(day: PaddockDay) -> Lists:
    garage = day.event.garage
    torqued = joint_lines(garage, day.cars, day.at, day.runs)
    people, puts = hands_in(garage), puts_of(chain(*torqued.values()))
    hands = hands_to_sign(garage, chain(*torqued.values()))
    return {car: joint_groups(lines, puts, hands, day.me, people) for car, lines in torqued.items()}


def _packs(day: PaddockDay) -> Lists:
    rows = PackItem.objects.filter(packlist__event=day.event).select_related("by__person").annotate(count=Count("log"))
    lists: dict[int | None, list[PaddockItem]] = defaultdict(list)
    for thing in rows:
        name = f"{thing.what}, {thing.amount}" if thing.amount else thing.what
        lists[thing.vehicle_id].append(
            PaddockItem(
                f"pack-{thing.pk}",
                name,
                thing.state,
                stands_words(thing),
                thing.count,
                PACKED,
                PACK_MORE,
                section=SECTIONS[thing.section],
            )
        )
    return {car: [counted("To pack", items, "packed")] for car, items in lists.items()}


def _pressures(day: PaddockDay) -> Lists:
    units = day.event.garage.units
    unit = unit_for("pressure", units).symbol
    read = readings_of(day.event.garage, day.cars, day.at, keys=[PRESSURES], ran=day.runs)
    lines = {pk: readings.lines[PRESSURES] for pk, readings in read.items()}
    counts = dict(
        Reading.objects.filter(vehicle__in=day.cars)
        .of(PRESSURES)
        .order_by()
        .values_list("vehicle")
        .annotate(Count("pk"))
    )
    groups: Lists = {}
    for car, entry in day.entries.items():
        line = lines[car]
        item = PaddockItem(
            f"press-{entry.pk}",
            "Tyre pressures",
            "taken",
            _pressed_words(line, units),
            counts.get(car, 0),
            (Act("Keep them", "taken", "value"),),
            asks=f"Front left, front right, rear left, rear right, in {unit}",
            unit=unit,
            why="Cold or hot, and on which tyres, goes into the note.",
            notes=True,
        )
        groups[car] = [ItemGroup("Pressures", "taken" if line.state == STANDS else "not taken", (item,))]
    return groups


def _pressed_words(line: KindLine, units: str) -> str:
    """`1.9 1.9 1.8 1.8 bar, Tove Tue 2 Mar 20:30`; of what counts no more, that it is to be taken again."""
    if line.reading is None:
        return "never taken"
    fields = [field for field in line.kind.fields if field.slug in line.values]
    values = " ".join(number_of(field, line.amounts[field.slug] or 0, units) for field in fields)
    again = "" if line.state == STANDS else "measure again, was "
    when = dated_words(line.reading.at)
    return f"{again}{values} {unit_for('pressure', units).symbol}, {line.reading.by} {when}"


def _seen(day: PaddockDay) -> Lists:
    return {
        car: [ItemGroup("Something seen", "a line opens a job", (_note(entry),), of_any=True)]
        for car, entry in day.entries.items()
    }


def _note(entry: Entry) -> PaddockItem:
    return PaddockItem(
        f"note-{entry.pk}",
        "Something seen",
        "said",
        "It becomes a needed job on the car.",
        0,
        (Act("Write it down", "said", "value"),),
        asks="What was seen",
    )


# By what the names of their lines begin with, in the order in which a car shows them.
LISTS: dict[str, Callable[[PaddockDay], Lists]] = {
    "check": _checks,
    "joint": _joints,
    "press": _pressures,
    "pack": _packs,
    "note": _seen,
}
