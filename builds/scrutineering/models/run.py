"""That an entered car has run: when its first session was over, and the check put on it after."""

from django.db import models

from builds.work.models.job import Job
from garage.models import Entry, Membership
from garage.models.scoped import ScopedQuerySet


class EntryRunQuerySet(ScopedQuerySet):
    garage_path = "entry__event__garage"


class EntryRun(models.Model):
    """`job`: the running itself, as work that makes readings void; `stripped`: the check's jobs."""

    entry = models.OneToOneField(Entry, models.CASCADE, related_name="run")
    at = models.DateTimeField()
    by = models.ForeignKey(Membership, models.PROTECT, related_name="+")
    job = models.ForeignKey(Job, models.SET_NULL, null=True, blank=True, related_name="+")
    stripped = models.UUIDField(null=True, blank=True)

    objects = EntryRunQuerySet.as_manager()
