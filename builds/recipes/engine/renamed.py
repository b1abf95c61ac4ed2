"""A job of a recipe that is called otherwise when it is put on a car."""

from dataclasses import replace

from builds.readings.engine import in_measuring_order
from builds.recipes.engine.recipe import RecipeJob
from builds.steps.engine.by_words import beside, is_renamed


def as_called(row: RecipeJob, first: RecipeJob) -> RecipeJob:
    """Work by hand where the words differ from the `first` ones: they say what it is beside what the recipe says."""
    if not is_renamed(first.title, row.title):
        return row
    said = beside(row.title, row.systems, row.kinds)
    measures = in_measuring_order({*row.measures, *said.measures})
    rank = row.rank if row.rank == "safety" else None
    return replace(row, by_hand=True, systems=said.systems, kinds=said.kinds, measures=measures, rank=rank)
