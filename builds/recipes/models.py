"""A garage's own copy of a recipe, in the shape that the shipped ones have."""

from typing import Self

from django.db import models

from garage.models import Garage
from garage.models.bounds import text_within
from garage.models.scoped import ScopedQuerySet


class OwnRecipeQuerySet(ScopedQuerySet):
    owner_only = True

    def called(self, key: str) -> Self:
        return self.filter(key=key)


class OwnRecipe(models.Model):
    garage = models.ForeignKey(Garage, models.CASCADE, related_name="recipes")
    key = models.SlugField(max_length=60)
    body = models.JSONField()
    changed_at = models.DateTimeField()

    objects = OwnRecipeQuerySet.as_manager()

    class Meta:
        ordering = ["key"]
        constraints = [
            models.UniqueConstraint(fields=["garage", "key"], name="ownrecipe_once"),
            text_within("ownrecipe", "key", 60, least=1),
        ]

    def __str__(self) -> str:
        return self.key
