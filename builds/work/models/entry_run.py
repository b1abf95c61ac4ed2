"""Whether an entered car ran: when its first session was over, and the check put on it after."""

from django.db import models
from django.db.models import Q

from builds.work.models.job import Job
from garage.models import Entry, Membership
from garage.models.scoped import ScopedQuerySet


class EntryRunQuerySet(ScopedQuerySet):
    garage_path = "entry__event__garage"
    car_path = "entry__vehicle"

    def ran(self) -> "EntryRunQuerySet":
        return self.filter(ran=True)


class EntryRun(models.Model):
    """The answer to whether it ran; no row while nobody has said, which is not that it did not.

    `job`: the running itself, as work that makes readings void; `stripped`: the check's jobs.
    """

    entry = models.OneToOneField(Entry, models.CASCADE, related_name="run")
    ran = models.BooleanField(default=True)
    at = models.DateTimeField()
    by = models.ForeignKey(Membership, models.PROTECT, related_name="+")
    job = models.ForeignKey(Job, models.SET_NULL, null=True, blank=True, related_name="+")
    stripped = models.UUIDField(null=True, blank=True)

    objects = EntryRunQuerySet.as_manager()

    class Meta:
        constraints = [
            models.CheckConstraint(
                condition=Q(ran=True) | Q(job=None, stripped=None), name="entryrun_nothing_follows_what_did_not_run"
            )
        ]
