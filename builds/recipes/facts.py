"""Recipes as a garage has them: those that come with the program, and its own copies."""

from dataclasses import dataclass
from datetime import datetime

from builds.recipes.engine.parse import from_dict, load_shipped
from builds.recipes.engine.recipe import SKILLS, STATIONS, Recipe, RecipeError
from builds.recipes.models import OwnRecipe
from garage.engine.words import duration_words
from garage.models import Garage, Membership, Skill, Station


@dataclass(frozen=True)
class KnownRecipe:
    """A recipe; `own` when it is the garage's copy, `broken` when that copy cannot be read."""

    recipe: Recipe
    own: bool = False
    changed_at: datetime | None = None
    broken: str = ""

    @property
    def hours(self) -> str:
        return duration_words(sum(job.work[1] for job in self.recipe.jobs))


def known_recipes(garage: Garage) -> list[KnownRecipe]:
    """By title; one query."""
    own = {row.key: row for row in OwnRecipe.objects.in_garage(garage)}
    recipes = [_known(own.pop(recipe.key, None), recipe) for recipe in load_shipped()]
    recipes += [_known(row, None) for row in own.values()]
    return sorted((known for known in recipes if known), key=lambda known: known.recipe.title.lower())


def known_recipe(garage: Garage, key: str) -> KnownRecipe | None:
    shipped = next((recipe for recipe in load_shipped() if recipe.key == key), None)
    return _known(OwnRecipe.objects.in_garage(garage).called(key).first(), shipped)


def _known(row: OwnRecipe | None, shipped: Recipe | None) -> KnownRecipe | None:
    if row is None:
        return KnownRecipe(shipped) if shipped else None
    try:
        return KnownRecipe(from_dict(row.body), True, row.changed_at)
    except RecipeError as error:
        # A copy written for another version of the program must not take the page down.
        return KnownRecipe(shipped, broken=str(error)) if shipped else None


def recipe_title(key: str) -> str:
    """What a recipe is called, by the key that its jobs carry."""
    titles = {recipe.key: recipe.title for recipe in load_shipped()}
    return titles.get(key, key.replace("-", " "))


def skill_names(garage: Garage) -> dict[str, str]:
    """Skills that a recipe may ask for, by slug; the garage's own names win."""
    return SKILLS | {row.slug: row.name for row in Skill.objects.in_garage(garage)}


def station_names(garage: Garage) -> dict[str, str]:
    return STATIONS | {row.slug: row.name for row in Station.objects.in_garage(garage)}


def nobody_has(garage: Garage, recipe: Recipe) -> list[str]:
    """Skills that the recipe asks for and no pair of hands in the garage has."""
    wanted = {job.skill for job in recipe.jobs if job.skill}
    there = set(Membership.objects.in_garage(garage).active().working().values_list("skills__slug", flat=True))
    names = skill_names(garage)
    return sorted(names.get(slug, slug) for slug in wanted - there)
