"""A photo of the garage's: two sizes of one picture, kept as files beside the database."""

import uuid
from typing import Self

from django.db import models

from garage.engine.picture_sizes import SIZES, fit
from garage.models.bounds import number_within, text_within
from garage.models.garage import Garage
from garage.models.membership import Membership
from garage.models.scoped import ScopedQuerySet
from garage.models.vehicle import Vehicle


class PhotoQuerySet(ScopedQuerySet):
    def total_bytes(self) -> int:
        return self.aggregate(total=models.Sum("bytes"))["total"] or 0

    def untied(self) -> Self:
        """Of nothing any more: what they showed was deleted."""
        return self.filter(**{tie.name: None for tie in Photo._meta.related_objects})

    def named(self, names: list[uuid.UUID]) -> Self:
        return self.filter(name__in=names)


class Photo(models.Model):
    """What it shows is said by a row that ties it to a car, a part, a job, ...

    `name` is that of its files, drawn at random; what the phone called it is kept nowhere.
    """

    garage = models.ForeignKey(Garage, models.CASCADE, related_name="photos")
    name = models.UUIDField(unique=True)
    width = models.PositiveSmallIntegerField()
    height = models.PositiveSmallIntegerField()
    bytes = models.PositiveIntegerField("of all its files")
    caption = models.CharField("what it shows", max_length=200, blank=True)
    by = models.ForeignKey(Membership, models.PROTECT, related_name="photos")
    at = models.DateTimeField()

    objects = PhotoQuerySet.as_manager()

    class Meta:
        ordering = ["at", "pk"]
        constraints = [
            text_within("photo", "caption", 200),
            number_within("photo", "width", 1, 1600),
            number_within("photo", "height", 1, 1600),
        ]

    def __str__(self) -> str:
        return self.caption or "Photo without words"

    @property
    def small(self) -> tuple[int, int]:
        """Width and height of its thumbnail, so that a page keeps the room for it."""
        return fit((self.width, self.height), SIZES["small"][0])


class TieQuerySet(ScopedQuerySet):
    garage_path = "photo__garage"

    def for_pages(self) -> Self:
        """With what a row of thumbnails says, the oldest first."""
        return self.select_related("photo__by__person").order_by("photo__at", "photo")


class PhotoTie(models.Model):
    """What a photo shows; each kind of thing has a tie of its own, with a key named `of`."""

    photo = models.OneToOneField(Photo, models.CASCADE, related_name="%(class)s")

    objects = TieQuerySet.as_manager()

    class Meta:
        abstract = True


class VehiclePhoto(PhotoTie):
    of = models.ForeignKey(Vehicle, models.CASCADE, related_name="photos")
