"""The order of work on one car: links that the trade draws between jobs, whoever wrote them down.

Common practice, no published source: pressures and load as raced, ride height, bump steer, corner
weights, camber and caster, rear toe, front toe, wheel torque, full lock and clearance, bedding in.
"""

from collections.abc import Callable, Collection, Hashable, Iterable, Mapping
from dataclasses import dataclass
from itertools import combinations, pairwise, product
from typing import Generic, TypeVar

from builds.readings.engine.kinds_of_work import voided_by
from builds.readings.engine.vocabulary import in_measuring_order

Id = TypeVar("Id", bound=Hashable)
Pair = tuple[int, int]
Draw = Callable[[int, int], None]

# The measuring chain, stage by stage (slugs of readings); a later stage may disturb an earlier one
# and then takes it again as its last act, so that the trade's order alone counts inside the chain.
CHAIN: tuple[frozenset[str], ...] = (
    frozenset({"tyre_pressures", "ballast_position"}),
    frozenset({"ride_height"}),
    frozenset({"bump_steer"}),
    frozenset({"corner_weights", "cg_height"}),
    frozenset({"camber", "caster"}),
    frozenset({"toe_rear"}),
    frozenset({"toe_front"}),
    frozenset({"wheel_torque"}),
    frozenset({"lock_angles", "ackermann", "toggle_check", "lock_clearance", "hose_check"}),
    frozenset({"pad_bedding"}),
)
STAGE = {slug: stage for stage, slugs in enumerate(CHAIN) for slug in slugs}
WHEELS_TORQUED = STAGE["wheel_torque"]
DRIVEN = STAGE["pad_bedding"]
DRIVES = "driven"  # the kind of work that moves the car under its own power
# Work on these is over before the wheels are torqued and the clearances looked at.
CORNER_SYSTEMS = frozenset({"steering", "brakes", "suspension", "wheels"})


@dataclass(frozen=True, slots=True)
class CarJob:
    """A job still to do on the car: its kinds of work, systems and the readings it takes (slugs).

    `again` takes what is left over once all is done, and is nobody's *before* reading.
    """

    kinds: tuple[str, ...] = ()
    measures: tuple[str, ...] = ()
    systems: tuple[str, ...] = ()
    again: bool = False

    @property
    def stages(self) -> tuple[int, ...]:
        """Where it stands in the chain, lowest first; nothing for work outside it."""
        driven = {DRIVEN} if DRIVES in self.kinds else set()
        return tuple(sorted({STAGE[slug] for slug in self.measures if slug in STAGE} | driven))


class Order(Generic[Id]):
    """What comes after what; a link that would close a circle is not taken.

    Everything ahead of a job is kept as one integer with a bit a job, so that asking costs nothing.
    """

    def __init__(self, links: Iterable[tuple[Id, Id]]) -> None:
        self._bit: dict[Id, int] = {}
        self._ahead: dict[Id, int] = {}
        for before, after in links:
            self._add(before, after)

    def leads(self, before: Id, after: Id) -> bool:
        """Whether `after` comes after `before`, through however many others."""
        return bool(self._ahead.get(after, 0) & self._bit.get(before, 0))

    def take(self, before: Id, after: Id) -> bool:
        """Add the link unless it says nothing new or contradicts what is there."""
        if before == after or self.leads(before, after) or self.leads(after, before):
            return False
        self._add(before, after)
        return True

    def _add(self, before: Id, after: Id) -> None:
        for job in (before, after):
            self._bit.setdefault(job, 1 << len(self._bit))
            self._ahead.setdefault(job, 0)
        gained = self._ahead[before] | self._bit[before]
        for job, ahead in self._ahead.items():
            if job == after or ahead & self._bit[after]:
                self._ahead[job] = ahead | gained


def order_of_work(
    jobs: Mapping[int, CarJob],
    links: Collection[Pair] = (),
    strips: Collection[Pair] = (),
    cut: Collection[Pair] = (),
) -> tuple[Pair, ...]:
    """The links (before, after) that the order of work adds to the `links` there are.

    `strips` are pairs of jobs from whose first to whose last the car is stripped; a first job that
    is not among `jobs` has begun. A reading that is linked ahead of the work that spoils it is a
    *before* reading and stays ahead of all such work. Links that others imply are left out, those
    that would contradict the ones given as well: what somebody linked by hand stands, and what
    somebody `cut` is not drawn. ValueError for unknown kinds.
    """
    order, added = Order(links), []

    def draw(before: int, after: int) -> None:
        if (before, after) not in cut and order.take(before, after):
            added.append((before, after))

    ahead = {job for job in jobs if _is_before_reading(job, jobs, order)}
    chain = sorted(
        (job for job in jobs if jobs[job].stages and job not in ahead), key=lambda job: (_place(jobs[job]), job)
    )
    work = [job for job in jobs if not jobs[job].stages and job not in ahead]
    _draw_before_readings(ahead, work, jobs, draw)
    for strip in strips:
        _draw_strip(strip, chain, ahead, jobs, order, draw)
    _draw_work(chain, work, jobs, draw)
    _draw_work(work, [*work, *chain], jobs, draw)
    _draw_chain(chain, jobs, draw)
    return _needed(added, links)


def _draw_before_readings(ahead: Iterable[int], work: Iterable[int], jobs: Mapping[int, CarJob], draw: Draw) -> None:
    for reading, worked in product(ahead, work):
        if voided_by(jobs[worked].kinds).intersection(jobs[reading].measures):
            draw(reading, worked)


def _draw_work(takers: Iterable[int], work: Iterable[int], jobs: Mapping[int, CarJob], draw: Draw) -> None:
    for taken, worked in product(takers, work):
        if _comes_first(jobs[worked], jobs[taken]):
            draw(worked, taken)


def _draw_chain(chain: list[int], jobs: Mapping[int, CarJob], draw: Draw) -> None:
    """Neighbours before the rest: what they imply need not be said again."""
    for earlier, later in (*pairwise(chain), *combinations(chain, 2)):
        if _place(jobs[earlier]) < _place(jobs[later]):
            draw(earlier, later)


def untaken(need: Collection[str], jobs: Mapping[int, CarJob], links: Iterable[Pair]) -> tuple[str, ...]:
    """Readings (slugs, in measuring order) that no job takes after all the work that disturbs them.

    `links` (before, after) are all there are, those of the order of work too. ValueError for
    unknown kinds and readings.
    """
    order = Order(links)

    def taken(slug: str) -> bool:
        spoiling = [job for job, work in jobs.items() if slug in voided_by(work.kinds)]
        return any(
            slug in work.measures and not any(order.leads(job, other) for other in spoiling)
            for job, work in jobs.items()
        )

    return tuple(slug for slug in in_measuring_order(need) if not taken(slug))


def _needed(added: list[Pair], links: Collection[Pair]) -> tuple[Pair, ...]:
    """Of links that were added those that say something the others do not."""
    onward: dict[int, set[int]] = {}
    for before, after in (*links, *added):
        onward.setdefault(before, set()).add(after)
    order = Order((*links, *added))
    return tuple(
        (before, after)
        for before, after in added
        if not any(order.leads(other, after) for other in onward[before] if other != after)
    )


def _place(job: CarJob) -> Pair:
    """A job of several stages stands where its last one does; of two such, the shorter one first."""
    return job.stages[-1], -job.stages[0]


def _is_before_reading(reading: int, jobs: Mapping[int, CarJob], order: Order[int]) -> bool:
    """It only measures, and somebody linked it ahead of work that spoils what it measures."""
    taken = jobs[reading]
    if taken.again or taken.kinds or not taken.measures:
        return False
    spoiling = [job for job, work in jobs.items() if voided_by(work.kinds).intersection(taken.measures)]
    ahead_of_work = any(order.leads(reading, job) for job in spoiling if not jobs[job].stages)
    return ahead_of_work and not any(order.leads(job, reading) for job in spoiling)


def _comes_first(worked: CarJob, taken: CarJob) -> bool:
    """Whether work has to be over before a job that takes readings."""
    voids = voided_by(worked.kinds).intersection(taken.measures)
    if voids.difference(worked.measures) or (voids and not voided_by(taken.kinds) & voids):
        return True
    if worked.stages or not taken.stages or taken.stages[-1] < WHEELS_TORQUED:
        return False
    return bool(worked.kinds) and not CORNER_SYSTEMS.isdisjoint(worked.systems)


def _draw_strip(
    strip: Pair, chain: Iterable[int], ahead: Collection[int], jobs: Mapping[int, CarJob], order: Order[int], draw: Draw
) -> None:
    """Nobody measures or drives a stripped car: before it is stripped, or once it stands again."""
    stripped, whole = strip
    for job in (*chain, *(reading for reading in ahead if jobs[reading].stages)):
        if job in strip or order.leads(job, stripped):
            continue
        if (stripped not in jobs or order.leads(stripped, job)) and order.leads(job, whole):
            continue  # a check within the work, such as a clearance on the stands
        if job in ahead and stripped in jobs:
            draw(job, stripped)
        else:
            draw(whole, job)
