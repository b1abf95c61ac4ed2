"""A recipe without some of its jobs, in the order that the others keep."""

from collections.abc import Collection
from dataclasses import replace

from builds.recipes.engine.recipe import Recipe, RecipeHold, RecipeLink
from builds.work.engine.working_order import Wait, without


def waits(recipe: Recipe) -> list[Wait]:
    """The links of a recipe, by the keys of its jobs."""
    return [
        Wait(link.job, job.key, link.wait_minutes, link.why, link.cure or "", link.stage or "")
        for job in recipe.jobs
        for link in job.after
    ]


def leave_out(recipe: Recipe, keys: Collection[str]) -> Recipe:
    """The recipe without the jobs of these keys.

    What came before one of them comes before what followed it, waits kept; a station hold begins
    with the first of its jobs that is left and ends with the last, or goes if none is.
    """
    if not keys:
        return recipe
    links = without(waits(recipe), keys)
    jobs = tuple(
        replace(
            job,
            after=tuple(
                RecipeLink(str(link.before), link.wait, link.why, link.cure or None, link.stage or None)
                for link in links
                if link.after == job.key
            ),
        )
        for job in recipe.jobs
        if job.key not in keys
    )
    holds = (_shortened(hold, recipe, keys) for hold in recipe.station_holds)
    return replace(recipe, jobs=jobs, station_holds=tuple(hold for hold in holds if hold))


def _shortened(hold: RecipeHold, recipe: Recipe, keys: Collection[str]) -> RecipeHold | None:
    onward: dict[str, set[str]] = {}
    for job in recipe.jobs:
        for link in job.after:
            onward.setdefault(link.job, set()).add(job.key)
    inside = [
        job.key
        for job in recipe.jobs
        if job.key not in keys and job.key in _reached(hold.first, onward) and hold.until in _reached(job.key, onward)
    ]
    if not inside or inside[-1] not in _reached(inside[0], onward):
        return None
    return replace(hold, first=inside[0], until=inside[-1])


def _reached(first: str, onward: dict[str, set[str]]) -> set[str]:
    found, waiting = {first}, [first]
    while waiting:
        fresh = onward.get(waiting.pop(), set()) - found
        found |= fresh
        waiting += fresh
    return found
