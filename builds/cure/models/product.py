"""A garage's own copy of a product that cures, in the shape that the shipped ones have."""

from typing import Self

from django.db import models

from garage.models import Garage
from garage.models.bounds import text_within
from garage.models.scoped import ScopedQuerySet


class OwnProductQuerySet(ScopedQuerySet):
    owner_only = True

    def called(self, slug: str) -> Self:
        return self.filter(slug=slug)


class OwnProduct(models.Model):
    """`body` is what `product_to_dict` makes of it."""

    garage = models.ForeignKey(Garage, models.CASCADE, related_name="products")
    slug = models.SlugField(max_length=60)
    name = models.CharField(max_length=80)
    body = models.JSONField()
    changed_at = models.DateTimeField()

    objects = OwnProductQuerySet.as_manager()

    class Meta:
        ordering = ["name"]
        constraints = [
            models.UniqueConstraint(fields=["garage", "slug"], name="ownproduct_once"),
            text_within("ownproduct", "slug", 60, least=1),
            text_within("ownproduct", "name", 80, least=1),
        ]

    def __str__(self) -> str:
        return self.name
