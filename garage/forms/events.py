"""The forms of an event and of an entry."""

from datetime import datetime
from typing import Any

from django import forms

from garage.forms.durations import DurationField
from garage.forms.edits import EditForm
from garage.forms.moments import MomentField
from garage.models import Entry, Event, Garage, Membership, Vehicle

OWN = (
    *("name", "organiser", "place", "gates_at", "scrutineering_at", "ends_at", "travel_minutes"),
    *("runs", "note"),
)
RUNS = 4
TAKEN = (Entry.Travels.TRAILER, Entry.Travels.VAN)


class EventForm(EditForm, forms.Form):
    name = forms.CharField(max_length=80)
    organiser = forms.CharField(
        max_length=80,
        required=False,
        help_text="whose own scrutineering list the cars get, if one is kept under this name",
    )
    place = forms.CharField(max_length=120, required=False)
    gates_at = MomentField(label="Gates open")
    scrutineering_at = MomentField(label="Scrutineering", required=False)
    ends_at = MomentField(label="Ends")
    cars = forms.ModelMultipleChoiceField(
        queryset=Vehicle.objects.none(),
        label="Cars that are entered",
        required=False,
        widget=forms.CheckboxSelectMultiple,
        help_text="how much each matters and how it gets there is said with its entry",
    )
    travel_minutes = DurationField(
        label="Travel, with loading",
        most=7 * 24 * 60,
        initial=60,
        help_text="the cars are due so long before the earlier of gates and scrutineering",
    )
    runs = forms.IntegerField(
        label="Runs of each car",
        min_value=1,
        max_value=99,
        required=False,
        initial=RUNS,
        help_text=f"what is packed grows with them; {RUNS} while it is left empty",
    )
    people = forms.ModelMultipleChoiceField(
        queryset=Membership.objects.none(),
        label="Who goes",
        required=False,
        widget=forms.CheckboxSelectMultiple,
        help_text="not at home from when the cars leave until the way back is over",
    )
    note = forms.CharField(max_length=2000, required=False, widget=forms.Textarea({"rows": 3}))

    def __init__(self, *args: Any, garage: Garage, at: datetime, event: Event | None = None, **kwargs: Any) -> None:
        self.at, self.was_over = at, event is not None and event.ends_at <= at
        self.nights = list(event.nights.all()) if event else []
        if event:
            kwargs["initial"] = {name: getattr(event, name) for name in OWN} | {"people": event.people.all()}
        super().__init__(*args, edits=event is not None, **kwargs)
        self.fields["people"].queryset = Membership.objects.in_garage(garage).active().select_related("person")
        self.fields["cars"].queryset = Vehicle.objects.in_garage(garage).kept()
        if event or not self.fields["cars"].queryset.exists():
            del self.fields["cars"]  # later they are entered one by one

    def clean_runs(self) -> int:
        return self.cleaned_data["runs"] or RUNS

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or self.cleaned_data
        gates, ends = cleaned.get("gates_at"), cleaned.get("ends_at")
        looked_at = cleaned.get("scrutineering_at")
        for night in self.nights:
            if gates and gates > night.from_at:
                self.add_error("gates_at", "A night in its paddock begins before that: change the night first.")
            elif ends and ends < night.due_at:
                self.add_error("ends_at", "A night in its paddock has its morning after that: change the night first.")
        if gates and ends and ends < gates:
            self.add_error("ends_at", "It ends before the gates open.")
        elif ends and ends <= self.at and not self.was_over:
            self.add_error("ends_at", "That is over already: an event is still to come.")
        if looked_at and ends and looked_at > ends:
            self.add_error("scrutineering_at", "Scrutineering comes before the end.")
        return cleaned


class EntryForm(EditForm, forms.Form):
    vehicle = forms.ModelChoiceField(queryset=Vehicle.objects.none(), label="Car", empty_label="choose a car")
    weight = forms.IntegerField(
        label="How much it matters",
        min_value=1,
        max_value=9,
        initial=1,
        help_text="1 to 9: when not every car can make it, the one that matters more goes first",
    )
    travels = forms.ChoiceField(
        label="How it gets there", choices=[("", "not said yet"), *Entry.Travels.choices], required=False
    )
    tow = forms.ModelChoiceField(
        queryset=Vehicle.objects.none(),
        label="What takes it",
        required=False,
        empty_label="somebody else's, or not said yet",
        help_text="which of your own vehicles pulls the trailer, or is the van",
    )
    trailer = forms.CharField(
        label="Which trailer", max_length=40, required=False, help_text="such as “the long one”: one car to each"
    )

    def __init__(self, *args: Any, event: Event, entry: Entry | None = None, **kwargs: Any) -> None:
        if entry:
            kwargs["initial"] = {name: getattr(entry, name) for name in ("weight", "travels", "tow", "trailer")}
        super().__init__(*args, edits=entry is not None, **kwargs)
        cars = Vehicle.objects.in_garage(event.garage_id).kept()
        self.entry, self.fields["tow"].queryset = entry, cars
        if entry:
            del self.fields["vehicle"]
            self.fields["tow"].queryset = cars.exclude(pk=entry.vehicle_id)
        else:
            self.fields["vehicle"].queryset = cars.exclude(pk__in=event.entries.coming().values("vehicle"))
            only = list(self.fields["vehicle"].queryset[:2])
            self.initial["vehicle"] = only[0] if len(only) == 1 else None

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or self.cleaned_data
        how, tow = cleaned.get("travels"), cleaned.get("tow")
        if tow and how not in TAKEN:
            self.add_error("tow", "Only a car on a trailer or in a van is taken by another.")
        elif tow and tow == cleaned.get("vehicle"):
            self.add_error("tow", "A car does not take itself.")
        if cleaned.get("trailer") and how != Entry.Travels.TRAILER:
            self.add_error("trailer", "Only a car on a trailer has one.")
        return cleaned
