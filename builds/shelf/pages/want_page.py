"""What the open jobs want, by how it stands, and what is to be bought, by supplier."""

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from datetime import date, datetime

from builds.needs.facts.wants import Wants, wants_of
from builds.needs.pages.alike import alike_on_shelf
from builds.needs.pages.by_day import BEING_FOUND, ByDay, by_day
from builds.needs.pages.needs import NeedLine, need_line
from builds.needs.pages.words import STATES
from builds.plan.facts.last_days import last_days
from builds.work.engine.open_work import Work
from builds.work.facts.work import load_work
from builds.work.models.job import Job
from builds.work.models.need import Need
from builds.work.models.states import OPEN_STATES
from garage.engine.money import money_words
from garage.models import Garage
from parts.engine.words import amount_words
from parts.models import Part

TO_BUY = ("find", "promised")


@dataclass(frozen=True)
class WantRow:
    """A want with its job; `rank` as urgent as what waits for the job."""

    line: NeedLine
    job: Job
    rank: str
    quantity: str


@dataclass(frozen=True)
class BuyRow:
    """One thing to buy: how much, why, and what it costs if that is known.

    `alike` says that the shelf has something of that name or size, which `look` (a need, pk) may be.
    """

    what: str
    why: str
    url_part: int | None
    cost_minor: int | None
    cost: str
    by: ByDay | None = None
    alike: str = ""
    look: int | None = None


@dataclass(frozen=True)
class Supplier:
    """`total` of what has a price; `unpriced` is how many have none."""

    name: str
    rows: tuple[BuyRow, ...]
    total: str
    unpriced: int


@dataclass(frozen=True)
class WantPage:
    """`being_found` says that some last days are still worked out."""

    groups: tuple[tuple[str, str, tuple[WantRow, ...]], ...]
    suppliers: tuple[Supplier, ...]
    ordered: str
    being_found: str

    @property
    def dated(self) -> bool:
        """Whether of any it is said until when it may come."""
        return any(want.line.by for _, _, wants in self.groups for want in wants)


def load_want_page(garage: Garage, at: datetime) -> WantPage:
    """Five queries more than the work, and two where something is wanted in words alone."""
    work = load_work(garage, at)
    wants = wants_of(work)
    kept = last_days(garage)
    rows: dict[str, list[WantRow]] = defaultdict(list)
    for need in wants.needs:
        rows[wants.standing[need.pk].state].append(_row(need, wants, work, kept.days))
    costs = [
        need.cost_minor
        for need in wants.needs
        if wants.standing[need.pk].state == "ordered" and need.cost_minor is not None
    ]
    return WantPage(
        tuple((state, label, tuple(rows[state])) for state, label in STATES.items() if rows[state]),
        _suppliers(wants, work, kept.days, Part.objects.in_garage(garage).kept().low()),
        money_words(sum(costs), garage.currency) if costs else "",
        BEING_FOUND if kept.yet_to_find(wants) else "",
    )


def wants_for(part: Part, at: datetime) -> list[WantRow]:
    """The open jobs that want a part, in the order in which they get it, then those that have it; one query if none."""
    asked = Need.objects.in_garage(part.garage_id).filter(part=part)
    asked = list(asked.filter(job__state__in=OPEN_STATES).select_related("part", "job__vehicle").order_by("pk"))
    if not asked:
        return []
    work = load_work(part.garage, at)
    wants = wants_of(work)
    days = last_days(part.garage).days
    waiting = [need for need in wants.needs if need.part_id == part.pk]
    there = [need for need in asked if need.got_at is not None and need.job_id in work.urgency]
    return [_row(need, wants, work, days) for need in (*waiting, *there)]


def _row(need: Need, wants: Wants, work: Work, days: Mapping[int, date]) -> WantRow:
    garage, today = work.garage, work.times.shop.today
    unit = need.part.unit if need.part else "piece"
    return WantRow(
        need_line(need, today, wants.standing.get(need.pk), garage.currency, days.get(need.job_id)),
        need.job,
        work.urgency[need.job_id].rank,
        amount_words(unit, need.quantity),
    )


def _suppliers(wants: Wants, work: Work, days: Mapping[int, date], low: Iterable[Part]) -> tuple[Supplier, ...]:
    garage, today = work.garage, work.times.shop.today
    to_buy: dict[str, list[BuyRow]] = defaultdict(list)
    needs = [need for need in wants.needs if wants.standing[need.pk].state in TO_BUY]
    alike = alike_on_shelf([need for need in needs if need.part is None], garage)
    for need in needs:
        supplier = need.supplier or (need.part.supplier if need.part else "")
        short, by = wants.standing[need.pk].short, by_day(need, days.get(need.job_id), today)
        row = _wanted(need, short, garage, by)
        to_buy[supplier].append(replace(row, alike=alike[need.pk], look=need.pk) if need.pk in alike else row)
    for part in low:
        to_buy[part.supplier].append(_runs_low(part, garage))
    return tuple(_supplier(name, to_buy[name], garage) for name in sorted(to_buy, key=_named_first))


def _named_first(name: str) -> tuple[bool, str]:
    return (not name, name.casefold())


def _wanted(need: Need, short: int, garage: Garage, by: ByDay | None) -> BuyRow:
    unit = need.part.unit if need.part else "piece"
    cost = _price(need, short)
    what, why = f"{need.what}, {amount_words(unit, short)}", f"for “{need.job}” ({need.job.vehicle})"
    return BuyRow(what, why, need.part_id, cost, _cost_words(cost, garage), by)


def _price(need: Need, short: int) -> int | None:
    """Of as many as are short: by what is written beside the need for all of it, else by what the shelf paid."""
    if need.cost_minor is not None:
        return need.cost_minor * short // need.quantity
    paid = need.part.cost_minor if need.part else None
    return None if paid is None else paid * short


def _runs_low(part: Part, garage: Garage) -> BuyRow:
    short = part.low_level - part.held
    cost = None if part.cost_minor is None else part.cost_minor * short
    why = f"runs low: {amount_words(part.unit, part.held)} left of {part.low_level}"
    return BuyRow(f"{part}, {amount_words(part.unit, short)}", why, part.pk, cost, _cost_words(cost, garage), None)


def _cost_words(minor: int | None, garage: Garage) -> str:
    return "" if minor is None else money_words(minor, garage.currency)


def _supplier(name: str, rows: list[BuyRow], garage: Garage) -> Supplier:
    priced = [line.cost_minor for line in rows if line.cost_minor is not None]
    total = money_words(sum(priced), garage.currency) if priced else ""
    return Supplier(name, tuple(rows), total, len(rows) - len(priced))
