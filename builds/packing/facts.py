"""What to pack: the entered cars with their spares and tools, as the engine takes them."""

from collections import defaultdict
from collections.abc import Iterable
from datetime import datetime

from builds.packing.engine.packing import Car, SparePart
from builds.recipes.engine.sides import without_side
from builds.recipes.facts import known_recipes
from builds.scrutineering.models.check import CarHas
from builds.work.engine.car_work import since
from builds.work.facts.car_works import last_events, works_of
from builds.work.models.job import Job
from builds.work.models.need import Need
from builds.work.models.owed import Owed
from builds.work.models.states import OPEN_STATES
from garage.models import Entry, Event, Vehicle
from parts.models import Balance, Move, Part, Place

# Work at these stations, or that asks for these skills, is done in the shop: its tools stay.
SHOP = {"paint", "welder", "floor", "weld"}


def entries_of(event: Event) -> list[Entry]:
    rows = Entry.objects.in_garage(event.garage_id).coming().filter(event=event)
    return list(rows.select_related("event", "vehicle").order_by("pk"))


def cars_to_pack(event: Event, at: datetime) -> list[Car]:
    """The entered cars as the engine takes them; as many queries for one car as for ten."""
    entries = entries_of(event)
    cars = [entry.vehicle for entry in entries]
    works, before = works_of(event.garage, cars, at), last_events(entries)
    has = dict(CarHas.objects.filter(vehicle__in=cars).values_list("vehicle", "tags"))
    touched = {
        car.pk: {system for work in since(works[car.pk], before.get(car.pk)) for system in work.systems} for car in cars
    }
    spares, owed, tools = _spares(event, touched), _owed(cars), _tools(event, cars, before)
    return [
        Car(
            car.pk,
            car.name,
            frozenset(has[car.pk]) if car.pk in has else None,
            tuple(spares[car.pk]),
            tuple(owed[car.pk]),
            tuple(tools[car.pk]),
        )
        for car in cars
    ]


def _stored(event: Event) -> dict[int, tuple[Part, int]]:
    """Parts (pk) that lie in the stores, and how much of each."""
    stored: dict[int, tuple[Part, int]] = {}
    balances = Balance.objects.stored().filter(part__garage=event.garage_id, part__gone_at=None)
    for balance in balances.select_related("part").order_by("part__name", "part_id"):
        part, held = stored.get(balance.part_id, (balance.part, 0))
        stored[balance.part_id] = part, held + balance.quantity
    return stored


def _spares(event: Event, worked_on: dict[int, set[str]]) -> dict[int, list[SparePart]]:
    """Of each car what lies in the stores and was fitted to it, is needed for it, or may serve."""
    stored = _stored(event)
    fitted: dict[int, set[int]] = defaultdict(set)
    moves = Move.objects.filter(verb="fit", target__kind=Place.Kind.CAR, target__vehicle__in=list(worked_on)).standing()
    for part, name, car in moves.values_list("part_id", "part__name", "target__vehicle_id"):
        # The like of what was fitted: the same part, or another one that is called the same.
        fitted[car] |= {part} | {pk for pk, (like, _) in stored.items() if like.name == name}
    needed: dict[int, set[int]] = defaultdict(set)
    wants = Need.objects.open().filter(job__vehicle__in=list(worked_on)).exclude(part=None)
    for part, car in wants.values_list("part_id", "job__vehicle_id"):
        needed[car].add(part)
    spares: dict[int, list[SparePart]] = {}
    for car, systems in worked_on.items():
        spares[car] = []
        for pk, (part, held) in stored.items():
            if part.condition in (Part.Condition.REPAIR, Part.Condition.SCRAP):
                continue
            touched = systems.intersection(part.systems)
            standing = {"needed": pk in needed[car], "fitted": pk in fitted[car], "touched": touched}
            if because := next((reason for reason, stands in standing.items() if stands), ""):
                spares[car].append(SparePart(pk, part.name, part.unit, held, because, tuple(touched)))
    return spares


def _owed(cars: Iterable[Vehicle]) -> dict[int, list[tuple[str, str]]]:
    owed: dict[int, list[tuple[str, str]]] = defaultdict(list)
    for debt in Owed.objects.filter(vehicle__in=list(cars)).open().select_related("move__part"):
        owed[debt.vehicle_id].append((str(debt.pk), debt.move.part.name))
    return owed


def _tools(event: Event, cars: Iterable[Vehicle], before: dict[int, datetime]) -> dict[int, list[tuple[str, str]]]:
    """Of each car the tools of recipes on it: still to do, or done since its last event."""
    recipes = {known.recipe.key: known.recipe for known in known_recipes(event.garage)}
    tools: dict[int, list[tuple[str, str]]] = defaultdict(list)
    jobs = Job.objects.filter(vehicle__in=list(cars)).exclude(recipe="").order_by("pk")
    for asked in jobs.values("vehicle_id", "recipe", "title", "state", "finished_at"):
        recipe, last = recipes.get(asked["recipe"]), before.get(asked["vehicle_id"])
        lately = asked["finished_at"] and (last is None or asked["finished_at"] > last)
        if recipe is None or not (asked["state"] in OPEN_STATES or lately):
            continue
        for job in recipe.jobs:
            if job.title == without_side(asked["title"]) and SHOP.isdisjoint({*job.stations, job.skill}):
                tools[asked["vehicle_id"]] += [(tool, job.title) for tool in job.tools]
    return tools
