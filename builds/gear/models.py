"""What wears out by use: after how many runs, hours or months a piece is due, and its renewals; who changed it."""

from django.db import models
from django.db.models import Q

from builds.work.models.job import Job
from garage.models import Gear, Membership
from garage.models.bounds import number_within, text_within
from garage.models.scoped import ScopedQuerySet

MOST_RUNS, MOST_MINUTES, MOST_MONTHS = 999, 1000 * 60, 360


class UseLifeQuerySet(ScopedQuerySet):
    garage_path = "gear__garage"


class UseLife(models.Model):
    """How long a piece on a car lasts from `since`; one run of the car takes `run_minutes`.

    It came off another car at `moved_at`, with `runs_before` behind it.
    """

    gear = models.OneToOneField(Gear, models.CASCADE, related_name="use_life")
    runs = models.PositiveSmallIntegerField(null=True, blank=True)
    minutes = models.PositiveIntegerField(null=True, blank=True)
    run_minutes = models.PositiveSmallIntegerField(null=True, blank=True)
    months = models.PositiveSmallIntegerField(null=True, blank=True)
    since = models.DateTimeField()
    moved_at = models.DateTimeField(null=True, blank=True)
    runs_before = models.PositiveIntegerField(default=0)

    objects = UseLifeQuerySet.as_manager()

    class Meta:
        constraints = [
            number_within("uselife", "runs", 1, MOST_RUNS),
            number_within("uselife", "minutes", 1, MOST_MINUTES),
            number_within("uselife", "run_minutes", 1, 24 * 60),
            number_within("uselife", "months", 1, MOST_MONTHS),
            number_within("uselife", "runs_before", 0, 10**6),
            models.CheckConstraint(
                condition=Q(minutes=None, run_minutes=None) | Q(minutes__isnull=False, run_minutes__isnull=False),
                name="uselife_hours_with_length_of_a_run",
            ),
            models.CheckConstraint(
                condition=Q(runs__isnull=False) | Q(minutes__isnull=False) | Q(months__isnull=False),
                name="uselife_ends_somehow",
            ),
        ]


class RenewalQuerySet(ScopedQuerySet):
    garage_path = "gear__garage"


class Renewal(models.Model):
    """A job that renews a piece: once it is finished, the piece counts as new."""

    gear = models.ForeignKey(Gear, models.CASCADE, related_name="renewals")
    job = models.OneToOneField(Job, models.CASCADE, related_name="renewal")

    objects = RenewalQuerySet.as_manager()


class GearChangeQuerySet(ScopedQuerySet):
    garage_path = "gear__garage"


class GearChange(models.Model):
    """Who changed what is said of a piece, and from what to what."""

    LONGEST = 300

    gear = models.ForeignKey(Gear, models.CASCADE, related_name="changes")
    by = models.ForeignKey(Membership, models.PROTECT, related_name="+")
    at = models.DateTimeField()
    words = models.CharField(max_length=LONGEST)

    objects = GearChangeQuerySet.as_manager()

    class Meta:
        ordering = ["-at", "-pk"]
        constraints = [text_within("gearchange", "words", 300, least=1)]
