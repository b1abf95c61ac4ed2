"""A garage's own copies of recipes."""

from datetime import datetime

from django.db import transaction

from builds.recipes.engine.parse import from_dict
from builds.recipes.engine.recipe import Recipe, to_dict
from builds.recipes.models import OwnRecipe
from garage.models import Garage


@transaction.atomic
def keep_own(garage: Garage, recipe: Recipe, *, at: datetime) -> OwnRecipe:
    """The garage's own copy of a recipe, instead of the one that comes with the program.

    Raises RecipeError when it would not work as a recipe.
    """
    body = to_dict(recipe)
    from_dict(body)
    kept, _ = OwnRecipe.objects.update_or_create(
        garage=garage, key=recipe.key, defaults={"body": body, "changed_at": at}
    )
    return kept


def forget_own(garage: Garage, key: str) -> None:
    """Back to the recipe that comes with the program."""
    OwnRecipe.objects.in_garage(garage).called(key).delete()
