"""Hours: when people are in and stations open, week by week and on single days."""

from datetime import date
from typing import Any, Self

from django.db import models

from garage.engine.hours import Stretch
from garage.models.bounds import in_order, number_within, one_of, text_within
from garage.models.membership import Membership
from garage.models.scoped import ScopedQuerySet
from garage.models.station import Station

WEEKDAYS = ["Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday"]


class MemberHoursQuerySet(ScopedQuerySet):
    garage_path = "member__garage"

    def of(self, member: Membership) -> Self:
        return self.filter(member=member)


class DayHoursQuerySet(MemberHoursQuerySet):
    def between(self, first: date, last: date) -> Self:
        return self.filter(day__gte=first, day__lte=last)


class StationHoursQuerySet(ScopedQuerySet):
    garage_path = "station__garage"
    owner_only = True


class WeeklyHours(models.Model):
    """A stretch of one weekday, local time; ends by midnight (written 24:00 = minute 1440)."""

    weekday = models.PositiveSmallIntegerField(choices=list(enumerate(WEEKDAYS)))
    from_minute = models.PositiveSmallIntegerField()
    until_minute = models.PositiveSmallIntegerField()

    class Meta:
        abstract = True
        ordering = ["weekday", "from_minute"]

    @property
    def stretch(self) -> Stretch:
        return Stretch(self.weekday, self.from_minute, self.until_minute)


class MemberHours(WeeklyHours):
    member = models.ForeignKey(Membership, models.CASCADE, related_name="weekly_hours")

    objects = MemberHoursQuerySet.as_manager()

    class Meta(WeeklyHours.Meta):
        constraints = [
            number_within("memberhours", "weekday", 0, 6),
            number_within("memberhours", "until_minute", 1, 1440),
            in_order("memberhours", "from_minute", "until_minute"),
        ]


class StationHours(WeeklyHours):
    station = models.ForeignKey(Station, models.CASCADE, related_name="weekly_hours")

    objects = StationHoursQuerySet.as_manager()

    class Meta(WeeklyHours.Meta):
        constraints = [
            number_within("stationhours", "weekday", 0, 6),
            number_within("stationhours", "until_minute", 1, 1440),
            in_order("stationhours", "from_minute", "until_minute"),
        ]


class DayHours(models.Model):
    """One day that differs: off, an extra session, or these hours instead of the week's."""

    class Kind(models.TextChoices):
        OFF = "off", "day off"
        EXTRA = "extra", "extra session"
        INSTEAD = "instead", "these hours instead"

    member = models.ForeignKey(Membership, models.CASCADE, related_name="day_hours")
    day = models.DateField()
    kind = models.CharField(max_length=10, choices=Kind.choices)
    from_minute = models.PositiveSmallIntegerField(null=True, blank=True)
    until_minute = models.PositiveSmallIntegerField(null=True, blank=True)
    note = models.CharField(max_length=120, blank=True)

    objects = DayHoursQuerySet.as_manager()

    class Meta:
        ordering = ["day", "from_minute"]
        constraints = [
            one_of("dayhours", "kind", ["off", "extra", "instead"]),
            text_within("dayhours", "note", 120),
            models.UniqueConstraint(
                fields=["member", "day"],
                condition=models.Q(kind__in=["off", "instead"]),
                name="dayhours_one_rule_a_day",
            ),
            models.CheckConstraint(
                condition=models.Q(kind="off", from_minute=None, until_minute=None)
                | models.Q(
                    kind__in=["extra", "instead"],
                    until_minute__lte=1440,
                    from_minute__lt=models.F("until_minute"),
                ),
                name="dayhours_hours_fit_kind",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.day}: {self.get_kind_display()}"

    def save(self, *args: Any, **kwargs: Any) -> None:
        if self.kind == self.Kind.OFF:
            self.from_minute = self.until_minute = None
        super().save(*args, **kwargs)
