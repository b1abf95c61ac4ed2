"""A recipe for one side of the car: what is done on each side says which, the rest stands once."""

from dataclasses import replace

from builds.recipes.engine.recipe import Recipe

SIDES: dict[str, tuple[str, ...]] = {"": ("",), "left": ("left",), "right": ("right",), "both": ("left", "right")}
"""What is said of a recipe, and the sides it is put on for; "" is no side."""
LONGEST_SIDE = len(", right")


def has_sides(recipe: Recipe) -> bool:
    """Whether any of its jobs is done on one side of the car."""
    return any(job.each_side for job in recipe.jobs)


def at_side(recipe: Recipe, side: str) -> Recipe:
    """The recipe for one side, left or right, said in the titles of the jobs done on it; unchanged for ""."""
    if not side:
        return recipe
    jobs = (replace(job, title=f"{job.title}, {side}") if job.each_side else job for job in recipe.jobs)
    return replace(recipe, jobs=tuple(jobs))


def without_side(title: str) -> str:
    """A job's title as its recipe has it."""
    return title.removesuffix(", left").removesuffix(", right")


def side_of(title: str) -> str:
    """`left` or `right` where a job's title says so, else "" for no side."""
    said = title[len(without_side(title)) :]
    return said.removeprefix(", ")
