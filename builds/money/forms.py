"""The form of a budget."""

from typing import Any

from django import forms

from garage.forms.edits import EditForm
from garage.forms.money import MoneyField
from garage.models import Garage


class BudgetForm(EditForm, forms.Form):
    minor = MoneyField(label="Budget", required=False, help_text="At most so much in all. Empty: no budget.")

    def __init__(self, *args: Any, garage: Garage, budget: int | None, **kwargs: Any) -> None:
        super().__init__(*args, initial={"minor": budget}, **kwargs)
        self.fields["minor"].unit = garage.currency
