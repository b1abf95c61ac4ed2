"""Forms of parts and places."""

from typing import Any

from django import forms

from garage.forms.money import MoneyField
from garage.models import Garage
from parts.models import Part, Place
from parts.models.part import MOST

OWN = ("name", "number", "single", "one_use", "unit", "condition", "systems", "provenance",
       "supplier", "cost_minor", "low_level", "note")  # fmt: skip
FIRST = ("name", "condition", "single", "systems")
# A person makes these; the others every garage has of itself.
OWN_KINDS = ("shelf", "bin", "van", "trailer", "someone")


class PartForm(forms.Form):
    name = forms.CharField(max_length=120, help_text="what it is")
    condition = forms.ChoiceField(
        choices=Part.Condition.choices,
        initial="unknown",
        help_text="no history is unknown, not good",
    )
    single = forms.BooleanField(label="One of a kind, with a history", required=False)
    systems = forms.MultipleChoiceField(
        label="Part of",
        required=False,
        widget=forms.CheckboxSelectMultiple,
        help_text="taken off a car, a part of a safety system leaves it not fit to run",
    )
    number = forms.CharField(label="Maker's or own number", max_length=60, required=False)
    one_use = forms.BooleanField(
        label="Never used twice",
        required=False,
        help_text="stretch bolts, nyloc nuts, split pins, crush washers, gaskets",
    )
    unit = forms.ChoiceField(label="Counted in", choices=Part.Unit.choices)
    provenance = forms.CharField(label="Where it came from", max_length=200, required=False)
    supplier = forms.CharField(max_length=80, required=False)
    cost_minor = MoneyField(label="Cost of one", required=False)
    low_level = forms.IntegerField(
        label="Buy when fewer than", min_value=0, max_value=MOST, required=False
    )
    note = forms.CharField(max_length=2000, required=False, widget=forms.Textarea({"rows": 3}))

    def __init__(
        self, *args: Any, systems: list[tuple[str, str]], part: Part | None = None, **kwargs: Any
    ) -> None:
        if part:
            kwargs["initial"] = {name: getattr(part, name) for name in OWN}
        super().__init__(*args, **kwargs)
        self.fields["systems"].choices = systems

    @property
    def first(self) -> list[Any]:
        return [self[name] for name in FIRST]

    @property
    def rest(self) -> list[Any]:
        return [field for field in self if field.name not in FIRST]

    @property
    def rest_open(self) -> bool:
        return any(field.errors for field in self.rest)

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or self.cleaned_data
        if cleaned.get("single") and cleaned.get("unit") not in (None, "piece"):
            self.add_error("unit", "One of a kind is counted in pieces.")
        if cleaned.get("single") and cleaned.get("one_use"):
            self.add_error("one_use", "What has a history of its own is used more than once.")
        return cleaned


class PlaceForm(forms.Form):
    name = forms.CharField(max_length=60)
    kind = forms.ChoiceField(choices=[(kind, Place.Kind(kind).label) for kind in OWN_KINDS])
    walk_order = forms.IntegerField(
        label="Order on the way round",
        min_value=0,
        max_value=9999,
        initial=100,
        help_text="pull lists walk from low to high",
    )

    def __init__(self, *args: Any, place: Place | None = None, **kwargs: Any) -> None:
        if place:
            kwargs["initial"] = {"name": place.name, "walk_order": place.walk_order}
        super().__init__(*args, **kwargs)
        if place:
            del self.fields["kind"]


class SearchForm(forms.Form):
    """What is looked for on the shelf: plain words, matched as they are."""

    q = forms.CharField(label="Look for", max_length=100, required=False)
    place = forms.ModelChoiceField(
        queryset=Place.objects.none(), required=False, empty_label="everywhere"
    )

    def __init__(self, *args: Any, garage: Garage, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["place"].queryset = Place.objects.in_garage(garage).inside()
