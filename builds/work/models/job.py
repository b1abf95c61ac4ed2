"""A job on a car: what, how long, who can, where, and what state it is in."""

from collections.abc import Iterable
from datetime import datetime, timedelta
from functools import reduce
from operator import or_
from typing import Self

from django.db import models
from django.db.models import Q, TextField
from django.db.models.functions import Cast

from builds.work.engine.again import MEASURE_AGAIN, TAKEN_AGAIN
from builds.work.engine.apart import found_open
from builds.work.engine.faults import is_fault, said_of
from builds.work.engine.welds import Weld
from builds.work.models.states import OPEN_STATES, STARTED_STATES, State
from garage.models import Membership, Night, Skill, Station, Vehicle
from garage.models.bounds import number_within, one_of, text_within
from garage.models.scoped import OfCarsQuerySet, ScopedQuerySet

MOST_MINUTES = 60 * 24 * 60
TITLE_MOST = 120
NOTE_MOST = 4000
NAME_MOST = 60
STATE_NOTE_MOST = 200


def names_any(field: str, slugs: Iterable[str]) -> Q:
    """Of jobs `with_texts`: those whose list (kinds, systems) has one of these slugs, or a longer one around it."""
    return reduce(or_, (Q(**{f"{field}_text__contains": f'"{slug}"'}) for slug in slugs))


class JobQuerySet(OfCarsQuerySet):
    def with_texts(self) -> Self:
        """With the lists that slugs are looked for in as text, since only one of the databases can look into a list."""
        return self.alias(**{f"{field}_text": Cast(field, TextField()) for field in ("kinds", "systems")})

    def open(self) -> Self:
        """Still to do: neither done, signed nor dropped."""
        return self.filter(state__in=OPEN_STATES, vehicle__gone_at=None)

    def with_night(self) -> Self:
        """With the night in which it is done at an event, if there is one."""
        return self.select_related("night__event")

    def with_morning(self) -> Self:
        """Only what is asked of it before its car runs, and by when where it is done overnight at an event."""
        asked = ("vehicle", "title", "recipe", "rank", "systems", "kinds", "measures")
        return self.select_related("night").only(*asked, "night__due_at")

    def over(self) -> Self:
        """Done, signed or dropped."""
        return self.exclude(state__in=OPEN_STATES)

    def in_hand(self) -> Self:
        return self.filter(state=State.IN_HAND)

    def begun(self) -> Self:
        """Hands have been on it, and it is not finished."""
        return self.filter(state__in=STARTED_STATES)

    def linkable(self, job: "Job", at: datetime) -> Self:
        """Jobs that can come before or after this one, those of its own car first.

        Of what is done only what can still keep it waiting: no wait is longer than `MOST_MINUTES`.
        """
        waits = Q(finished_at=None) | Q(finished_at__gte=at - timedelta(minutes=MOST_MINUTES))
        own = models.Case(models.When(vehicle=job.vehicle_id, then=0), default=1)
        return (
            self.filter(waits, vehicle__gone_at=None)
            .exclude(pk=job.pk)
            .exclude(state=State.DROPPED)
            .order_by(own, "vehicle__name", "pk")
        )

    def taking_again(self) -> Self:
        """Those that come and go by themselves, as other work makes readings void."""
        return self.filter(recipe__in=TAKEN_AGAIN)

    def found_in(self, job: "Job") -> Self:
        return self.filter(found_in=job)

    def finished_since(self, moment: datetime) -> Self:
        return self.filter(state__in=[State.DONE, State.SIGNED], finished_at__gte=moment)


class Job(models.Model):
    class Rank(models.TextChoices):
        SAFETY = "safety", "safety: someone gets hurt"
        NEEDED = "needed", "needed: no entry or no running without it"
        WANTED = "wanted", "wanted"

    vehicle = models.ForeignKey(Vehicle, models.CASCADE, related_name="jobs")
    title = models.CharField(max_length=TITLE_MOST)
    was_called = models.CharField("what it said before it was called otherwise", max_length=TITLE_MOST, blank=True)
    note = models.TextField(max_length=NOTE_MOST, blank=True)
    systems = models.JSONField(default=list, blank=True)
    kinds = models.JSONField(default=list, blank=True)
    kinds_likely = models.BooleanField("its kinds are only likely: asked at its finish", default=False)
    weld = models.CharField("the weld, once it is done", max_length=10, blank=True)
    measures = models.JSONField(default=list, blank=True)
    eats = models.JSONField("consumables of its recipe", default=list, blank=True)
    rank = models.CharField(max_length=10, choices=Rank.choices, default=Rank.NEEDED)
    lowered_because = models.CharField(max_length=200, blank=True)
    was_safety = models.BooleanField("was a safety job until it was lowered", default=False)
    weight = models.PositiveSmallIntegerField(default=1)

    low_minutes = models.PositiveIntegerField()
    likely_minutes = models.PositiveIntegerField()
    high_minutes = models.PositiveIntegerField()
    left_minutes = models.PositiveIntegerField(null=True, blank=True)
    hands = models.PositiveSmallIntegerField(default=1)
    skill = models.ForeignKey(Skill, models.PROTECT, null=True, blank=True, related_name="jobs")
    splits = models.BooleanField(default=True)
    earliest_at = models.DateTimeField(null=True, blank=True)
    pinned_at = models.DateTimeField(null=True, blank=True)
    needs_mc = models.IntegerField("at least so warm, thousandths of a °C", null=True, blank=True)
    needs_dry = models.BooleanField("metal clear of the dew point", default=False)
    night = models.ForeignKey(
        Night,
        models.SET_NULL,
        null=True,
        blank=True,
        related_name="jobs",
        verbose_name="done overnight, in the paddock",
    )

    state = models.CharField(max_length=10, choices=State.choices, default=State.OPEN)
    nothing_because = models.CharField("why its work opened nothing", max_length=200, blank=True)
    not_opened = models.JSONField("kinds that were likely or said, and were not done", default=list, blank=True)
    not_touched = models.JSONField("systems that were said, and were not touched", default=list, blank=True)
    whole_because = models.CharField("why the car is as it was, dropped half done", max_length=200, blank=True)
    state_note = models.CharField(max_length=STATE_NOTE_MOST, blank=True)
    seen = models.BooleanField("somebody saw it, and it is not only planned", default=False)
    was_unread = models.BooleanField("seen, and its first words named nothing", default=False)
    turned_out = models.CharField("what it was, by the word of the owner", max_length=200, blank=True)
    found_in = models.ForeignKey("self", models.SET_NULL, null=True, blank=True, related_name="led_to")
    recipe = models.CharField(max_length=60, blank=True)
    batch = models.UUIDField(null=True, blank=True)
    made_by = models.ForeignKey(Membership, models.PROTECT, related_name="+")
    made_at = models.DateTimeField()
    finished_at = models.DateTimeField(null=True, blank=True)
    signed_by = models.ForeignKey(Membership, models.PROTECT, null=True, blank=True, related_name="+")
    signed_at = models.DateTimeField(null=True, blank=True)
    signed_alone = models.BooleanField(default=False)
    signed_outsider = models.CharField("who looked from outside", max_length=NAME_MOST, blank=True)
    signed_written_by = models.ForeignKey(Membership, models.PROTECT, null=True, blank=True, related_name="+")

    objects = JobQuerySet.as_manager()

    class Meta:
        ordering = ["pk"]
        indexes = [
            models.Index(fields=["vehicle", "state"], name="job_by_state"),
            models.Index(fields=["vehicle", "finished_at"], name="job_by_end"),
            models.Index(fields=["batch"], name="job_of_batch"),
            models.Index(fields=["vehicle"], condition=Q(signed_alone=True), name="job_signed_alone"),
            models.Index(fields=["vehicle"], condition=~Q(weld=""), name="job_of_weld"),
        ]
        constraints = [
            text_within("job", "title", TITLE_MOST, least=1),
            text_within("job", "was_called", TITLE_MOST),
            text_within("job", "note", NOTE_MOST),
            text_within("job", "lowered_because", 200),
            text_within("job", "state_note", STATE_NOTE_MOST),
            text_within("job", "nothing_because", 200),
            text_within("job", "whole_because", 200),
            text_within("job", "turned_out", 200),
            text_within("job", "recipe", 60),
            text_within("job", "signed_outsider", NAME_MOST),
            one_of("job", "rank", ["safety", "needed", "wanted"]),
            one_of("job", "weld", ["", *Weld]),
            one_of("job", "state", State.values),
            number_within("job", "weight", 1, 9),
            number_within("job", "hands", 0, 9),
            number_within("job", "high_minutes", 0, MOST_MINUTES),
            number_within("job", "left_minutes", 0, MOST_MINUTES),
            number_within("job", "needs_mc", -40_000, 60_000),
            models.CheckConstraint(
                condition=models.Q(
                    low_minutes__lte=models.F("likely_minutes"),
                    likely_minutes__lte=models.F("high_minutes"),
                ),
                name="job_figures_in_order",
            ),
            models.UniqueConstraint(
                fields=["vehicle"],
                condition=models.Q(recipe=MEASURE_AGAIN, state__in=OPEN_STATES),
                name="job_one_measuring_again",
            ),
            models.CheckConstraint(
                condition=models.Q(signed_at=None) | models.Q(signed_by__isnull=False),
                name="job_signed_by_someone",
            ),
            models.CheckConstraint(
                condition=models.Q(signed_outsider="") | models.Q(signed_at__isnull=False),
                name="job_outsider_signed",
            ),
        ]

    def __str__(self) -> str:
        return self.title

    @property
    def must_do(self) -> bool:
        """No car runs before it is done: safety and needed work, and that of which nobody has said anything."""
        return self.rank != self.Rank.WANTED or not (self.recipe or self.systems or self.kinds or self.measures)

    @property
    def looked_for(self) -> bool:
        """Its work is over, and stopped at a hold point: nothing is left but a look."""
        return self.state == State.HELD and self.finished_at is not None

    @property
    def called(self) -> str:
        """Its title, and what it said before that where the title does not say it any more."""
        return f"{self.title} (was: {self.was_called})" if self.was_called else self.title

    @property
    def words(self) -> str:
        """All that was ever said of it."""
        return said_of(self.title, self.was_called)

    @property
    def was_seen(self) -> bool:
        """Whether somebody saw it on the car: found, failed, noted."""
        return self.seen or self.found_in_id is not None

    @property
    def found_open(self) -> bool:
        return found_open(self.systems, self.kinds, faulty=is_fault(self.words, self.recipe, found=self.was_seen))

    def overnight(self, at: datetime) -> Night | None:
        """The night of an event in which it is done; once that is over, what is left is done at home."""
        return self.night if self.night and self.night.due_at > at else None


class JobStationQuerySet(ScopedQuerySet):
    garage_path = "job__vehicle__garage"


class JobStation(models.Model):
    """A station that a job uses while it is worked on, and how much of it."""

    job = models.ForeignKey(Job, models.CASCADE, related_name="uses")
    station = models.ForeignKey(Station, models.PROTECT, related_name="used_by")
    units = models.PositiveSmallIntegerField(default=1)

    objects = JobStationQuerySet.as_manager()

    class Meta:
        ordering = ["pk"]
        constraints = [
            models.UniqueConstraint(fields=["job", "station"], name="jobstation_once"),
            number_within("jobstation", "units", 1, 50),
        ]

    def __str__(self) -> str:
        return f"“{self.job}” on {self.job.vehicle}"
