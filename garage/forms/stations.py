"""The station form."""

from typing import Any

from django import forms

from garage.forms.edits import EditForm
from garage.forms.hours import WeekFields
from garage.models import Garage, Station


class StationForm(EditForm, WeekFields):
    name = forms.CharField(max_length=40)
    capacity = forms.IntegerField(
        min_value=1,
        max_value=50,
        initial=1,
        help_text="for a bay or floor: how many cars fit, or jobs at once on one of them; for a bench: how many jobs",
    )
    stands = forms.BooleanField(
        required=False,
        label="A car stands in it",
        help_text="Tick it for a bay or the level floor, not for a bench. A car stands in one place at a time: while "
        "one is stripped elsewhere, none of its jobs are done here.",
    )
    always_open = forms.BooleanField(required=False, initial=True, help_text="otherwise only in the hours below")

    def __init__(self, *args: Any, garage: Garage, station: Station | None = None, **kwargs: Any) -> None:
        self.garage, self.station = garage, station
        if station:
            kwargs["initial"] = {
                "name": station.name,
                "capacity": station.capacity,
                "stands": station.stands,
                "always_open": station.always_open,
            }
        super().__init__(*args, edits=station is not None, **kwargs)
        self.add_week([hours.stretch for hours in station.weekly_hours.all()] if station else [])

    def clean_name(self) -> str:
        name: str = self.cleaned_data["name"]
        others = Station.objects.in_garage(self.garage).filter(name__iexact=name)
        if self.station:
            others = others.exclude(pk=self.station.pk)
        if others.exists():
            raise forms.ValidationError(f"There is a {name} already.")
        return name
