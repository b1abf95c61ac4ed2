"""That a photo shows a part."""

from django.db import models

from garage.models.photo import PhotoTie
from parts.models.part import Part


class PartPhoto(PhotoTie):
    of = models.ForeignKey(Part, models.CASCADE, related_name="photos")
