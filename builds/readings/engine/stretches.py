"""Readings that are left over, in stretches of the measuring chain: other jobs have their place between them."""

from collections.abc import Collection, Iterable, Mapping
from itertools import pairwise

from builds.readings.engine.car_job import ON_WHEELS, STAGE, CarJob, ChainStep
from builds.readings.engine.kinds_of_work import voided_by
from builds.readings.engine.order_of_work import Pair
from builds.readings.engine.what_leads import Order

# Nothing is read there, so that nothing has to be read before.
_UNREAD = frozenset({ChainStep.ON_WHEELS, ChainStep.RACK})


def stretches(left: Iterable[str], jobs: Mapping[int, CarJob], links: Iterable[Pair]) -> list[tuple[str, ...]]:
    """The readings (slugs, or keys of the garage's own) that one job can take after another, the first stretch first.

    Each lies at its step of the chain, or at that of a later job that disturbs it; what has no step goes with the last
    before the car is driven. A new stretch begins where another job has its step between two readings: toe that
    somebody sets by hand is set after camber was read, and before full lock is tried. `links` are all there are.
    """
    at = {slug: _step(slug, jobs) for slug in left}
    steps = sorted({step for step in at.values() if step is not None})
    between = _steps_of(jobs, Order(links))
    begins = steps[:1]
    begins += [later for earlier, later in pairwise(steps) if any(earlier < step <= later for step in between)]
    still = max((step for step in steps if step < ChainStep.DRIVEN), default=ChainStep.LOADED)
    parts: dict[ChainStep, list[str]] = {}
    for slug, step in at.items():
        mine = still if step is None else step
        parts.setdefault(max((begin for begin in begins if begin <= mine), default=still), []).append(slug)
    return [tuple(parts[begin]) for begin in sorted(parts)]


def _step(slug: str, jobs: Mapping[int, CarJob]) -> ChainStep | None:
    """Where it can be taken: its own step, or that of the last job in the chain that disturbs it and takes it not."""
    own = [STAGE[slug]] if slug in STAGE else []
    disturbing = [
        job.step
        for job in jobs.values()
        if job.step is not None
        and job.kinds != (ON_WHEELS,)
        and slug not in job.measures
        and slug in voided_by(job.kinds)
    ]
    return max([*own, *disturbing], default=None)


def _steps_of(jobs: Mapping[int, CarJob], order: Order[int]) -> Collection[ChainStep]:
    """The steps at which others measure or drive; how the car stood before its work says nothing of these."""

    def is_spoilt(id: int, taken: CarJob) -> bool:
        later = (job for other, job in jobs.items() if order.leads(id, other))
        return any(voided_by(job.kinds).intersection(taken.measures).difference(job.measures) for job in later)

    there = {job.step for id, job in jobs.items() if job.step is not None and not is_spoilt(id, job)}
    return there - _UNREAD
