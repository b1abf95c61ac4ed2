"""The form of a need: what, how many, from whom, and when it is expected."""

from datetime import date, timedelta
from typing import Any

from django import forms

from builds.models import Need
from parts.models.part import MOST

FARTHEST = timedelta(days=731)
OWN = ("what", "quantity", "supplier", "expected_on")


class NeedForm(forms.Form):
    what = forms.CharField(label="What it needs", max_length=120)
    quantity = forms.IntegerField(label="How many", min_value=1, max_value=MOST, initial=1)
    supplier = forms.CharField(label="From", max_length=80, required=False)
    expected_on = forms.DateField(
        label="Expected on",
        required=False,
        widget=forms.DateInput({"type": "date"}, "%Y-%m-%d"),
        help_text="The plan keeps the job back until that day. Empty: still to find.",
    )

    def __init__(self, *args: Any, today: date, need: Need | None = None, **kwargs: Any) -> None:
        self.today, self.need = today, need
        if need:
            kwargs["initial"] = {name: getattr(need, name) for name in OWN}
        super().__init__(*args, **kwargs)

    def clean_expected_on(self) -> date | None:
        day: date | None = self.cleaned_data["expected_on"]
        kept = self.need is not None and day == self.need.expected_on
        if day and day < self.today and not kept:
            raise forms.ValidationError("That day is over: choose today or a later one.")
        if day and day - self.today > FARTHEST:
            raise forms.ValidationError("That is more than two years away.")
        return day
