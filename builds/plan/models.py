"""A plan of the whole garage, stored with what it was made from."""

from datetime import datetime, timedelta
from typing import Self

from django.db import models

from garage.models import Garage, Membership
from garage.models.bounds import one_of
from garage.models.scoped import ScopedQuerySet

SILENT = timedelta(seconds=15)  # after so long without a word of it, whoever ran a search is gone
UNHEARD = timedelta(minutes=2)  # and so long one may wait for its turn


class PlanQuerySet(ScopedQuerySet):
    def shown(self) -> Self:
        """Plans of the garage as it was, the newest first: that one is on the wall."""
        return self.filter(use="shown").order_by("-made_at", "-pk")

    def stood(self, at: datetime) -> Self:
        """Those that were on the wall when a session began, the latest first."""
        return self.shown().filter(session_at__lte=at)

    def trials(self) -> Self:
        """What was tried in a copy of the garage, each beside the plan it is compared with."""
        return self.filter(use="tried", made_from__has_key="trial")


class Plan(models.Model):
    """`problem` and `answer` are the planner's own files; `made_from` digests what they rest on.

    `writes` is the garage's count of writes up to which it is known to be true, `stands_until` the
    moment from which the clock alone leaves it behind. `session_at` is when the next session begins
    after it was made: a plan on the wall then is what the garage goes by, and is kept.
    `odds` are those of its work, None until they are found. `last_days` says by when parts must be there:
    for which jobs (pk) that was `asked`, and by job the last of its `days`.
    """

    class Use(models.TextChoices):
        SHOWN = "shown", "on the wall"
        TRIED = "tried", "a trial"

    garage = models.ForeignKey(Garage, models.CASCADE, related_name="plans")
    made_at = models.DateTimeField()
    made_by = models.ForeignKey(Membership, models.PROTECT, null=True, related_name="+")
    use = models.CharField(max_length=10, choices=Use.choices, default=Use.SHOWN)
    problem = models.JSONField()
    answer = models.JSONField()
    made_from = models.JSONField()
    seconds = models.FloatField(default=0)
    tried = models.PositiveIntegerField(default=0)
    writes = models.PositiveBigIntegerField(default=0)
    stands_until = models.DateTimeField(null=True)
    session_at = models.DateTimeField(null=True)
    odds = models.JSONField(null=True)
    last_days = models.JSONField(null=True)

    objects = PlanQuerySet.as_manager()

    class Meta:
        ordering = ["-made_at", "-pk"]
        indexes = [models.Index(fields=["garage", "use", "-made_at"], name="plan_newest")]
        constraints = [one_of("plan", "use", ["shown", "tried"])]


class SearchQuerySet(ScopedQuerySet):
    def running(self) -> Self:
        return self.filter(ended_at=None)

    def silent(self, at: datetime) -> Self:
        """Those that should be running and have not been heard of."""
        begun = models.Q(tried__gt=0, seen_at__lt=at - SILENT)
        return self.running().filter(begun | models.Q(seen_at__lt=at - UNHEARD))


class Search(models.Model):
    """A search for a better plan: one at a time in a garage, its progress, and the stop button."""

    garage = models.ForeignKey(Garage, models.CASCADE, related_name="searches")
    asked_by = models.ForeignKey(Membership, models.PROTECT, null=True, related_name="+")
    began_at = models.DateTimeField()
    seen_at = models.DateTimeField()
    budget_seconds = models.FloatField()
    tried = models.PositiveIntegerField(default=0)
    first_score = models.JSONField(null=True)
    best_score = models.JSONField(null=True)
    stop_asked = models.BooleanField(default=False)
    ended_at = models.DateTimeField(null=True)
    plan = models.ForeignKey(Plan, models.SET_NULL, null=True)
    failed = models.CharField(max_length=200, blank=True)

    objects = SearchQuerySet.as_manager()

    class Meta:
        ordering = ["-began_at"]
        constraints = [
            models.UniqueConstraint(fields=["garage"], condition=models.Q(ended_at=None), name="search_one_at_a_time"),
        ]

    def is_running(self, at: datetime) -> bool:
        return self.ended_at is None and self.seen_at >= at - (SILENT if self.tried else UNHEARD)
