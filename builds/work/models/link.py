"""A link (this before that, after a wait) and the hold of a station by a stripped car."""

from typing import Self

from django.db import models
from django.db.models import Exists, ExpressionWrapper, F, OuterRef, Q

from builds.cure.engine import Stage
from builds.work.models.job import MOST_MINUTES, Job
from builds.work.models.span import Span
from builds.work.models.states import FINISHED_STATES, State
from garage.models import Membership, Station
from garage.models.bounds import number_within, one_of, text_within
from garage.models.scoped import ScopedQuerySet


class LinkQuerySet(ScopedQuerySet):
    garage_path = "before__vehicle__garage"

    def by_hand(self) -> Self:
        """Written down by somebody or with a recipe, not drawn by the order of work."""
        return self.filter(by_order=False)

    def by_order(self) -> Self:
        return self.filter(by_order=True)

    def standing(self) -> Self:
        """Without those that somebody cut."""
        return self.filter(cut_because="")

    def cut(self) -> Self:
        return self.exclude(cut_because="")

    def binding(self) -> Self:
        """Links that lead to something to do, if need be through jobs that were dropped."""
        return self.standing().exclude(after__state__in=FINISHED_STATES).filter(before__vehicle__gone_at=None)

    def of(self, job: Job) -> Self:
        """What it waits for and what waits for it."""
        return self.filter(Q(before=job) | Q(after=job))

    def curing(self, product: str) -> Self:
        """Those whose time is that of a product (slug)."""
        return self.filter(cure=product).exclude(cure_stage="")

    def under(self, coat: Job) -> Self:
        """From finished coats on which this one goes within a recoat window."""
        finished = self.filter(before__state__in=FINISHED_STATES)
        return finished.filter(after=coat, cure_stage=Stage.RECOAT_FROM)


class Link(models.Model):
    """`cure` names a product; with a `cure_stage` its time is computed and the wait stands by.

    One that is `by_order` comes and goes with the order of work; somebody can cut it with a reason. A cut
    from before it was asked who made it names nobody.
    """

    before = models.ForeignKey(Job, models.CASCADE, related_name="links_after")
    after = models.ForeignKey(Job, models.CASCADE, related_name="links_before")
    wait_minutes = models.PositiveIntegerField(default=0)
    why = models.CharField(max_length=80, blank=True)
    cure = models.CharField(max_length=60, blank=True)
    cure_stage = models.CharField(max_length=20, blank=True)
    by_order = models.BooleanField(default=False)
    cut_because = models.CharField(max_length=200, blank=True)
    cut_by = models.ForeignKey(Membership, models.PROTECT, null=True, blank=True, related_name="+")
    cut_at = models.DateTimeField(null=True, blank=True)

    objects = LinkQuerySet.as_manager()

    class Meta:
        ordering = ["pk"]
        constraints = [
            models.UniqueConstraint(fields=["before", "after"], name="link_once"),
            models.CheckConstraint(condition=~Q(before=F("after")), name="link_two_jobs"),
            number_within("link", "wait_minutes", 0, MOST_MINUTES),
            text_within("link", "why", 80),
            text_within("link", "cure", 60),
            text_within("link", "cut_because", 200),
            models.CheckConstraint(condition=Q(cut_because="") | Q(by_order=True), name="link_cut_by_order"),
            models.CheckConstraint(
                condition=Q(cut_at=None, cut_by=None)
                | (~Q(cut_because="") & Q(cut_at__isnull=False, cut_by__isnull=False)),
                name="link_cut_by_somebody",
            ),
            one_of("link", "cure_stage", ["", *Stage]),
            models.CheckConstraint(condition=Q(cure_stage="") | ~Q(cure=""), name="link_stage_of_a_cure"),
        ]

    def __str__(self) -> str:
        return f"“{self.before}” before “{self.after}”"


class StationHoldQuerySet(ScopedQuerySet):
    garage_path = "station__garage"
    car_path = "first__vehicle"

    def of(self, job: Job) -> Self:
        return self.filter(Q(first=job) | Q(last=job))

    def keeping(self) -> Self:
        """Those whose station nobody has freed."""
        return self.filter(freed_at=None)

    def with_begun(self) -> Self:
        """Each with `begun`: hands have been on its first job, whatever became of that since."""
        hands = Q(state__in=[State.IN_HAND, *FINISHED_STATES]) | Q(state=State.HELD, crew__isnull=False)
        worked = Exists(Span.objects.filter(hands, job=OuterRef("first")))
        by_state = Q(first__state__in=[State.IN_HAND, State.WAITING, *FINISHED_STATES])
        return self.annotate(begun=ExpressionWrapper(by_state | worked, output_field=models.BooleanField()))

    def stripped(self) -> Self:
        """Those whose car is stripped: begun, and what puts it back is not done."""
        return self.with_begun().filter(begun=True).exclude(last__state__in=FINISHED_STATES)


class StationHold(models.Model):
    """While `first` to `last` runs the car is stripped: it stays, and the station is its own.

    Once that has begun, freeing the station leaves the rest: the car is stripped until `last` is done.
    """

    station = models.ForeignKey(Station, models.CASCADE, related_name="holds")
    first = models.ForeignKey(Job, models.CASCADE, related_name="holds_begun")
    last = models.ForeignKey(Job, models.CASCADE, related_name="holds_ended")
    freed_at = models.DateTimeField(null=True, blank=True)
    freed_by = models.ForeignKey(Membership, models.PROTECT, null=True, blank=True, related_name="+")
    freed_because = models.CharField(max_length=200, blank=True)

    objects = StationHoldQuerySet.as_manager()

    class Meta:
        ordering = ["pk"]
        constraints = [
            models.UniqueConstraint(fields=["station", "first", "last"], name="stationhold_once"),
            text_within("stationhold", "freed_because", 200),
            models.CheckConstraint(
                condition=Q(freed_at=None, freed_by=None, freed_because="")
                | (Q(freed_at__isnull=False, freed_by__isnull=False) & ~Q(freed_because="")),
                name="stationhold_freed_with_a_reason",
            ),
        ]
