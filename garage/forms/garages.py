"""The garage's own form: its name, where it stands, how it measures and prints."""

import re
from typing import Any
from zoneinfo import available_timezones

from django import forms

from garage import zones
from garage.forms.edits import EditForm
from garage.models import Garage

# Continents and oceans of the IANA database; its other names are older or abbreviations.
REGIONS = [
    "Africa",
    "America",
    "Antarctica",
    "Arctic",
    "Asia",
    "Atlantic",
    "Australia",
    "Europe",
    "Indian",
    "Pacific",
]


class ZoneSelect(forms.Select):
    """Each place once, with what a browser may call it instead (app.js)."""

    def create_option(self, name: str, value: Any, *args: Any, **kwargs: Any) -> dict[str, Any]:
        option = super().create_option(name, value, *args, **kwargs)
        if was := zones.older_names().get(str(value)):
            option["attrs"]["data-was"] = " ".join(was)
        return option


def zone_choices(current: str) -> list[Any]:
    """Time zones by region for a select, with UTC and the one in use always among them."""
    names = zones.places()
    first = sorted({"UTC", current} - {""})
    return [
        ("In use, or none", [(name, name) for name in first]),
        *(
            (
                region,
                [(n, n.split("/", 1)[1].replace("_", " ")) for n in names if n.startswith(f"{region}/")],
            )
            for region in REGIONS
        ),
    ]


class GarageForm(EditForm, forms.ModelForm):
    class Meta:
        model = Garage
        fields = ["name", "time_zone", "units", "paper", "currency"]
        labels = {"name": "Name of the garage"}
        help_texts = {
            "time_zone": "hours and events are told in it",
            "currency": "three letters, such as EUR",
        }
        widgets = {"units": forms.RadioSelect, "paper": forms.RadioSelect}

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.edits = self.instance.pk is not None  # the first form of a garage founds it
        zone = self.fields["time_zone"]
        # Of a new garage the browser says where it stands (app.js).
        here = {} if self.edits or self.is_bound else {"data-here": ""}
        zone.widget = ZoneSelect(here, choices=zone_choices(self.instance.time_zone))

    def clean_time_zone(self) -> str:
        name = self.cleaned_data["time_zone"]
        if name not in available_timezones():
            raise forms.ValidationError(f"{name[:60]} is not a time zone, write one such as Europe/Lisbon.")
        return name

    def clean_currency(self) -> str:
        code = self.cleaned_data["currency"].upper()
        if not re.fullmatch("[A-Z]{3}", code):
            raise forms.ValidationError("Write the three letters of a currency, such as EUR.")
        return code
