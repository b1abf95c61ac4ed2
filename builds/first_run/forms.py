"""The form of the first page. All of it may be left empty, and said later on the pages that it is of."""

from collections.abc import Iterator
from contextlib import contextmanager
from datetime import date, datetime, time, timedelta
from typing import Any, ClassVar
from zoneinfo import ZoneInfo, available_timezones

from django import forms
from django.utils import timezone

from garage import zones
from garage.actions.sign_in import UNNAMED
from garage.engine.hours import Stretch
from garage.forms.durations import DurationField
from garage.forms.events import EventForm
from garage.forms.garages import GarageForm
from garage.forms.hours import SHORT_WEEK, WeekFields
from garage.forms.moments import MomentField
from garage.forms.vehicles import VehicleForm
from garage.models import Person
from garage.models.event import MOST_TRAVEL

A_DAY_OUT = timedelta(hours=10)
USUAL_WEEK = [*(Stretch(day, 18 * 60 + 30, 22 * 60) for day in range(5)), Stretch(5, 9 * 60, 17 * 60)]


class FirstRunForm(WeekFields, GarageForm):
    """Begins with an example that one tap accepts; whose moments are of the time zone that is chosen in it."""

    lines: ClassVar = SHORT_WEEK

    owner = forms.CharField(label="Your name", max_length=60, required=False)
    car = forms.CharField(label="Name of the car", max_length=40, required=False)
    usual = VehicleForm.base_fields["usual"]
    event = forms.CharField(label="Name of the event", max_length=80, required=False)
    leaves_at = MomentField(label="The car leaves home", required=False)
    travel_minutes = DurationField(label="Travel, with loading", most=MOST_TRAVEL, required=False)

    def __init__(self, *args: Any, owner: Person, at: datetime, **kwargs: Any) -> None:
        self.person, self.at = owner, at
        begins = {
            "owner": "" if owner.name == UNNAMED else owner.name,
            "time_zone": zones.here(),
            "leaves_at": early_on(saturday_after_weeks(3, at.astimezone(ZoneInfo(zones.here())).date())),
            "travel_minutes": EventForm.base_fields["travel_minutes"].initial,
        }
        super().__init__(*args, initial=begins, **kwargs)
        self.add_week(USUAL_WEEK)
        self.fields["mon_fri"].help_text = ""  # the example stands in it
        self.fields["name"].required = False
        self.fields["name"].left_empty = "else it is called after you"
        for name in ("owner", "car", "event", "leaves_at", "travel_minutes", *(day.name for day in self.days())):
            self.fields[name].said_above = True

    def full_clean(self) -> None:
        with self._zone():
            super().full_clean()

    @contextmanager
    def _zone(self) -> Iterator[None]:
        name = self.data.get(self.add_prefix("time_zone"), "")
        with timezone.override(ZoneInfo(name) if name in available_timezones() else None):
            yield

    @property
    def where(self) -> list[forms.BoundField]:
        """What is mostly right as it is drawn."""
        return [self[name] for name in GarageForm.Meta.fields]

    @property
    def where_open(self) -> bool:
        return any(field.errors for field in self.where)

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or self.cleaned_data
        leaves = cleaned.get("leaves_at")
        if cleaned.get("event") and not leaves and "leaves_at" not in self.errors:
            self.add_error("leaves_at", "Say when the car leaves, or leave the event's name empty too.")
        elif cleaned.get("event") and leaves and leaves <= self.at:
            self.add_error("leaves_at", "That is over already: an event is still to come.")
        if cleaned.get("usual") and not cleaned.get("car") and "car" not in self.errors:
            self.add_error("car", "The readings are of a car: name it, or leave them unticked.")
        return cleaned

    def told(self) -> dict[str, Any]:
        """What the action takes."""
        said = self.cleaned_data
        called = said["owner"] or self.person.name
        garage = {name: said[name] for name in GarageForm.Meta.fields} | {"called": called}
        garage["name"] = said["name"] or f"{called}'s garage"
        return {
            "garage": garage,
            "car": {"name": said["car"], "usual": said["usual"]} if said["car"] else {},
            "event": self._event() if said["event"] else {},
            "week": said["week"],
        }

    def _event(self) -> dict[str, Any]:
        """Its gates open as the car comes there, and it is a day out, until its own page says otherwise."""
        said = self.cleaned_data
        travel = said["travel_minutes"] or 0
        gates = said["leaves_at"] + timedelta(minutes=travel)
        return {"name": said["event"], "gates_at": gates, "ends_at": gates + A_DAY_OUT, "travel_minutes": travel}


def saturday_after_weeks(weeks: int, today: date) -> date:
    """The first Saturday when so many weeks are over."""
    return today + timedelta(weeks=weeks, days=(5 - today.weekday()) % 7)


def early_on(day: date) -> datetime:
    """As a clock shows it, of no time zone yet."""
    return datetime.combine(day, time(7))
