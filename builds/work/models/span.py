"""A span: how long a job stood in a state, who put it there, and whose hands were on it."""

from datetime import datetime
from typing import Self

from django.db import models
from django.db.models import F, OuterRef, Q, Subquery

from builds.work.models.job import Job
from builds.work.models.states import OPEN_STATES, State
from garage.models import Membership
from garage.models.bounds import one_of, text_within
from garage.models.scoped import ScopedQuerySet


class SpanQuerySet(ScopedQuerySet):
    garage_path = "job__vehicle__garage"

    def running(self) -> Self:
        return self.filter(until_at=None)

    def of_open(self) -> Self:
        return self.filter(job__state__in=OPEN_STATES)

    def handled(self) -> Self:
        """Those in which hands are named: work, and the finish of work that nobody started."""
        return self.filter(state__in=[State.IN_HAND, State.HELD, State.DONE])

    def by_hands(self) -> Self:
        """Work, and what names the hands of work that was finished without being started."""
        return self.filter(Q(state=State.IN_HAND) | Q(crew__isnull=False)).handled().distinct()

    def begun_since(self, moment: datetime) -> Self:
        return self.filter(from_at__gte=moment)

    def with_first_hand(self) -> Self:
        """The first (pk) of those whose hands are named, as `first_hand`."""
        crew = self.model.crew.through.objects.filter(span=OuterRef("pk")).order_by("pk")
        return self.annotate(first_hand=Subquery(crew.values("membership")[:1]))

    def worked(self) -> Self:
        return self.filter(state=State.IN_HAND)


class Span(models.Model):
    job = models.ForeignKey(Job, models.CASCADE, related_name="spans")
    state = models.CharField(max_length=10, choices=State.choices)
    from_at = models.DateTimeField()
    until_at = models.DateTimeField(null=True, blank=True)
    by = models.ForeignKey(Membership, models.PROTECT, related_name="+")
    crew = models.ManyToManyField(Membership, blank=True, related_name="spans")
    note = models.CharField(max_length=200, blank=True)

    objects = SpanQuerySet.as_manager()

    class Meta:
        ordering = ["from_at", "pk"]
        constraints = [
            one_of("span", "state", State.values),
            text_within("span", "note", 200),
            models.UniqueConstraint(fields=["job"], condition=Q(until_at=None), name="span_one_running"),
            models.CheckConstraint(condition=Q(until_at=None) | Q(until_at__gte=F("from_at")), name="span_forwards"),
        ]

    @property
    def people(self) -> list[Membership]:
        """Whose hands were on it."""
        return list(self.crew.all())

    @property
    def passed_through(self) -> bool:
        """On the way to another state: nobody put it down, or finished it just then."""
        return self.until_at == self.from_at and (self.state == State.WAITING or self._ends_unhandled)

    @property
    def finished(self) -> bool:
        """Whether hands finished it then, though it may wait for a second pair of eyes."""
        return self.state == State.DONE or (self.state == State.HELD and bool(self.people))

    @property
    def _ends_unhandled(self) -> bool:
        return self.state == State.DONE and not self.people
