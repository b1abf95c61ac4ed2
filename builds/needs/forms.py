"""The forms of a need: what, how many, from whom, when it is expected, which part it is."""

from datetime import date, timedelta
from typing import Any

from django import forms

from builds.work.models.need import Need
from garage.access import refuse_costs
from garage.forms.edits import EditForm
from garage.forms.money import MoneyField
from garage.models import Garage, Membership
from parts.forms.interfaces import FitField
from parts.models import Part
from parts.models.part import MOST

FARTHEST = timedelta(days=731)
OWN = ("what", "fit", "quantity", "supplier", "lead_days", "expected_on", "cost_minor")


class NeedForm(EditForm, forms.Form):
    what = forms.CharField(label="What it needs", max_length=120)
    fit = FitField()
    quantity = forms.IntegerField(label="How many", min_value=1, max_value=MOST, initial=1)
    supplier = forms.CharField(label="From", max_length=80, required=False)
    lead_days = forms.IntegerField(
        label="Takes to come",
        min_value=0,
        max_value=365,
        required=False,
        help_text="From the order until it is here. Then the list says by when it must be ordered.",
    )
    expected_on = forms.DateField(
        label="Expected on",
        required=False,
        widget=forms.DateInput({"type": "date"}, "%Y-%m-%d"),
        help_text="The plan keeps the job back until that day. Empty: still to find.",
    )

    cost_minor = MoneyField(label="Cost of all of it", required=False)

    def __init__(self, *args: Any, member: Membership, today: date, need: Need | None = None, **kwargs: Any) -> None:
        self.today, self.need = today, need
        if need:
            kwargs["initial"] = {name: getattr(need, name) for name in OWN}
        super().__init__(*args, edits=need is not None, **kwargs)
        self.fields["lead_days"].unit = "days"
        self.fields["cost_minor"].unit = member.garage.currency
        if refuse_costs(member):
            del self.fields["cost_minor"]

    def clean_expected_on(self) -> date | None:
        day: date | None = self.cleaned_data["expected_on"]
        kept = self.need is not None and day == self.need.expected_on
        if day and day < self.today and not kept:
            raise forms.ValidationError("That day is over: choose today or a later one.")
        if day and day - self.today > FARTHEST:
            raise forms.ValidationError("That is more than two years away.")
        return day


class NeedPartForm(forms.Form):
    """Which part of the shelf a need is."""

    part = forms.ModelChoiceField(queryset=Part.objects.none())

    def __init__(self, *args: Any, garage: Garage, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["part"].queryset = Part.objects.in_garage(garage).kept()
