"""Scrutineering lists: an entry's items, the log of every tick, and what a car has."""

from typing import Self

from django.db import models
from django.db.models import Q

from builds.scrutineering.engine.check_list import FIRST_RUN, LINE_MAX, SCRUTINEERING, SECTION_MAX, ListItem
from builds.scrutineering.engine.check_states import CHECK_STATES, UNDO, CheckState
from builds.work.models.job import Job
from garage.models import Entry, Garage, Membership, Vehicle
from garage.models.bounds import number_within, one_of, text_within
from garage.models.scoped import ScopedQuerySet
from garage.models.written_once import WrittenOnce, WrittenOnceQuerySet

STATES = [state.value for state in CheckState]
OWN_TEXT_MAX = 20_000


class OrganiserListQuerySet(ScopedQuerySet):
    owner_only = True

    def of(self, organiser: str) -> Self:
        """By name, capitals aside; none for an event that names nobody."""
        return self.filter(name__iexact=organiser) if organiser else self.none()

    def names(self) -> list[str]:
        return list(self.values_list("name", flat=True))


class OrganiserList(models.Model):
    """What an organiser looks at, in lines as they were pasted; serves each of his events."""

    garage = models.ForeignKey(Garage, models.CASCADE, related_name="organisers")
    name = models.CharField(max_length=80)
    text = models.TextField(max_length=OWN_TEXT_MAX)
    with_shipped = models.BooleanField("the general list too", default=True)
    changed_at = models.DateTimeField()

    objects = OrganiserListQuerySet.as_manager()

    class Meta:
        ordering = ["name"]
        constraints = [
            models.UniqueConstraint(fields=["garage", "name"], name="organiserlist_once"),
            text_within("organiserlist", "name", 80, least=1),
            text_within("organiserlist", "text", OWN_TEXT_MAX, least=1),
        ]

    def __str__(self) -> str:
        return self.name


class CarHasQuerySet(ScopedQuerySet):
    garage_path = "vehicle__garage"


class CarHas(models.Model):
    """What a car has of the things that some items are only for; no row while nobody has said."""

    vehicle = models.OneToOneField(Vehicle, models.CASCADE, related_name="has")
    tags = models.JSONField(default=list, blank=True)

    objects = CarHasQuerySet.as_manager()


class CheckListQuerySet(ScopedQuerySet):
    garage_path = "entry__event__garage"
    car_path = "entry__vehicle"

    def of(self, entry: Entry, kind: str) -> Self:
        return self.filter(entry=entry, kind=kind)


class CheckList(models.Model):
    entry = models.ForeignKey(Entry, models.CASCADE, related_name="check_lists")
    kind = models.CharField(max_length=20, default=SCRUTINEERING)
    organiser = models.CharField(max_length=80, blank=True)
    made_by = models.ForeignKey(Membership, models.PROTECT, related_name="+")
    made_at = models.DateTimeField()

    objects = CheckListQuerySet.as_manager()

    class Meta:
        ordering = ["pk"]
        constraints = [
            models.UniqueConstraint(fields=["entry", "kind"], name="checklist_once"),
            one_of("checklist", "kind", [SCRUTINEERING, FIRST_RUN]),
            text_within("checklist", "organiser", 80),
        ]


class CheckItemQuerySet(ScopedQuerySet):
    garage_path = "checklist__entry__event__garage"
    car_path = "checklist__entry__vehicle"

    def untouched(self) -> Self:
        return self.filter(log=None)


class CheckItem(models.Model):
    """An item with its words as they were; `state`, `by`, `at`, `note` are what its log comes to.

    `at` is the moment of the hand that made the deciding tick, on a phone's own clock if need be.
    """

    checklist = models.ForeignKey(CheckList, models.CASCADE, related_name="items")
    place = models.PositiveSmallIntegerField()
    key = models.CharField(max_length=60, blank=True)
    section = models.CharField(max_length=SECTION_MAX)
    text = models.CharField(max_length=LINE_MAX)
    systems = models.JSONField(default=list, blank=True)
    kinds = models.JSONField(default=list, blank=True)
    state = models.CharField(max_length=10, default=CheckState.OPEN.value)
    note = models.CharField(max_length=200, blank=True)
    by = models.ForeignKey(Membership, models.PROTECT, null=True, blank=True, related_name="+")
    at = models.DateTimeField(null=True, blank=True)

    objects = CheckItemQuerySet.as_manager()

    class Meta:
        ordering = ["place", "pk"]
        constraints = [
            models.UniqueConstraint(fields=["checklist", "text"], name="checkitem_once"),
            one_of("checkitem", "state", STATES),
            text_within("checkitem", "key", 60),
            text_within("checkitem", "section", SECTION_MAX, least=1),
            text_within("checkitem", "text", LINE_MAX, least=1),
            text_within("checkitem", "note", 200),
            number_within("checkitem", "place", 0, 9999),
            models.CheckConstraint(
                condition=Q(state="open", at=None, by=None)
                | (~Q(state="open") & Q(at__isnull=False, by__isnull=False)),
                name="checkitem_by_someone",
            ),
            models.CheckConstraint(condition=~Q(state="left_out") | ~Q(note=""), name="checkitem_left_out_with_why"),
        ]

    def __str__(self) -> str:
        return self.text

    @property
    def list_item(self) -> ListItem:
        """As the engine ranks it."""
        return ListItem(self.section, self.text, tuple(self.systems), tuple(self.kinds), key=self.key)


class CheckLogQuerySet(WrittenOnceQuerySet):
    garage_path = "item__checklist__entry__event__garage"


class CheckLog(WrittenOnce):
    """One thing done to an item, written once; `key` comes with the tap and counts it once.

    `at` is when the thumb came down, `arrived_at` when it was heard of. `answers`: of an undo the
    line taken back, of a mend the fail. `job` is what a fail opened.
    """

    item = models.ForeignKey(CheckItem, models.CASCADE, related_name="log")
    key = models.UUIDField()
    step = models.CharField(max_length=10)
    by = models.ForeignKey(Membership, models.PROTECT, related_name="+")
    at = models.DateTimeField()
    arrived_at = models.DateTimeField()
    note = models.CharField(max_length=200, blank=True)
    answers = models.ForeignKey("self", models.CASCADE, null=True, blank=True, related_name="answered_by")
    job = models.ForeignKey(Job, models.SET_NULL, null=True, blank=True, related_name="checks")

    objects = CheckLogQuerySet.as_manager()

    class Meta:
        ordering = ["at", "key"]
        constraints = [
            models.UniqueConstraint(fields=["key"], name="checklog_once"),
            one_of("checklog", "step", [*CHECK_STATES.steps, UNDO]),
            text_within("checklog", "note", 200),
            models.CheckConstraint(condition=~Q(step="leave_out") | ~Q(note=""), name="checklog_left_out_with_why"),
            models.CheckConstraint(
                condition=Q(step__in=["mend", "undo"], answers__isnull=False)
                | (~Q(step__in=["mend", "undo"]) & Q(answers=None)),
                name="checklog_answers_something",
            ),
        ]
