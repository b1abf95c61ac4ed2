"""A joint of a car that carries a torque, and the marks that were put on it."""

from datetime import datetime
from typing import Self

from django.db import models
from django.db.models import Q

from builds.work.models.job import NAME_MOST
from garage.engine.systems import SAFETY_SYSTEMS
from garage.models import Membership, Vehicle
from garage.models.bounds import number_within, text_within
from garage.models.scoped import OfCarsQuerySet
from garage.models.written_once import WrittenOnce, WrittenOnceQuerySet

MOST_MNM = 1_000_000


class JointQuerySet(OfCarsQuerySet):
    def kept(self) -> Self:
        return self.filter(retired_at=None)


class Joint(models.Model):
    """`opened_by` are kinds of work; on work that names systems, only those that they share."""

    vehicle = models.ForeignKey(Vehicle, models.CASCADE, related_name="joints")
    name = models.CharField(max_length=80)
    systems = models.JSONField(default=list, blank=True)
    opened_by = models.JSONField(default=list, blank=True)
    thread = models.CharField(max_length=40, blank=True)
    klass = models.CharField("class", max_length=20, blank=True)
    figure_mnm = models.PositiveIntegerField("maker's figure", null=True, blank=True)
    figure_from = models.CharField("where the figure is from", max_length=120, blank=True)
    wrench = models.CharField(max_length=60, blank=True)
    again_after_run = models.BooleanField("again after the first session", default=False)
    retired_at = models.DateTimeField(null=True, blank=True)

    objects = JointQuerySet.as_manager()

    class Meta:
        ordering = ["name", "pk"]
        constraints = [
            models.UniqueConstraint(fields=["vehicle", "name"], condition=Q(retired_at=None), name="joint_once"),
            text_within("joint", "name", 80, least=1),
            text_within("joint", "thread", 40),
            text_within("joint", "klass", 20),
            text_within("joint", "figure_from", 120),
            text_within("joint", "wrench", 60),
            number_within("joint", "figure_mnm", 1, MOST_MNM),
        ]

    def __str__(self) -> str:
        return self.name

    @property
    def safety(self) -> bool:
        return not SAFETY_SYSTEMS.isdisjoint(self.systems)


class JointMarkQuerySet(WrittenOnceQuerySet):
    garage_path = "joint__vehicle__garage"

    def torqued(self) -> Self:
        return self.filter(signs=None)

    def put_on_after(self, ahead: int, at: datetime) -> Self:
        """The last first, of those put on until now after one (pk) that was written down for a day to come."""
        return self.torqued().filter(pk__gt=ahead, at__lte=at).order_by("-at", "-pk")


class JointMark(WrittenOnce):
    """Torqued by a hand, or (`signs` names that mark) looked at by a second one.

    Of a look `by` looked, or names the `outsider` who did; `written_by` wrote it down, if known.
    `at` is the moment of the hand, `arrived_at` when it was heard of; `key` counts a tap once.
    """

    joint = models.ForeignKey(Joint, models.CASCADE, related_name="marks")
    signs = models.OneToOneField("self", models.CASCADE, null=True, blank=True, related_name="signed_by")
    torque_mnm = models.PositiveIntegerField(null=True, blank=True)
    typed = models.CharField(max_length=40, blank=True)
    wrench = models.CharField(max_length=60, blank=True)
    note = models.CharField(max_length=200, blank=True)
    alone = models.BooleanField(default=False)
    outsider = models.CharField("who looked from outside", max_length=NAME_MOST, blank=True)
    written_by = models.ForeignKey(Membership, models.PROTECT, null=True, blank=True, related_name="+")
    by = models.ForeignKey(Membership, models.PROTECT, related_name="+")
    at = models.DateTimeField()
    arrived_at = models.DateTimeField()
    key = models.UUIDField(unique=True)

    objects = JointMarkQuerySet.as_manager()

    class Meta:
        ordering = ["at", "pk"]
        indexes = [
            models.Index(fields=["joint", "-at", "-id"], condition=Q(signs=None), name="joint_mark_newest"),
            models.Index(fields=["joint"], condition=Q(alone=True), name="joint_mark_alone"),
        ]
        constraints = [
            text_within("jointmark", "typed", 40),
            text_within("jointmark", "wrench", 60),
            text_within("jointmark", "note", 200),
            text_within("jointmark", "outsider", NAME_MOST),
            number_within("jointmark", "torque_mnm", 1, MOST_MNM),
            models.CheckConstraint(condition=Q(outsider="") | Q(signs__isnull=False), name="jointmark_outsider_signed"),
        ]
