"""What each car, job and event cost, what is ordered, and what is left of a budget."""

from collections import Counter, defaultdict
from collections.abc import Iterable
from dataclasses import dataclass, field, replace
from datetime import datetime
from typing import NamedTuple

from django.db.models import Q

from builds.money.engine import Cost, Moved, event_of, into_cars, into_jobs, price
from builds.money.models import Budget
from builds.work.models.job import Job
from builds.work.models.need import Need
from builds.work.models.states import State
from garage.models import Entry, Event, Garage, Vehicle
from garage.remembered import remembered
from parts.models import Move, Part


class CostedPart(NamedTuple):
    pk: int
    name: str
    unit: str
    condition: str
    cost_minor: int | None


class CostedJob(NamedTuple):
    pk: int
    title: str
    state: str
    finished_at: datetime | None
    vehicle_id: int


Amounts = dict[int, list[tuple[CostedPart, int]]]


@dataclass(frozen=True)
class Money:
    """The costs of a garage, or of one car; `parts_of` and `parts_for` list amounts by car and by job.

    `of_jobs` and `of_cars` are the costs of those that cost something. `event_jobs` is empty for one car.
    """

    garage: Garage
    vehicles: tuple[Vehicle, ...]
    jobs: dict[int, CostedJob]
    events: tuple[Event, ...]
    parts_of: Amounts
    parts_for: Amounts
    bought: dict[int, list[Need]]
    ordered: dict[int, list[Need]]
    budgets: dict[tuple[str, int], int] = field(default_factory=dict)
    of_jobs: dict[int, Cost] = field(default_factory=dict)
    of_cars: dict[int, Cost] = field(default_factory=dict)
    event_jobs: dict[int, tuple[CostedJob, ...]] = field(default_factory=dict)

    def each(self, part: CostedPart) -> int | None:
        """What one counts at: a used one at nought, when the owner chose that."""
        new = part.condition == Part.Condition.NEW
        return part.cost_minor if new or self.garage.used_cost_counts else 0

    def parts(self, rows: Iterable[tuple[CostedPart, int]]) -> Cost:
        return total(price(self.each(part), quantity) for part, quantity in rows)

    def of_job(self, job: CostedJob | Job) -> Cost:
        return self.of_jobs.get(job.pk, NOTHING)

    def of_car(self, vehicle: Vehicle) -> Cost:
        """Its parts, and what was bought for its jobs and never lay on the shelf."""
        return self.of_cars.get(vehicle.pk, NOTHING)

    def bought_for(self, jobs: Iterable[CostedJob]) -> Cost:
        return total(price(need.cost_minor, 1) for job in jobs for need in self.bought.get(job.pk, ()))

    def of_event(self, event: Event) -> Cost:
        return total(self.of_job(job) for job in self.event_jobs.get(event.pk, ()))

    def ordered_for(self, jobs: Iterable[CostedJob]) -> Cost:
        return total(self.order(need) for job in jobs for need in self.ordered.get(job.pk, ()))

    def order(self, need: Need) -> Cost:
        """What is said to be its price, else what so many of the part cost."""
        if need.cost_minor is not None:
            return Cost(need.cost_minor)
        return price(need.part.cost_minor if need.part else None, need.quantity)

    def jobs_on(self, vehicle: Vehicle) -> list[CostedJob]:
        return [job for job in self.jobs.values() if job.vehicle_id == vehicle.pk]

    def budget(self, thing: Vehicle | Event) -> int | None:
        return self.budgets.get((thing._meta.model_name or "", thing.pk))


NOTHING = Cost()


def total(costs: Iterable[Cost]) -> Cost:
    minor = unpriced = 0
    for cost in costs:
        minor += cost.minor
        unpriced += cost.unpriced
    return Cost(minor, unpriced)


def load_money(garage: Garage, at: datetime, of: Vehicle | None = None) -> Money:
    """The same queries for any garage; `of` one car alone what went into that and its jobs.

    The ledger is read once for as long as nothing is written; for which event an open job is, the clock says.
    """
    money = remembered(garage, ("money", of.pk if of else None), lambda: _read(garage, of))
    money = replace(money, garage=garage)
    return money if of else replace(money, event_jobs=_event_jobs(garage, money.jobs.values(), at))


def _read(garage: Garage, of: Vehicle | None) -> Money:
    """Seven queries."""
    moves = _moves(garage, of)
    amounts, used = into_cars(moves), into_jobs(moves)
    if of:  # what came off another car for a job of this one is that one's
        amounts = Counter({key: quantity for key, quantity in amounts.items() if key[0] == of.pk})
    known = Part.objects.in_garage(garage).values_list(*CostedPart._fields)
    asked = {part for _, part in (*amounts, *used)}
    parts = {part[0]: CostedPart(*part) for part in (known.filter(pk__in=asked) if of else known)}
    rows = Job.objects.in_garage(garage).filter(**({"vehicle": of} if of else {}))
    jobs = {job[0]: CostedJob(*job) for job in rows.values_list(*CostedJob._fields)}
    events = tuple(Event.objects.in_garage(garage).order_by("-gates_at", "-pk"))
    bought, ordered = _needs(garage, of)
    money = Money(
        garage,
        tuple(Vehicle.objects.in_garage(garage).order_by("gone_at", "pk")),
        jobs,
        events,
        _listed(amounts, parts),
        _listed(used, parts),
        bought,
        ordered,
        _budgets(garage),
    )
    return replace(money, of_jobs=_of_jobs(money), of_cars=_of_cars(money))


def _of_jobs(money: Money) -> dict[int, Cost]:
    paid = {
        pk: money.parts(money.parts_for.get(pk, ())) + money.bought_for([money.jobs[pk]])
        for pk in money.jobs.keys() & (money.parts_for.keys() | money.bought.keys())
    }
    return {pk: cost for pk, cost in paid.items() if cost != NOTHING}


def _moves(garage: Garage, of: Vehicle | None) -> list[Moved]:
    of_cars = Q(target__kind="car") | Q(source__kind="car") | Q(verb="scrap", use__isnull=False)
    if of:
        of_cars &= Q(target__vehicle=of) | Q(source__vehicle=of) | Q(use__job__vehicle=of)
    rows = Move.objects.in_garage(garage).standing().filter(of_cars).order_by("pk")
    ends = ("source__kind", "source__vehicle_id", "target__kind", "target__vehicle_id")
    job = ("use__job_id", "use__job__vehicle_id")
    return [Moved(*move) for move in rows.values_list("part_id", "verb", "quantity", *ends, *job)]


def _of_cars(money: Money) -> dict[int, Cost]:
    paid = {car: money.parts(rows) for car, rows in money.parts_of.items()}
    for pk in money.bought.keys() & money.jobs.keys():
        job = money.jobs[pk]
        paid[job.vehicle_id] = paid.get(job.vehicle_id, NOTHING) + money.bought_for([job])
    return paid


def _listed(amounts: Counter[tuple[int, int]], parts: dict[int, CostedPart]) -> Amounts:
    listed: Amounts = defaultdict(list)
    for (owner, part), quantity in amounts.items():
        if quantity:
            listed[owner].append((parts[part], quantity))
    for rows in listed.values():
        rows.sort(key=lambda line: (line[0].name.casefold(), line[0].pk))
    return listed


def _needs(garage: Garage, of: Vehicle | None) -> tuple[dict[int, list[Need]], dict[int, list[Need]]]:
    """Bought for a job without being a part of the shelf; and ordered but not yet here."""
    bought: dict[int, list[Need]] = defaultdict(list)
    ordered: dict[int, list[Need]] = defaultdict(list)
    rows = Need.objects.in_garage(garage).filter(**({"job__vehicle": of} if of else {}))
    # What is a part of the shelf costs when it is fitted, as the ledger says.
    for need in rows.filter(got_at__isnull=False, part=None):
        bought[need.job_id].append(need)
    for need in rows.open().filter(expected_on__isnull=False).select_related("part"):
        ordered[need.job_id].append(need)
    return bought, ordered


def _event_jobs(garage: Garage, jobs: Iterable[CostedJob], at: datetime) -> dict[int, tuple[CostedJob, ...]]:
    """Each job counts for one event: the first of its car to end after it was finished."""
    entered: dict[int, list[Event]] = defaultdict(list)
    entries = Entry.objects.in_garage(garage).select_related("event")
    for entry in entries.order_by("event__ends_at", "event_id"):
        entered[entry.vehicle_id].append(entry.event)
    ends = {car: [event.ends_at for event in events] for car, events in entered.items()}
    done: dict[int, list[CostedJob]] = defaultdict(list)
    for job in jobs:
        position = event_of(job.finished_at or at, ends.get(job.vehicle_id, ()))
        if position is not None and job.state != State.DROPPED:
            done[entered[job.vehicle_id][position].pk].append(job)
    return {event: tuple(rows) for event, rows in done.items()}


def _budgets(garage: Garage) -> dict[tuple[str, int], int]:
    rows = Budget.objects.in_garage(garage).values_list("vehicle_id", "event_id", "minor")
    return {("vehicle", car) if car else ("event", event): minor for car, event, minor in rows}
