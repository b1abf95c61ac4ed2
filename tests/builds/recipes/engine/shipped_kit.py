"""The shipped recipes by key, and what comes before what in one of them."""

from collections.abc import Collection

from builds.recipes.engine.parse import load_shipped
from builds.recipes.engine.recipe import Recipe, RecipeJob

RECIPES = {recipe.key: recipe for recipe in load_shipped()}


def order(recipe: Recipe) -> dict[str, set[str]]:
    """For every job (key), the jobs that must be over before it starts, however far back."""
    direct = {job.key: {link.job for link in job.after} for job in recipe.jobs}
    before: dict[str, set[str]] = {}

    def walk(key: str) -> set[str]:
        if key not in before:
            before[key] = direct[key].union(*(walk(earlier) for earlier in direct[key]))
        return before[key]

    for key in direct:
        walk(key)
    return before


def job_of(recipe: str, key: str) -> RecipeJob:
    return next(job for job in RECIPES[recipe].jobs if job.key == key)


def not_before(recipe: Recipe, job: RecipeJob) -> list[RecipeJob]:
    """The job itself and those that come after it."""
    before = order(recipe)
    return [later for later in recipe.jobs if later.key == job.key or job.key in before[later.key]]


def does(job: RecipeJob, kinds: Collection[str]) -> bool:
    return not set(kinds).isdisjoint(job.kinds)
