"""The form of a trial: hours, a part, the temperature, an entry, added to what was tried."""

from datetime import date, datetime, timedelta
from typing import Any
from zoneinfo import ZoneInfo

from django import forms

from builds.remedies.deeds.deed import Deed, codes
from builds.remedies.deeds.enter import EnterDeed
from builds.remedies.deeds.hold import HoldDeed
from builds.remedies.deeds.home import HomeDeed
from builds.remedies.deeds.kinds import parse_all
from builds.remedies.deeds.off import OffDeed
from builds.remedies.deeds.part import PartDeed
from builds.remedies.deeds.session import SessionDeed
from builds.remedies.deeds.weigh import WeighDeed
from builds.remedies.facts.deed_rows import DeedRows
from builds.shop.forms.shop import degrees
from builds.work.models.need import Need
from garage.engine.hours import HoursError, parse_day
from garage.facts.entries import kept_ahead
from garage.models import Event, Garage, Membership, Vehicle

FARTHEST = timedelta(days=180)
HOURS = [(SessionDeed.kind, "comes as well"), (OffDeed.kind, "is not in")]


def _day(label: str) -> forms.DateField:
    widget = forms.DateInput({"type": "date"}, "%Y-%m-%d")
    return forms.DateField(label=label, required=False, widget=widget)


class TrialForm(forms.Form):
    """`deeds()` is what was chosen, behind what the trial before had (`do`)."""

    do = forms.CharField(required=False, widget=forms.HiddenInput, max_length=4000)
    person = forms.ModelChoiceField(Membership.objects.none(), label="Who", required=False)
    kind = forms.ChoiceField(label="What differs", choices=HOURS, widget=forms.RadioSelect, required=False)
    day = _day("On")
    hours = forms.CharField(
        label="Hours", max_length=60, required=False, help_text="such as 18:30-22:00; none when out"
    )
    need = forms.ModelChoiceField(Need.objects.none(), label="Part", required=False)
    expected_on = _day("Comes on")
    car = forms.ChoiceField(label="Car", required=False)
    weight = forms.IntegerField(
        label="How much it matters",
        min_value=0,
        max_value=9,
        required=False,
        help_text="1 to 9; 0 leaves it at home",
    )

    def __init__(self, *args: Any, garage: Garage, at: datetime, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.deed_rows = DeedRows(garage)
        self.today = at.astimezone(ZoneInfo(garage.time_zone)).date()
        members = Membership.objects.in_garage(garage).active().working()
        self.fields["person"].queryset = members.select_related("person")
        self.fields["need"].queryset = Need.objects.in_garage(garage).open().select_related("job")
        self.fields["need"].label_from_instance = lambda need: f"{need} for “{need.job}”"
        self.fields["warm_mc"] = degrees(garage, "The shop stays at", help_text="from today on")
        self.fields["car"].choices = [("", "no change"), *_cars(garage, at)]
        self.has_parts = self.fields["need"].queryset.exists()
        for name in ("person", "need"):
            self.fields[name].empty_label = "no change"

    def told_before(self) -> list[str]:
        """What the trial before had, in words."""
        try:
            return [deed.told(self.deed_rows) for deed in parse_all(self["do"].value() or "")]
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
        for add in (self._add_hours, self._add_part, self._add_warmth, self._add_entry):
            add(cleaned)
        if not self.errors and not self.added and not cleaned["do"]:
            self.add_error(None, "Choose at least one change.")
        return cleaned

    def _add_hours(self, cleaned: dict[str, Any]) -> None:
        member, day, typed = cleaned.get("person"), cleaned.get("day"), cleaned.get("hours")
        if member is None or self.errors.keys() & {"person", "day", "hours"}:
            return
        if day is None:
            self.add_error("day", "Say on which day.")
        elif cleaned.get("kind") == OffDeed.kind:
            self.added.append(OffDeed(member.pk, day))
        elif not typed:
            self.add_error("hours", "Write the hours, such as 18:30-22:00.")
        else:
            self._add_sessions(member, day, typed)

    def _add_sessions(self, member: Membership, day: date, typed: str) -> None:
        try:
            for stretch in parse_day(day.weekday(), typed):
                self.added.append(SessionDeed(member.pk, stretch.since, stretch.until, day))
        except HoursError as wrong:
            self.add_error("hours", str(wrong))

    def _add_part(self, cleaned: dict[str, Any]) -> None:
        need, day = cleaned.get("need"), cleaned.get("expected_on")
        if need is not None and day is not None:
            self.added.append(PartDeed(need.pk, day))
        elif need is not None and "expected_on" not in self.errors:
            self.add_error("expected_on", "Say on which day it comes.")

    def _add_warmth(self, cleaned: dict[str, Any]) -> None:
        if cleaned.get("warm_mc") is not None:
            self.added.append(HoldDeed(cleaned["warm_mc"], self.today))

    def _add_entry(self, cleaned: dict[str, Any]) -> None:
        """The choices of `car` are `entry.<entry>` and `enter.<event>.<vehicle>`."""
        car, weight = cleaned.get("car"), cleaned.get("weight")
        if not car or "weight" in self.errors:
            return
        choice, *pks = car.split(".")
        rows, enters = tuple(int(pk) for pk in pks), choice == EnterDeed.kind
        if weight is None or (enters and not weight):
            self.add_error("weight", "Say how much it matters, 1 to 9.")
        elif enters:
            self.added.append(EnterDeed(*rows, weight))
        else:
            self.added.append(WeighDeed(*rows, weight) if weight else HomeDeed(*rows))

    def deeds(self) -> tuple[Deed, ...]:
        return tuple(dict.fromkeys((*self.cleaned_data["do"], *self.added)))


def _cars(garage: Garage, at: datetime) -> list[tuple[str, str]]:
    """Entered cars, then those that could be entered for an event ahead."""
    ahead = kept_ahead(garage, at)
    entered = [(f"entry.{entry.pk}", f"{entry}, matters {entry.weight} of 9") for entry in ahead]
    taken = {(entry.event_id, entry.vehicle_id) for entry in ahead}
    events = Event.objects.in_garage(garage).upcoming(at)
    vehicles = list(Vehicle.objects.in_garage(garage).kept())
    return entered + [
        (f"{EnterDeed.kind}.{event.pk}.{car.pk}", f"{car} at {event}, not entered")
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
