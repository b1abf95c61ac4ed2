"""A reading of a car: what was measured or checked, by whom, how loaded, and its values."""

from datetime import datetime
from typing import Self

from django.db import models
from django.db.models import Exists, OuterRef, Q

from builds.work.models.job import Job
from garage.engine.reasons import names_something
from garage.models import Garage, Membership, Vehicle
from garage.models.bounds import number_within, one_of, text_within
from garage.models.scoped import OfCarsQuerySet, ScopedQuerySet

# Far beyond what any field of a reading allows; a figure of the garage's own has no other bound.
MOST = 10**12
MOST_FUEL_ML, MOST_PRESSURE_PA = 1_000_000, 600_000
OWN = "own-"


def kind_or_own(model: str) -> models.CheckConstraint:
    """Either a kind that every garage has, or one of the garage's own."""
    return models.CheckConstraint(
        condition=Q(kind="", own__isnull=False) | (~Q(kind="") & Q(own=None)),
        name=f"{model}_kind_or_own",
    )


class OwnKindQuerySet(ScopedQuerySet):
    def called(self, key: str) -> Self:
        """The one with this key, if it is the key of any."""
        number = key.removeprefix(OWN)
        known = key.startswith(OWN) and number.isdecimal() and len(number) < 19
        return self.filter(pk=number) if known else self.none()


class OwnKind(models.Model):
    """A kind of reading that the garage made up; void with `follows` (slug), if it names one."""

    garage = models.ForeignKey(Garage, models.CASCADE, related_name="reading_kinds")
    name = models.CharField(max_length=60)
    unit = models.CharField(max_length=12, blank=True)
    is_number = models.BooleanField(default=True)
    follows = models.CharField(max_length=40, blank=True)

    objects = OwnKindQuerySet.as_manager()

    class Meta:
        ordering = ["name"]
        constraints = [
            models.UniqueConstraint(fields=["garage", "name"], name="ownkind_once"),
            text_within("ownkind", "name", 60, least=1),
            text_within("ownkind", "unit", 12),
            text_within("ownkind", "follows", 40),
        ]

    def __str__(self) -> str:
        return self.name

    @property
    def key(self) -> str:
        return f"{OWN}{self.pk}"


class KindQuerySet(OfCarsQuerySet):
    """Of rows that name a kind of reading by `kind` or `own`."""

    def of(self, key: str) -> Self:
        """Of the kind with this key: a slug, or that of a kind of the garage's own."""
        if not key.startswith(OWN):
            return self.filter(kind=key, own=None)
        return self.filter(kind="", own__in=OwnKind.objects.all().called(key))


class ReadingQuerySet(KindQuerySet):
    def standing(self) -> Self:
        """Those that nobody struck out."""
        return self.filter(struck_at=None)

    def with_all(self) -> Self:
        """With values and people, for a page."""
        people = self.select_related("by__person", "struck_by__person")
        return people.prefetch_related("values")

    def last_of_each(self, before: datetime | None = None) -> Self:
        """The newest that stands, of each kind on each car; of those taken before a moment."""
        newer = Reading.objects.filter(
            Q(at__gt=OuterRef("at")) | Q(pk__gt=OuterRef("pk")),
            Q(own=OuterRef("own")) | Q(own=None),  # one of their own has no kind, and the others no own
            vehicle=OuterRef("vehicle"),
            kind=OuterRef("kind"),
            at__gte=OuterRef("at"),
            struck_at=None,
        )
        until = {"at__lt": before} if before else {}
        return self.standing().filter(~Exists(newer.filter(**until)), **until)


class Reading(models.Model):
    """Never changed once written down: a wrong one is struck out with a reason.

    `last_of` is the job whose last act it was: nothing was changed in it afterwards.
    """

    class Driver(models.TextChoices):
        ABOARD = "aboard", "driver aboard"
        BALLAST = "ballast", "ballast in the driver's place"
        EMPTY = "empty", "nobody aboard"

    class Floor(models.TextChoices):
        LEVELLED = "levelled", "levelled"
        KNOWN = "known", "slope known and allowed for"

    class Bars(models.TextChoices):
        UNHOOKED = "unhooked", "unhooked"
        HOOKED = "hooked", "connected"
        NONE = "none", "the car has none"

    vehicle = models.ForeignKey(Vehicle, models.CASCADE, related_name="readings")
    kind = models.CharField(max_length=40, blank=True)
    own = models.ForeignKey(OwnKind, models.PROTECT, null=True, blank=True, related_name="readings")
    at = models.DateTimeField()
    by = models.ForeignKey(Membership, models.PROTECT, related_name="+")
    last_of = models.ForeignKey(Job, models.SET_NULL, null=True, blank=True, related_name="readings")
    instrument = models.CharField(max_length=80, blank=True)
    fuel_ml = models.PositiveIntegerField(null=True, blank=True)
    driver = models.CharField(max_length=10, choices=Driver.choices, blank=True)
    front_pa = models.PositiveIntegerField(null=True, blank=True)
    rear_pa = models.PositiveIntegerField(null=True, blank=True)
    floor = models.CharField(max_length=10, choices=Floor.choices, blank=True)
    bars = models.CharField(max_length=10, choices=Bars.choices, blank=True)
    note = models.CharField(max_length=400, blank=True)
    stripped = models.BooleanField("the car was stripped, and it wants its wheels", default=False)
    written_at = models.DateTimeField()
    struck_at = models.DateTimeField(null=True, blank=True)
    struck_by = models.ForeignKey(Membership, models.PROTECT, null=True, blank=True, related_name="+")
    struck_because = models.CharField(max_length=200, blank=True)

    objects = ReadingQuerySet.as_manager()

    class Meta:
        ordering = ["at", "pk"]
        indexes = [
            models.Index(fields=["vehicle", "kind", "-at"], name="reading_newest"),
            models.Index(fields=["own", "-at"], name="reading_own_newest"),
        ]
        constraints = [
            kind_or_own("reading"),
            text_within("reading", "kind", 40),
            text_within("reading", "instrument", 80),
            text_within("reading", "note", 400),
            text_within("reading", "struck_because", 200),
            number_within("reading", "fuel_ml", 0, MOST_FUEL_ML),
            number_within("reading", "front_pa", 0, MOST_PRESSURE_PA),
            number_within("reading", "rear_pa", 0, MOST_PRESSURE_PA),
            one_of("reading", "driver", ["", "aboard", "ballast", "empty"]),
            one_of("reading", "floor", ["", "levelled", "known"]),
            one_of("reading", "bars", ["", "unhooked", "hooked", "none"]),
            models.CheckConstraint(
                condition=Q(struck_at=None, struck_by=None, struck_because="")
                | (Q(struck_at__isnull=False, struck_by__isnull=False) & ~Q(struck_because="")),
                name="reading_struck_with_a_reason",
            ),
        ]

    @property
    def key(self) -> str:
        return self.kind or f"{OWN}{self.own_id}"

    @property
    def given(self) -> frozenset[str]:
        """The conditions (slugs) that were written down."""
        told = {
            "instrument": names_something(self.instrument),
            "fuel": self.fuel_ml is not None,
            "driver": bool(self.driver),
            "pressures": self.front_pa is not None and self.rear_pa is not None,
            "floor": bool(self.floor),
            "bars": bool(self.bars),
        }
        return frozenset(slug for slug, there in told.items() if there)


class ReadingValueQuerySet(ScopedQuerySet):
    garage_path = "reading__vehicle__garage"


class ReadingValue(models.Model):
    """One value: whole stored units (a check 1 or 0, words none), and as it was typed."""

    reading = models.ForeignKey(Reading, models.CASCADE, related_name="values")
    field = models.CharField(max_length=40)
    amount = models.BigIntegerField(null=True, blank=True)
    typed = models.CharField(max_length=200)
    unit = models.CharField(max_length=12, blank=True)

    objects = ReadingValueQuerySet.as_manager()

    class Meta:
        ordering = ["pk"]
        constraints = [
            models.UniqueConstraint(fields=["reading", "field"], name="readingvalue_once"),
            text_within("readingvalue", "field", 40, least=1),
            text_within("readingvalue", "typed", 200, least=1),
            text_within("readingvalue", "unit", 12),
            number_within("readingvalue", "amount", -MOST, MOST),
        ]
