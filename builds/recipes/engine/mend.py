"""A recipe without some of its jobs, in the order that the others keep."""

from collections.abc import Collection
from dataclasses import replace

from builds.recipes.engine.recipe import Recipe, RecipeHold, RecipeLink
from builds.work.engine.working_order import Wait, reached_from, without


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
    """The hold from the first to the last of its jobs that are kept; None when none is."""
    links = [(link.job, job.key) for job in recipe.jobs for link in job.after]

    def leads_to(first: str, last: str) -> bool:
        return last in (first, *reached_from(first, links))

    inside = [
        job.key
        for job in recipe.jobs
        if job.key not in keys and leads_to(hold.first, job.key) and leads_to(job.key, hold.until)
    ]
    if not inside or not leads_to(inside[0], inside[-1]):
        return None
    return replace(hold, first=inside[0], until=inside[-1])
