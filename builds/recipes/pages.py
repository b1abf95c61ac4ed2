"""What is said when recipes were put on a car."""

from collections.abc import Collection, Iterable

from builds.recipes.engine.recipe import Recipe
from builds.recipes.facts import nobody_has
from builds.work.models.job import Job
from garage.models import Garage, Vehicle


def put_words(garage: Garage, recipes: Iterable[Recipe], vehicle: Vehicle, made: Collection[Job]) -> str:
    """`12 jobs are on Heron.` and the skills that nobody has."""
    missing = dict.fromkeys(skill for recipe in recipes for skill in nobody_has(garage, recipe))
    lacking = f" Nobody here has the skill yet: {', '.join(missing)}." if missing else ""
    jobs = "1 job is" if len(made) == 1 else f"{len(made)} jobs are"
    return f"{jobs} on {vehicle}.{lacking}"
