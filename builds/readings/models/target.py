"""Where a car's readings should be, and which of them it must have."""

from django.db import models
from django.db.models import Q

from builds.readings.engine.judge import Goal
from builds.readings.engine.limits import CHOSEN, MARKS, SORTS, goal
from builds.readings.models.reading import MOST, KindQuerySet, OwnKind, kind_or_own
from garage.models import Membership, Vehicle
from garage.models.bounds import number_within, one_of, text_within
from garage.models.scoped import ScopedQuerySet


class Target(models.Model):
    """Where a figure should be, whole stored units, and as it was typed.

    `amount` is what it should be give or take `second`, or at least, or at most, or the lower end
    of which `second` is the upper. `mark` says whose figure it is.
    """

    vehicle = models.ForeignKey(Vehicle, models.CASCADE, related_name="targets")
    kind = models.CharField(max_length=40, blank=True)
    own = models.ForeignKey(OwnKind, models.CASCADE, null=True, blank=True, related_name="targets")
    field = models.CharField(max_length=40)
    sort = models.CharField(max_length=10)
    amount = models.BigIntegerField()
    second = models.BigIntegerField(null=True, blank=True)
    typed = models.CharField(max_length=24)
    second_typed = models.CharField(max_length=24, blank=True)
    unit = models.CharField(max_length=12, blank=True)
    mark = models.CharField(max_length=10, default=CHOSEN)

    objects = KindQuerySet.as_manager()

    class Meta:
        ordering = ["pk"]
        constraints = [
            models.UniqueConstraint(fields=["vehicle", "kind", "field"], condition=Q(own=None), name="target_once"),
            models.UniqueConstraint(
                fields=["vehicle", "own", "field"],
                condition=Q(own__isnull=False),
                name="target_own_once",
            ),
            kind_or_own("target"),
            text_within("target", "kind", 40),
            text_within("target", "field", 40, least=1),
            text_within("target", "typed", 24, least=1),
            text_within("target", "second_typed", 24),
            text_within("target", "unit", 12),
            number_within("target", "amount", -MOST, MOST),
            number_within("target", "second", -MOST, MOST),
            one_of("target", "sort", list(SORTS)),
            one_of("target", "mark", list(MARKS)),
            models.CheckConstraint(
                condition=Q(sort__in=["least", "most"], second=None, second_typed="")
                | (Q(sort="off", second__gte=0) & ~Q(second_typed=""))
                | (Q(sort="between", second__gte=models.F("amount")) & ~Q(second_typed="")),
                name="target_second_as_its_sort_wants",
            ),
        ]

    @property
    def key(self) -> str:
        return self.kind or f"own-{self.own_id}"

    @property
    def goal(self) -> Goal:
        return goal(self.sort, self.amount, self.second)


class RequiredReadingsQuerySet(ScopedQuerySet):
    garage_path = "vehicle__garage"
    owner_only = True


class RequiredReadings(models.Model):
    """The kinds (keys) that a car must have; without a row nobody has said, which is not none."""

    vehicle = models.OneToOneField(Vehicle, models.CASCADE, related_name="required_readings")
    kinds = models.JSONField(default=list, blank=True)
    chosen_by = models.ForeignKey(Membership, models.PROTECT, related_name="+")
    chosen_at = models.DateTimeField()

    objects = RequiredReadingsQuerySet.as_manager()
