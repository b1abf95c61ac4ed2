"""The made garage of a season: three people, three cars, a bay, a floor, and what the weeks bring."""

from dataclasses import dataclass
from datetime import timedelta

from builds.readings.actions import readings
from builds.readings.actions.readings import Measured, TargetInput, Typed
from builds.readings.engine.fields import CHECK, FIGURE, PASS, Field
from builds.readings.engine.limits import BETWEEN
from builds.readings.engine.reading_kind import ReadingKind
from builds.readings.facts.kinds import kind_of
from builds.recipes.actions import putting as recipes
from builds.recipes.engine.parse import load_shipped
from builds.shop.actions import shop
from builds.steps.actions import jobs
from garage.actions import garages, gear, hours
from garage.engine.hours import Stretch
from garage.models import Entry, Event, Garage, Membership, Skill, Vehicle
from tests.factories import NOW, EntryFactory, EventFactory, GarageFactory, MembershipFactory, VehicleFactory

DAY, HOUR = timedelta(days=1), timedelta(hours=1)
MIDNIGHT = NOW.replace(hour=0)
RECIPES = {recipe.key: recipe for recipe in load_shipped()}
# Who is in: weekday (0 = Monday) to hours, and what he can do.
EVENINGS = dict.fromkeys(range(5), (18, 22))
PEOPLE = {
    "Ines": ("owner", {**EVENINGS, 5: (9, 17), 6: (10, 16)}, "fit weld paint wire align brakes"),
    "Tove": ("helper", {**EVENINGS, 5: (9, 17)}, "fit weld align brakes"),
    "Abel": ("helper", {1: (18, 22), 3: (18, 22), 5: (9, 17), 6: (10, 16)}, "fit paint wire brakes"),
}
# What each car must have measured, and what is put on it on which day at six.
MUST_HAVE = ("brake_bleed", "ride_height", "toe_front", "wheel_torque")
PUT_ON = (
    (0, "Heron", ("brake-overhaul", "wheel-bearing-studs")),
    (0, "Badger", ("steering-arm-rework",)),
    (1, "Moth", ("radiator-fan-shroud",)),
    (9, "Heron", ("pre-event-spanner-check",)),
    (15, "Badger", ("corner-weighting", "pre-event-spanner-check")),
    (16, "Heron", ("damper-spring-change",)),
    (22, "Moth", ("wheels-tyres-spacers", "four-wheel-alignment")),
    (30, "Heron", ("pre-event-spanner-check", "seat-mounts-harness")),
    (31, "Badger", ("clutch-gearbox",)),
)
FEW = ((0, "Heron", ("brake-overhaul",)), (0, "Badger", ("steering-arm-rework",)))
# Days until the event, its name, and who is entered.
EVENTS = (
    (18, "Saltmarsh Hill Climb", ("Heron", "Badger")),
    (32, "Quarry Sprint", ("Badger", "Moth")),
    (40, "Windmill Trial", ("Heron", "Moth")),
)
# Of the two weeks: the first event comes sooner, so that its end and the strip-down are among them.
EARLY = (11, "Pier Sprint", ("Heron",))
# What stands beside a reading on the level floor, so that it is more than a note.
CONDITIONS = {
    "instrument": "the garage's own",
    "fuel_ml": 20_000,
    "driver": "aboard",
    "front_pa": 190_000,
    "rear_pa": 180_000,
    "floor": "levelled",
    "bars": "unhooked",
}


@dataclass(frozen=True)
class MadeGarage:
    garage: Garage
    people: dict[str, Membership]
    cars: dict[str, Vehicle]

    @property
    def owner(self) -> Membership:
        return self.people["Ines"]


def make_garage() -> MadeGarage:
    """As it stands on a Tuesday at five, with nothing to do yet."""
    garage = GarageFactory(name="Quayside Lock-up")
    garages.furnish(garage)
    shop.set_days(garage, {NOW.date() + place * DAY: (9_000, 17_000) for place in range(-1, 50)})
    people = {name: _person(garage, name, *given) for name, given in PEOPLE.items()}
    cars = {name: VehicleFactory(garage=garage, name=name, state="driveable") for name in ("Heron", "Badger", "Moth")}
    made = MadeGarage(garage, people, cars)
    for car in cars.values():
        _on_record(made, car)
    return made


def _person(garage: Garage, name: str, role: str, week: dict[int, tuple[int, int]], skills: str) -> Membership:
    member = MembershipFactory(garage=garage, role=role, person__name=name, works=True)
    member.skills.set(Skill.objects.filter(garage=garage, slug__in=skills.split()))
    hours.set_week(member, week=[Stretch(day, since * 60, until * 60) for day, (since, until) in week.items()])
    return member


def _on_record(made: MadeGarage, car: Vehicle) -> None:
    """Gear in date, limits and readings that stand."""
    gear.need(car, kinds=["extinguisher"], by=made.owner, at=NOW)
    gear.add(
        made.garage, at=NOW, vehicle=car, kind="extinguisher", name="Hand-held extinguisher", standard="",
        meaning="until", label="Service due", printed_on=(NOW + 400 * DAY).date().replace(day=1), precision="month",
    )  # fmt: skip
    for key in MUST_HAVE:
        measure(made, car, key, by=made.owner, at=NOW - DAY)
        kind = kind_of(made.garage, key)
        aims = {field.slug: _limit(field) for field in kind.fields if field.type == FIGURE}
        if aims:
            readings.set_targets(car, kind, aims)
    readings.choose_required(car, MUST_HAVE, by=made.owner, at=NOW)


def _limit(field: Field) -> TargetInput:
    low, high = field.likely
    return TargetInput(BETWEEN, low, high, str(low), str(high), field.stored)


def measure(made: MadeGarage, car: Vehicle, key: str, *, by: Membership, at, last_of=None) -> None:
    """A good reading of that kind, with its conditions."""
    kind, values, told = measured(made, key, last_of=last_of)
    readings.take(car, kind, values, by=by, at=at, **told)


def measured(made: MadeGarage, key: str, *, last_of=None) -> Measured:
    """As the form of a finish brings it."""
    kind = kind_of(made.garage, key)
    values = {field.slug: _good(field) for field in kind.fields}
    return Measured(kind, values, {"last_of": last_of, "sure": True, **_beside(kind)})


def _good(field: Field) -> Typed:
    if field.type == FIGURE:
        amount = sum(field.likely) // 2
        return Typed(amount, str(amount), field.stored)
    return Typed(PASS, "passed") if field.type == CHECK else Typed(None, "as before")


def _beside(kind: ReadingKind) -> dict[str, object]:
    if "floor" in kind.conditions:
        return {name: said for name, said in CONDITIONS.items() if name != "bars" or "bars" in kind.conditions}
    return {"instrument": CONDITIONS["instrument"]}


def put_on(made: MadeGarage, car: str, keys: tuple[str, ...], *, at) -> None:
    recipes.put_several([RECIPES[key] for key in keys], made.cars[car], by=made.owner, at=at, side="")


def work_by_hand(made: MadeGarage, car: str, *, at) -> None:
    """By hand: one thing wanted, one needed."""
    for title, system, rank in (
        ("Polish the mirrors", "body", "wanted"),
        ("Replace the radiator hose", "cooling", "needed"),
    ):
        jobs.add(made.cars[car], by=made.owner, at=at, title=title, work=(20, 40, 90), systems=[system], rank=rank)


def enter(made: MadeGarage, days: int, name: str, cars: tuple[str, ...]) -> list[Entry]:
    opens = MIDNIGHT + days * DAY + 9 * HOUR
    event: Event = EventFactory(garage=made.garage, name=name, gates_at=opens, ends_at=opens + 8 * HOUR)
    return [EntryFactory(event=event, vehicle=made.cars[car]) for car in cars]
