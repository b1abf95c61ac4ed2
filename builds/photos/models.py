"""What of the work a photo shows: a job, a hold point looked at, a reading."""

from django.db import models

from builds.readings.models.reading import Reading
from builds.work.models.hold_point import HoldPoint
from builds.work.models.job import Job
from garage.models.photo import PhotoTie


class JobPhoto(PhotoTie):
    of = models.ForeignKey(Job, models.CASCADE, related_name="photos")


class HoldPointPhoto(PhotoTie):
    of = models.ForeignKey(HoldPoint, models.CASCADE, related_name="photos")


class ReadingPhoto(PhotoTie):
    of = models.ForeignKey(Reading, models.CASCADE, related_name="photos")
