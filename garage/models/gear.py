"""Gear with dates: belts, helmets, extinguishers and the rest, and by which rule it is judged."""

from datetime import date
from typing import Self

from django.db import models
from django.db.models import Q

from garage.engine.gear import KINDS, STANDARDS, WAYS, DateRule, GearItem, Printed, printed_words
from garage.engine.gear.rules import MEANINGS, MOST_YEARS
from garage.models.bounds import number_within, one_of, text_within
from garage.models.event import Event
from garage.models.garage import Garage
from garage.models.membership import Membership
from garage.models.scoped import ScopedQuerySet
from garage.models.vehicle import Vehicle

PRECISIONS = ("", "day", "month", "year", "week")


class GearQuerySet(ScopedQuerySet):
    car_path = "vehicle"

    def in_use(self) -> Self:
        return self.filter(retired_at=None)

    def retired(self) -> Self:
        return self.exclude(retired_at=None).order_by("-retired_at")


class Gear(models.Model):
    """One piece with one label: a car's, a person's, or the garage's own.

    Two straps with different dates are two rows. It is struck by hand at `struck_at`, and good
    again from `passed_at`, when an owner said so with a reason. `stood` is how an instrument stood before
    (`as_instrument`, and `until` when): what was measured with it then is judged by that.
    """

    garage = models.ForeignKey(Garage, models.CASCADE, related_name="gear")
    vehicle = models.ForeignKey(Vehicle, models.CASCADE, null=True, blank=True, related_name="gear")
    member = models.ForeignKey(Membership, models.PROTECT, null=True, blank=True, related_name="gear")
    name = models.CharField(max_length=60)
    kind = models.CharField(max_length=20, choices=[(s, k.label) for s, k in KINDS.items()])
    standard = models.CharField(max_length=30, blank=True)
    label = models.CharField(max_length=120, blank=True)
    meaning = models.CharField(max_length=10, choices=list(MEANINGS.items()), default="made")
    printed_on = models.DateField(null=True, blank=True)
    precision = models.CharField(max_length=5, blank=True)
    made_on = models.DateField(null=True, blank=True)
    made_precision = models.CharField(max_length=5, blank=True)
    code = models.CharField(max_length=4, blank=True)
    note = models.CharField(max_length=200, blank=True)
    struck_at = models.DateTimeField(null=True, blank=True)
    struck_note = models.CharField(max_length=200, blank=True)
    passed_at = models.DateTimeField(null=True, blank=True)
    passed_by = models.ForeignKey(Membership, models.PROTECT, null=True, blank=True, related_name="+")
    passed_because = models.CharField(max_length=200, blank=True)
    retired_at = models.DateTimeField(null=True, blank=True)
    retired_because = models.CharField(max_length=200, blank=True)
    stood = models.JSONField("how it stood before", default=list, blank=True)
    made_at = models.DateTimeField("written down")

    objects = GearQuerySet.as_manager()

    class Meta:
        ordering = ["pk"]
        constraints = [
            text_within("gear", "name", 60, least=1),
            text_within("gear", "label", 120),
            text_within("gear", "code", 4),
            text_within("gear", "note", 200),
            text_within("gear", "struck_note", 200),
            text_within("gear", "passed_because", 200),
            text_within("gear", "retired_because", 200),
            one_of("gear", "kind", list(KINDS)),
            one_of("gear", "standard", ["", *STANDARDS]),
            one_of("gear", "meaning", list(MEANINGS)),
            one_of("gear", "precision", list(PRECISIONS)),
            models.CheckConstraint(condition=Q(vehicle=None) | Q(member=None), name="gear_of_a_car_or_a_person"),
            models.CheckConstraint(
                condition=Q(printed_on=None, precision="") | Q(printed_on__isnull=False) & ~Q(precision=""),
                name="gear_date_with_precision",
            ),
            models.CheckConstraint(
                condition=Q(printed_on=None) | Q(printed_on__gte=date(1980, 1, 1), printed_on__lte=date(2100, 12, 31)),
                name="gear_printed_on_range",
            ),
            one_of("gear", "made_precision", ["", "day", "month", "year"]),
            models.CheckConstraint(
                condition=Q(made_on=None, made_precision="") | Q(made_on__isnull=False) & ~Q(made_precision=""),
                name="gear_made_with_precision",
            ),
            models.CheckConstraint(
                condition=Q(made_on=None) | Q(made_on__gte=date(1980, 1, 1), made_on__lte=date(2100, 12, 31)),
                name="gear_made_on_range",
            ),
            models.CheckConstraint(
                condition=Q(passed_at=None) | Q(passed_by__isnull=False) & ~Q(passed_because=""),
                name="gear_passed_by_somebody_with_a_reason",
            ),
        ]

    def __str__(self) -> str:
        return self.name

    @property
    def printed(self) -> Printed | None:
        if self.printed_on is None:
            return None
        return Printed(self.printed_on, self.precision, self.code)

    @property
    def made(self) -> Printed | None:
        return Printed(self.made_on, self.made_precision) if self.made_on else None

    @property
    def made_words(self) -> str:
        return printed_words(self.made) if self.made else ""

    @property
    def printed_words(self) -> str:
        return printed_words(self.printed) if self.printed else ""

    @property
    def standard_label(self) -> str:
        return STANDARDS[self.standard].label if self.standard else ""

    @property
    def is_instrument(self) -> bool:
        """The garage's own, with a date: what a reading names that was taken with it."""
        return self.vehicle_id is None and self.member_id is None and self.printed_on is not None

    def as_instrument(self) -> dict[str, str]:
        """What a reading taken with it is judged by; empty while it is none."""
        if not self.is_instrument or self.printed_on is None:
            return {}
        told = {name: getattr(self, name) for name in ("name", "kind", "standard", "meaning", "precision", "code")}
        return {**told, "printed_on": self.printed_on.isoformat()}

    @property
    def struck_by_hand(self) -> bool:
        return self.struck_at is not None and not (self.passed_at and self.passed_at >= self.struck_at)

    def item(self, *, struck: bool = False) -> GearItem:
        """As the dates are reckoned; `struck` when a crash on record says so too."""
        struck = struck or self.struck_by_hand
        return GearItem(self.kind, self.standard, self.printed, self.meaning, struck, self.made)


class GearRuleQuerySet(ScopedQuerySet):
    garage_path = "event__garage"
    owner_only = True

    def of_organiser(self, event: Event) -> Self:
        """Of that organiser's other events, the latest first."""
        return (
            self.filter(event__garage=event.garage_id, event__organiser__iexact=event.organiser)
            .exclude(event=event.pk)
            .order_by("-event__gates_at", "-event_id")
        )


class GearRule(models.Model):
    """How an event judges one kind; a kind without a row goes as printed on its label."""

    event = models.ForeignKey(Event, models.CASCADE, related_name="gear_rules")
    kind = models.CharField(max_length=20, choices=[(s, k.label) for s, k in KINDS.items()])
    way = models.CharField(max_length=15, choices=list(WAYS.items()), default="printed")
    years = models.PositiveSmallIntegerField(default=0)

    objects = GearRuleQuerySet.as_manager()

    class Meta:
        ordering = ["pk"]
        constraints = [
            models.UniqueConstraint(fields=["event", "kind"], name="gear_rule_once"),
            one_of("gear_rule", "kind", list(KINDS)),
            one_of("gear_rule", "way", list(WAYS)),
            number_within("gear_rule", "years", 0, MOST_YEARS),
        ]

    @property
    def rule(self) -> DateRule:
        return DateRule(self.way, self.years)


class NeededGearQuerySet(ScopedQuerySet):
    garage_path = "vehicle__garage"
    owner_only = True


class NeededGear(models.Model):
    """The kinds that a car must have; without a row nobody has said, which is not none."""

    vehicle = models.OneToOneField(Vehicle, models.CASCADE, related_name="needed_gear")
    kinds = models.JSONField(default=list)
    chosen_by = models.ForeignKey(Membership, models.PROTECT, related_name="+")
    chosen_at = models.DateTimeField()

    objects = NeededGearQuerySet.as_manager()
