"""The form of a trial: hours, a part, the temperature, an entry, added to what was tried."""

from datetime import date, datetime, timedelta
from typing import Any
from zoneinfo import ZoneInfo

from django import forms

from builds.remedies.facts.deeds import Deed, codes, parse_all
from builds.remedies.pages.deed_words import Book
from builds.shop.forms.shop import degrees
from builds.work.models.need import Need
from garage.engine.hours import HoursError, parse_day
from garage.models import Entry, Event, Garage, Membership, Vehicle

FARTHEST = timedelta(days=180)
KINDS = [("session", "comes as well"), ("off", "is not in")]


def _day(label: str) -> forms.DateField:
    widget = forms.DateInput({"type": "date"}, "%Y-%m-%d")
    return forms.DateField(label=label, required=False, widget=widget)


class TrialForm(forms.Form):
    """`deeds()` is what was chosen, behind what the trial before had (`do`)."""

    do = forms.CharField(required=False, widget=forms.HiddenInput, max_length=4000)
    person = forms.ModelChoiceField(Membership.objects.none(), label="Who", required=False)
    kind = forms.ChoiceField(label="What differs", choices=KINDS, widget=forms.RadioSelect, required=False)
    day = _day("On")
    hours = forms.CharField(
        label="Hours", max_length=60, required=False, help_text="such as 18:30-22:00; none when out"
    )
    need = forms.ModelChoiceField(Need.objects.none(), label="Part", required=False)
    expected_on = _day("Comes on")
    car = forms.ChoiceField(label="Car", required=False)
    weight = forms.IntegerField(
        label="Counts",
        min_value=0,
        max_value=9,
        required=False,
        help_text="1 to 9; 0 leaves it at home",
    )

    def __init__(self, *args: Any, garage: Garage, at: datetime, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.book = Book(garage)
        self.today = at.astimezone(ZoneInfo(garage.time_zone)).date()
        rows = Membership.objects.in_garage(garage).active().working()
        self.fields["person"].queryset = rows.select_related("person")
        self.fields["need"].queryset = Need.objects.in_garage(garage).open().select_related("job")
        self.fields["need"].label_from_instance = lambda need: f"{need} for {need.job}"
        self.fields["warm_mc"] = degrees(garage, "The shop stays at", help_text="from today on")
        self.fields["car"].choices = [("", "no change"), *_cars(garage, at)]
        self.has_parts = self.fields["need"].queryset.exists()
        for name in ("person", "need"):
            self.fields[name].empty_label = "no change"

    def told_before(self) -> list[str]:
        """What the trial before had, in words."""
        try:
            deeds = parse_all(self["do"].value() or "")
            return [self.book.told(deed) for deed in deeds]
        except (KeyError, ValueError):
            return []

    def clean_do(self) -> tuple[Deed, ...]:
        try:
            return parse_all(self.cleaned_data["do"])
        except ValueError as error:
            raise forms.ValidationError("The changes before were not read: begin anew.") from error

    def clean_day(self) -> date | None:
        return self._ahead("day")

    def clean_expected_on(self) -> date | None:
        return self._ahead("expected_on")

    def _ahead(self, name: str) -> date | None:
        day: date | None = self.cleaned_data[name]
        if day and not self.today <= day <= self.today + FARTHEST:
            raise forms.ValidationError("Choose a day from today on, within half a year.")
        return day

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or self.cleaned_data
        self.added: list[Deed] = []
        for part in (self._hours, self._part, self._warmth, self._entry):
            part(cleaned)
        if not self.errors and not self.added and not cleaned["do"]:
            self.add_error(None, "Choose at least one change.")
        return cleaned

    def _hours(self, cleaned: dict[str, Any]) -> None:
        member, day, words = cleaned.get("person"), cleaned.get("day"), cleaned.get("hours")
        if member is None or self.errors.keys() & {"person", "day", "hours"}:
            return
        if day is None:
            self.add_error("day", "Say on which day.")
        elif cleaned.get("kind") == "off":
            self.added.append(Deed("off", (member.pk,), day))
        elif not words:
            self.add_error("hours", "Write the hours, such as 18:30-22:00.")
        else:
            try:
                for each in parse_day(day.weekday(), words):
                    deed = Deed("session", (member.pk, each.since, each.until), day)
                    self.added.append(deed)
            except HoursError as wrong:
                self.add_error("hours", str(wrong))

    def _part(self, cleaned: dict[str, Any]) -> None:
        need, day = cleaned.get("need"), cleaned.get("expected_on")
        if need is not None and day is not None:
            self.added.append(Deed("part", (need.pk,), day))
        elif need is not None and "expected_on" not in self.errors:
            self.add_error("expected_on", "Say on which day it comes.")

    def _warmth(self, cleaned: dict[str, Any]) -> None:
        if cleaned.get("warm_mc") is not None:
            self.added.append(Deed("hold", (cleaned["warm_mc"],), self.today))

    def _entry(self, cleaned: dict[str, Any]) -> None:
        car, weight = cleaned.get("car"), cleaned.get("weight")
        if not car or "weight" in self.errors:
            return
        kind, *numbers = car.split(".")
        rows = tuple(map(int, numbers))
        if weight is None or (kind == "enter" and not weight):
            self.add_error("weight", "Say how much it counts, 1 to 9.")
        elif kind == "enter":
            self.added.append(Deed("enter", (*rows, weight)))
        else:
            deed = Deed("weigh", (*rows, weight)) if weight else Deed("home", rows)
            self.added.append(deed)

    def deeds(self) -> tuple[Deed, ...]:
        return tuple(dict.fromkeys((*self.cleaned_data["do"], *self.added)))


def _cars(garage: Garage, at: datetime) -> list[tuple[str, str]]:
    """Entered cars, then those that could be entered for an event ahead."""
    ahead = Entry.objects.in_garage(garage).upcoming(at).kept().select_related("event", "vehicle")
    entered = [(f"entry.{row.pk}", f"{row}, counts {row.weight}") for row in ahead]
    taken = {(row.event_id, row.vehicle_id) for row in ahead}
    events = Event.objects.in_garage(garage).upcoming(at)
    vehicles = list(Vehicle.objects.in_garage(garage).kept())
    return entered + [
        (f"enter.{event.pk}.{car.pk}", f"{car} at {event}, not entered")
        for event in events
        for car in vehicles
        if (event.pk, car.pk) not in taken
    ]


def initial_of(text: str) -> dict[str, str]:
    """What a new form starts from: the changes of the trial before, if they can be read."""
    try:
        return {"do": codes(parse_all(text))}
    except ValueError:
        return {}
