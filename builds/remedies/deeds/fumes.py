"""When solvent is in the air of the shop by the plan: no heater is advised then."""

from collections.abc import Iterable, Iterator

from builds.cure.engine import Stage
from builds.plan.engine.ids import id_of
from builds.planner.axis import clip, joined
from builds.planner.fields import Windows
from builds.remedies.facts.late_car import LateCar

PAINTS = frozenset({"paint", "paint_under_joint", "two_pack"})
AIRED = 48
"""Slots after the end of a coat for which no heater is advised: the night after it, in which nobody is in to air the
shop. Common practice, no source."""


def fumes(car: LateCar) -> Windows:
    """From the beginning of every coat on any car until it is aired, in slots."""
    return joined([clip([coat], car.problem.slots) for coat in _coats(car)])


def clear_of(begin: int, end: int, windows: Windows) -> Iterator[tuple[int, int]]:
    """What of [begin, end) lies outside of the windows, in order."""
    for since, until in windows:
        if begin < min(since, end):
            yield begin, min(since, end)
        begin = max(begin, until)
    if begin < end:
        yield begin, end


def _coats(car: LateCar) -> Iterable[tuple[int, int]]:
    """What takes another coat is one: paint, primer, sealer; not filler nor glue. So is what is said to be paint."""
    work = car.plan_rows.work
    placed = {job.id: job for job in car.plan.placed}
    for job in work.jobs.values():
        if not PAINTS.isdisjoint(job.kinds) and (coat := placed.get(id_of("job", job.pk))):
            yield coat.start, coat.end + AIRED
    for wait in work.links:
        cure, before = work.times.cure_of(wait), work.before[wait.before]
        if cure is None or not cure[0].has(Stage.RECOAT_FROM):
            continue
        if coat := placed.get(id_of("job", before.pk)):
            yield coat.start, coat.end + AIRED
        elif before.finished_at:
            over = car.clock.first_from(before.finished_at)
            yield over, over + AIRED
