"""The form of a line of one's own on a pack list."""

from typing import Any

from django import forms

from builds.packing.models import AMOUNT_MAX, WHAT_MAX
from garage.models import Event, Vehicle


class PackAddForm(forms.Form):
    what = forms.CharField(max_length=WHAT_MAX)
    amount = forms.CharField(label="How much", max_length=AMOUNT_MAX, required=False, help_text="such as: 2 pieces")
    vehicle = forms.ModelChoiceField(
        queryset=Vehicle.objects.none(), label="For", empty_label="all of them", required=False
    )

    def __init__(self, *args: Any, event: Event, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        cars = Vehicle.objects.in_garage(event.garage_id).filter(pk__in=event.entries.coming().values("vehicle"))
        self.fields["vehicle"].queryset = cars
