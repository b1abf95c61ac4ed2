"""Which jobs of a recipe a car has already: measured once at the end, however many recipes ask for it."""

from collections.abc import Collection, Hashable, Mapping
from dataclasses import dataclass
from typing import TypeVar

from builds.readings.engine.order_of_work import STAGE, CarJob, Order, Pair
from builds.recipes.engine.recipe import Recipe, RecipeJob

ALIGNMENT = frozenset({"camber", "caster", "toe_rear", "toe_front"})
Id = TypeVar("Id", bound=Hashable)


@dataclass(frozen=True, slots=True)
class JobOnCar:
    """A job of the car that nobody has begun."""

    title: str
    kinds: tuple[str, ...] = ()
    measures: tuple[str, ...] = ()


def met(recipe: Recipe, on_car: Mapping[int, JobOnCar], links: Collection[Pair]) -> dict[str, int]:
    """For jobs of the recipe (key) the job of the car (id) that can serve for both.

    Two serve as one when they are the same work, or when both measure at the end of theirs and one
    takes what the other does: the weighing, the alignment, the wheel torque. `links` are those
    written down between jobs of the car. Never closes a circle.
    """
    within = [(link.job, job.key) for job in recipe.jobs for link in job.after]
    rows = {job.key: job for job in recipe.jobs}
    last_here = _at_the_end({key: _stages(job.measures, job.kinds) for key, job in rows.items()}, within)
    last_there = _at_the_end({id: _stages(job.measures, job.kinds) for id, job in on_car.items()}, links)
    joined: dict[str, int] = {}
    for key, wanted in rows.items():
        same = [id for id, job in on_car.items() if _same_work(wanted, job)]
        if key in last_here:
            same += [id for id in last_there if _takes_as_much(wanted.measures, on_car[id].measures)]
        for id in dict.fromkeys(same):
            if _holds_together({**joined, key: id}, within, links):
                joined[key] = id
                break
    return joined


def _stages(measures: Collection[str], kinds: Collection[str]) -> tuple[int, ...]:
    return CarJob(tuple(kinds), tuple(measures)).stages


def _at_the_end(stages: Mapping[Id, tuple[int, ...]], links: Collection[tuple[Id, Id]]) -> list[Id]:
    """Jobs of the measuring chain that nothing follows but later measuring."""
    order = Order(links)

    def is_last(job: Id, mine: tuple[int, ...]) -> bool:
        behind = [theirs for other, theirs in stages.items() if order.leads(job, other)]
        return bool(mine) and all(theirs and theirs[-1] >= mine[-1] for theirs in behind)

    return [job for job, mine in stages.items() if is_last(job, mine)]


def _same_work(row: RecipeJob, job: JobOnCar) -> bool:
    same_title = row.title.casefold() == job.title.casefold()
    return same_title and set(row.kinds) == set(job.kinds) and set(row.measures) == set(job.measures)


def _takes_as_much(one: Collection[str], other: Collection[str]) -> bool:
    """They end at the same stage, or one is a piece of the alignment that the other takes whole."""
    mine, theirs = STAGE.keys() & set(one), STAGE.keys() & set(other)
    if not mine or not theirs:
        return False
    piece, whole = sorted((mine, theirs), key=len)
    ends = max(piece, key=STAGE.__getitem__)
    return STAGE[ends] == max(STAGE[slug] for slug in whole) or (piece <= whole and ends in ALIGNMENT)


def _holds_together(joined: Mapping[str, int], within: Collection[tuple[str, str]], links: Collection[Pair]) -> bool:
    """Whether the recipe's links and the car's still run in no circle when these are one."""
    order: Order[str | int] = Order(links)
    for before, after in within:
        first, then = joined.get(before, before), joined.get(after, after)
        if first != then and order.leads(then, first):
            return False
        order.take(first, then)
    return True
