"""Pack lists: what goes to an event, the log of every tick."""

from typing import Self

from django.db import models
from django.db.models import Q

from builds.packing.engine.pack_states import PACK_STATES, PackState
from builds.packing.engine.packing import SECTIONS
from garage.models import Event, Membership, Vehicle
from garage.models.bounds import number_within, one_of, text_within
from garage.models.scoped import ScopedQuerySet
from garage.models.written_once import WrittenOnce, WrittenOnceQuerySet
from parts.models import Part

WHAT_MAX = 120
AMOUNT_MAX = 40


class PackListQuerySet(ScopedQuerySet):
    garage_path = "event__garage"


class PackList(models.Model):
    event = models.OneToOneField(Event, models.CASCADE, related_name="pack_list")
    made_by = models.ForeignKey(Membership, models.PROTECT, related_name="+")
    made_at = models.DateTimeField()
    runs = models.PositiveSmallIntegerField()

    objects = PackListQuerySet.as_manager()

    class Meta:
        constraints = [number_within("packlist", "runs", 1, 99)]


class PackItemQuerySet(ScopedQuerySet):
    garage_path = "packlist__event__garage"

    def wanted(self) -> Self:
        return self.exclude(state=PackState.LEFT)


class PackItem(models.Model):
    """One line; `key` is the engine's own name for it, empty for a line that somebody added.

    `state`, `by` and `at` are what its log comes to.
    """

    packlist = models.ForeignKey(PackList, models.CASCADE, related_name="items")
    place = models.PositiveSmallIntegerField(default=0)
    key = models.CharField(max_length=200, blank=True)
    section = models.CharField(max_length=20)
    vehicle = models.ForeignKey(Vehicle, models.CASCADE, null=True, blank=True, related_name="packed")
    part = models.ForeignKey(Part, models.SET_NULL, null=True, blank=True, related_name="packed")
    what = models.CharField(max_length=WHAT_MAX)
    amount = models.CharField(max_length=AMOUNT_MAX, blank=True)
    why = models.CharField(max_length=200, blank=True)
    state = models.CharField(max_length=10, default=PackState.OPEN.value)
    by = models.ForeignKey(Membership, models.PROTECT, null=True, blank=True, related_name="+")
    at = models.DateTimeField(null=True, blank=True)

    objects = PackItemQuerySet.as_manager()

    class Meta:
        ordering = ["place", "pk"]
        constraints = [
            models.UniqueConstraint(fields=["packlist", "key"], condition=~Q(key=""), name="packitem_once"),
            one_of("packitem", "section", list(SECTIONS)),
            one_of("packitem", "state", PackState),
            text_within("packitem", "key", 200),
            text_within("packitem", "what", WHAT_MAX, least=1),
            text_within("packitem", "amount", AMOUNT_MAX),
            text_within("packitem", "why", 200),
            number_within("packitem", "place", 0, 9999),
        ]

    def __str__(self) -> str:
        return self.what


class PackLogQuerySet(WrittenOnceQuerySet):
    garage_path = "item__packlist__event__garage"


class PackLog(WrittenOnce):
    """One thing done to a line, written once; `key` comes with the tap and counts it once."""

    item = models.ForeignKey(PackItem, models.CASCADE, related_name="log")
    key = models.UUIDField()
    step = models.CharField(max_length=10)
    by = models.ForeignKey(Membership, models.PROTECT, related_name="+")
    at = models.DateTimeField()
    arrived_at = models.DateTimeField()

    objects = PackLogQuerySet.as_manager()

    class Meta:
        ordering = ["at", "key"]
        constraints = [
            models.UniqueConstraint(fields=["key"], name="packlog_once"),
            one_of("packlog", "step", list(PACK_STATES.steps)),
        ]
