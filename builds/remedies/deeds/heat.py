"""The shop is heated for some hours of a day, so that a cure is over sooner."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta
from itertools import islice
from typing import Self

from builds.cure.models.shop import HeatedHours
from builds.plan.engine.ids import is_fact, pk_of
from builds.plan.facts.rows import PlanRows
from builds.planner.axis import clip, joined, overlap
from builds.planner.problem import Job
from builds.remedies.deeds.deed import Deed
from builds.remedies.deeds.figures import shop_degrees, within_shop
from builds.remedies.deeds.fumes import clear_of, fumes
from builds.remedies.deeds.sooner import sooner
from builds.remedies.deeds.wall_hours import MIDNIGHT, AtWallHours, WallHours
from builds.remedies.engine.changes.sooner import Sooner
from builds.remedies.engine.standing import chain_to_last
from builds.remedies.facts.deed_rows import DeedRows
from builds.remedies.facts.late_car import LateCar
from builds.shop.actions import shop
from builds.work.engine.cure_times import CureTimes
from garage.engine.presence import wall_moment
from garage.models import Membership

# Hours of trouble for fetching a heater and for watching it a day, and how warm it makes the shop.
# Common practice, no source.
FETCHING, WATCHING, WARM_MC = 1.5, 0.5, 20_000
EVENING, LONGEST, SHORTEST = 48, 7 * 96, 8  # slots: a short heating, the longest, and the least that is worth one
MOST_CURES, MOST_COLD = 6, 2  # cures and cold sessions, and cold sessions of one job, that a heater is tried for

Slots = tuple[int, int]
"""From the first slot until before the second."""


@dataclass(frozen=True)
class HeatDeed(AtWallHours, Deed):
    """`warm_mc` is in thousandths of a °C."""

    kind = "heat"
    tried_as = "a heater for up to a week"
    way_back = "take the heated hours out on the page of the shop"
    caution = "A heater wants fresh air and somebody near, and never runs where solvent is in the air."

    since: int
    until: int
    warm_mc: int
    day: date

    def told(self, rows: DeedRows) -> str:
        return self._said(rows, str(self.when))

    def _said(self, rows: DeedRows, when: str) -> str:
        return f"The shop is heated to {shop_degrees(rows.garage, self.warm_mc)} {when}"

    @classmethod
    def told_together(cls, deeds: Sequence[Self], rows: DeedRows) -> Iterator[str]:
        """A night that goes on past midnight is one."""
        nights: list[list[Self]] = []
        for deed in deeds:
            if nights and deed.follows(nights[-1][-1]):
                nights[-1].append(deed)
            else:
                nights.append([deed])
        for first, *more in nights:
            over = f"{first.when.from_words()} to {more[-1].when.until_words()}" if more else str(first.when)
            yield first._said(rows, over)

    def follows(self, other: Self) -> bool:
        """Whether it goes on where the other ends, as warm."""
        at_midnight = (other.until, self.since) == (MIDNIGHT, 0) and self.day == other.day + timedelta(days=1)
        return at_midnight and self.warm_mc == other.warm_mc

    def do(self, rows: DeedRows, *, by: Membership, at: datetime) -> None:
        stretch, warm_mc = self.when.stretch(), within_shop(self.warm_mc)
        shop.heat(rows.garage, weekdays=[], day=self.day, hours=[(stretch.since, stretch.until)], warm_mc=warm_mc)

    @classmethod
    def changes(cls, deeds: Sequence[Self], car: LateCar) -> Iterator[Sooner]:
        """One for all of them: a cure takes what each of them gives."""
        trouble = FETCHING + WATCHING * len({deed.day for deed in deeds})
        if change := sooner(car, tuple(deeds), trouble, _heated(car.plan_rows, deeds)):
            yield change

    @classmethod
    def from_change(cls, change: Sooner, car: LateCar) -> tuple[Self, ...]:
        return change.behind

    @classmethod
    def offers(cls, car: LateCar) -> Iterator[Sooner]:
        """A warmer shop for a while from the beginning of a cure in the way, for all of it, and through all of
        them; and in sessions in which it is too cold for the work. Never while solvent is in the air.
        """
        work = {job.id for job in car.problem.must_do(car.vehicle)}
        work |= chain_to_last(car.problem, car.plan, car.vehicle)
        solvent = fumes(car)
        for begin, end in _heatings(sorted({*_cures(car, work), *_cold(car, work)}, key=lambda slots: slots[::-1])):
            least = min(SHORTEST, end - begin)
            pieces = (piece for piece in clear_of(begin, end, solvent) if piece[1] - piece[0] >= least)
            deeds = [deed for piece in pieces for deed in cls._between(car, *piece)]
            if deeds:
                yield from cls.changes(deeds, car)

    @classmethod
    def _between(cls, car: LateCar, begin: int, end: int) -> Iterator[Self]:
        """The slots as hours of single days."""
        while begin < end:
            when = WallHours.of_slots(car.clock, begin, end)
            yield cls(when.since, when.until, WARM_MC, when.day)
            begin = car.clock.first_from(wall_moment(when.day + timedelta(days=1), 0, car.clock.zone))


def _heatings(cures: list[Slots]) -> list[Slots]:
    """Short ones before long ones: a heater that does is not kept on for days."""
    whole = [(begin, min(end, begin + LONGEST)) for begin, end in cures[:MOST_CURES]]
    short = [(begin, min(end, begin + EVENING)) for begin, end in whole]
    through = [(begin, min(cures[-1][1], begin + LONGEST)) for begin, _ in cures[:1]]
    return list(dict.fromkeys((*short, *whole, *through)))


def _cures(car: LateCar, work: set[str]) -> Iterator[Slots]:
    """The slots of each cure that the work (ids) waits for."""
    ends = {placed.id: placed.end for placed in car.plan.placed}
    cures = {(0, job.earliest) for job in _curing(car, work)}
    for link in car.problem.links:
        if link.ready and link.after in work and link.before in ends:
            begin = ends[link.before]
            cures.add((begin, min(link.opens(begin), car.problem.slots)))
    return (cure for cure in cures if cure[1] - cure[0] >= SHORTEST)


def _cold(car: LateCar, work: set[str]) -> Iterator[Slots]:
    """The first sessions until the car leaves in which it is too cold for some of the work (ids)."""
    sessions = joined(clip(person.windows, car.due) for person in car.problem.people)
    for job in car.problem.jobs:
        if job.id in work and job.windows is not None:
            shut = (slots for slots in sessions if overlap((slots,), clip(job.windows, car.due)) != (slots,))
            yield from islice(shut, MOST_COLD)


def _curing(car: LateCar, names: set[str]) -> Iterator[Job]:
    """Those of the jobs (ids) that wait for a cure that runs already."""
    work = car.plan_rows.work
    for job in car.problem.jobs:
        waits = work.waits.get(pk_of(job.id), ()) if job.id in names and not is_fact(job.id) else ()
        if any(wait.before not in work.jobs and work.times.cure_of(wait) for wait in waits):
            yield job


def _heated(rows: PlanRows, deeds: Sequence[HeatDeed]) -> PlanRows:
    """The rows with the shop heated besides; nothing is fetched again for it."""
    hours = tuple(
        HeatedHours(day=deed.day, from_minute=deed.since, until_minute=deed.until, warm_mc=deed.warm_mc)
        for deed in deeds
    )
    shop = rows.work.times.shop
    heated = CureTimes(replace(shop, also=(*shop.also, *hours)))
    return replace(rows, work=replace(rows.work, times=heated))
