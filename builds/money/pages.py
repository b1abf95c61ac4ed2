"""What things cost, told: the fleet, a car, an event."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime

from django.core.paginator import Page, Paginator

from builds.money.engine import Cost, price
from builds.money.facts import NOTHING, CostedJob, CostedPart, Money, load_money, total
from builds.work.engine.state_words import STATE_WORDS
from garage.engine.money import money_words
from garage.models import Event, Garage, Vehicle
from parts.engine.words import amount_words

ROWS = 30


@dataclass(frozen=True)
class CostTotal:
    """An amount in words, and how many things in it have no price."""

    words: str
    unpriced: int


@dataclass(frozen=True)
class Spent:
    """What went in and what is ordered; `left` of the budget, or `over` it, empty without one."""

    into: CostTotal
    ordered: CostTotal
    budget: str = ""
    left: str = ""
    over: str = ""


@dataclass(frozen=True)
class ThingLine:
    thing: Vehicle | Event
    spent: Spent


@dataclass(frozen=True)
class CostLine:
    """One part, thing bought, order or job: what, how much, each and in all."""

    what: str
    url: tuple[str, int] | None
    amount: str
    unit_price: str
    sum: CostTotal


@dataclass(frozen=True)
class FleetView:
    into: CostTotal
    ordered: CostTotal
    cars: tuple[ThingLine, ...]
    gone: tuple[ThingLine, ...]
    events: tuple[ThingLine, ...]
    used_counts: bool


@dataclass(frozen=True)
class CarView:
    """`parts`, `bought` and `jobs` are pages of lines, since a car's history is long."""

    spent: Spent
    parts: Page
    bought: Page
    orders: tuple[CostLine, ...]
    jobs: Page
    budget: int | None
    used_counts: bool


@dataclass(frozen=True)
class EventView:
    spent: Spent
    cars: tuple[tuple[Vehicle, CostTotal, tuple[CostLine, ...]], ...]
    orders: tuple[CostLine, ...]
    budget: int | None
    used_counts: bool


def fleet_view(garage: Garage, at: datetime) -> FleetView:
    money = load_money(garage, at)
    lines = tuple(ThingLine(car, _car(money, car)) for car in money.vehicles)
    return FleetView(
        _sum(money, total(money.of_car(car) for car in money.vehicles)),
        _sum(money, money.ordered_for(money.jobs.values())),
        tuple(line for line, car in zip(lines, money.vehicles, strict=True) if not car.gone_at),
        tuple(line for line, car in zip(lines, money.vehicles, strict=True) if car.gone_at),
        tuple(ThingLine(event, _event(money, event)) for event in money.events),
        garage.used_cost_counts,
    )


def car_view(vehicle: Vehicle, garage: Garage, at: datetime, asked: Mapping[str, str]) -> CarView:
    """`asked` says which page of each list, by its name."""
    money = load_money(garage, at, vehicle)
    jobs = money.jobs_on(vehicle)
    parts = Paginator(money.parts_of.get(vehicle.pk, []), ROWS).get_page(asked.get("parts"))
    parts.object_list = [_part(money, part, amount) for part, amount in parts.object_list]
    return CarView(
        _car(money, vehicle),
        parts,
        Paginator(_bought(money, jobs), ROWS).get_page(asked.get("bought")),
        _orders(money, jobs),
        Paginator(_jobs(money, jobs), ROWS).get_page(asked.get("jobs")),
        money.budget(vehicle),
        garage.used_cost_counts,
    )


def event_view(event: Event, garage: Garage, at: datetime) -> EventView:
    money = load_money(garage, at)
    jobs = money.event_jobs.get(event.pk, ())
    cars = []
    for car in money.vehicles:
        mine = [job for job in jobs if job.vehicle_id == car.pk]
        if mine:
            spent = total(money.of_job(job) for job in mine)
            cars.append((car, _sum(money, spent), _jobs(money, mine)))
    return EventView(
        _event(money, event),
        tuple(cars),
        _orders(money, jobs),
        money.budget(event),
        garage.used_cost_counts,
    )


def _car(money: Money, car: Vehicle) -> Spent:
    ordered = money.ordered_for(money.jobs_on(car))
    return _spent(money, money.of_car(car), ordered, money.budget(car))


def _event(money: Money, event: Event) -> Spent:
    ordered = money.ordered_for(money.event_jobs.get(event.pk, ()))
    return _spent(money, money.of_event(event), ordered, money.budget(event))


def _spent(money: Money, into: Cost, ordered: Cost, budget: int | None) -> Spent:
    """What is ordered is as good as spent: it counts against the budget."""
    if budget is None:
        return Spent(_sum(money, into), _sum(money, ordered))
    left = budget - into.minor - ordered.minor
    return Spent(
        _sum(money, into),
        _sum(money, ordered),
        budget=_words(money, budget),
        left=_words(money, left) if left >= 0 else "",
        over=_words(money, -left) if left < 0 else "",
    )


def _sum(money: Money, cost: Cost) -> CostTotal:
    return CostTotal(_words(money, cost.minor), cost.unpriced)


def _line(money: Money, cost: Cost) -> CostTotal:
    """Of one thing: its price, or that it has none."""
    return CostTotal("no price", 0) if cost.unpriced else _sum(money, cost)


def _words(money: Money, minor: int) -> str:
    return money_words(minor, money.garage.currency)


def _part(money: Money, part: CostedPart, amount: int) -> CostLine:
    unit_price = money.each(part)
    return CostLine(
        part.name,
        ("part_page", part.pk),
        amount_words(part.unit, amount),
        "" if unit_price is None else _words(money, unit_price),
        _line(money, price(unit_price, amount)),
    )


def _bought(money: Money, jobs: Iterable[CostedJob]) -> tuple[CostLine, ...]:
    return tuple(
        CostLine(need.what, ("job_page", job.pk), str(need.quantity), "",
                 _line(money, price(need.cost_minor, 1)))
        for job in jobs
        for need in money.bought.get(job.pk, ())
    )  # fmt: skip


def _orders(money: Money, jobs: Iterable[CostedJob]) -> tuple[CostLine, ...]:
    return tuple(
        CostLine(need.what, ("job_page", job.pk), str(need.quantity), "",
                 _line(money, money.order(need)))
        for job in jobs
        for need in money.ordered.get(job.pk, ())
    )  # fmt: skip


def _jobs(money: Money, jobs: Sequence[CostedJob]) -> tuple[CostLine, ...]:
    """Those that cost something, or that something without a price went into."""
    costs = ((job, money.of_job(job)) for job in jobs)
    return tuple(
        CostLine(job.title, ("job_page", job.pk), STATE_WORDS[job.state], "", _sum(money, cost))
        for job, cost in costs
        if cost != NOTHING
    )
