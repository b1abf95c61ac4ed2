"""What somebody said of a job, beside its log: one of the garage, or a guest by a shared page."""

from typing import Self

from django.db import models

from builds.work.models.job import Job
from garage.models import Membership, Share
from garage.models.bounds import text_within
from garage.models.scoped import ScopedQuerySet

MOST = 500


class JobCommentQuerySet(ScopedQuerySet):
    garage_path = "job__vehicle__garage"

    def with_names(self) -> Self:
        return self.select_related("by__person")


class JobComment(models.Model):
    """`by` somebody of the garage, else `guest` is the name that was given on the page of `share`.

    `key` is that of a guest's button, so that a second tap is none.
    """

    job = models.ForeignKey(Job, models.CASCADE, related_name="comments")
    by = models.ForeignKey(Membership, models.PROTECT, null=True, related_name="+")
    guest = models.CharField(max_length=60, blank=True)
    share = models.ForeignKey(Share, models.CASCADE, null=True, related_name="comments")
    key = models.CharField(max_length=40, blank=True)
    text = models.CharField(max_length=MOST)
    at = models.DateTimeField()

    objects = JobCommentQuerySet.as_manager()

    class Meta:
        ordering = ["at", "pk"]
        constraints = [
            text_within("jobcomment", "text", MOST, least=1),
            text_within("jobcomment", "guest", 60),
            text_within("jobcomment", "key", 40),
            models.CheckConstraint(
                condition=models.Q(by__isnull=False, share__isnull=True, guest="")
                | (models.Q(by__isnull=True, share__isnull=False) & ~models.Q(guest="")),
                name="jobcomment_by_one",
            ),
            models.UniqueConstraint(fields=["share", "key"], name="jobcomment_once"),
        ]

    def __str__(self) -> str:
        return self.text

    @property
    def who(self) -> str:
        return self.by.name if self.by else f"{self.guest}, a guest"
