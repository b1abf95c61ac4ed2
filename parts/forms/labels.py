"""Which labels, on which sheet, from which label on."""

from typing import Any

from django import forms
from django.http import QueryDict

from garage.forms.quantities import QuantityField
from garage.models import Garage
from parts.engine.label_grid import BY_SLUG, GRIDS
from parts.facts.search import matching
from parts.models import Part, Place
from parts.pages.labels import MOST, CodeLabel, all_in, labels_of

# A pk of more digits is nobody's, and no database takes it.
DIGITS = 18


class TickedField(forms.ModelMultipleChoiceField):
    widget = forms.CheckboxSelectMultiple

    def clean(self, value: Any) -> Any:
        for code in value or ():
            if not (code.isascii() and code.isdecimal() and len(code) <= DIGITS):
                raise forms.ValidationError("Tick what is in the list.")
        return super().clean(value)


class LabelForm(forms.Form):
    """Sent by GET, so names are short: three hundred ticks still make an address."""

    q = forms.CharField(
        label="Look for parts",
        max_length=100,
        required=False,
        widget=forms.TextInput({"type": "search"}),
    )
    whole = forms.ModelChoiceField(
        Place.objects.none(),
        label="A place with all that is in it",
        required=False,
        empty_label="none",
    )
    s = TickedField(Place.objects.none(), label="Places", required=False)
    p = TickedField(Part.objects.none(), label="Parts", required=False)
    sheet = forms.ChoiceField(
        choices=[(grid.slug, grid.words) for grid in GRIDS],
        help_text="By its size: hold the calibration page against yours before the first print.",
    )
    start = forms.IntegerField(
        label="First free label",
        min_value=1,
        max_value=100,
        required=False,
        help_text="Counted along the rows, for a sheet that is partly used.",
    )
    right = QuantityField(
        "length", "µm", -9000, 9000,
        label="Shift right",
        required=False,
        help_text="What the calibration page is off; to the left is below 0.",
    )  # fmt: skip
    down = QuantityField("length", "µm", -9000, 9000, label="Shift down", required=False)
    test = forms.BooleanField(required=False)

    def __init__(self, asked: QueryDict, *, garage: Garage) -> None:
        data = asked.copy()
        for name, usual in (("sheet", f"{garage.paper}-plain"), ("start", "1")):
            data.setdefault(name, usual)
        super().__init__(data)
        self.garage = garage
        places = Place.objects.in_garage(garage).inside().walking_order()
        self.fields["whole"].queryset = self.fields["s"].queryset = places
        self.fields["p"].queryset = Part.objects.in_garage(garage).kept()

    def offer(self) -> int:
        """What can be ticked: what is already, then what the words find; how many those find."""
        kept = self.cleaned_data if self.errors is not None else {}
        rows = matching(self.garage, kept.get("q", ""))
        shown = {part.pk: part for part in (*kept.get("p", ()), *rows[:MOST])}
        self.fields["p"].choices = [
            (pk, ", ".join(filter(None, [part.name, part.number]))) for pk, part in shown.items()
        ]
        return rows.count()

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or self.cleaned_data
        grid = BY_SLUG.get(cleaned.get("sheet", ""))
        if grid and (cleaned.get("start") or 1) > grid.each:
            self.add_error("start", f"This sheet has labels 1 to {grid.each}.")
        if not self.errors and not cleaned["test"]:
            cleaned["labels"] = self._labels(cleaned)
        return cleaned

    def _labels(self, cleaned: dict[str, Any]) -> list[CodeLabel]:
        """Every label once, whichever way it was asked for."""
        whole = all_in(cleaned["whole"]) if cleaned["whole"] else []
        rows = list(dict.fromkeys([*whole, *labels_of(cleaned["s"], cleaned["p"])]))
        if not rows:
            self.add_error(None, "Choose at least one place or part.")
        elif len(rows) > MOST:
            self.add_error(None, f"That is {len(rows)} labels and a file holds {MOST}: choose fewer at a time.")
        return rows
