"""How long to look for a better plan."""

from django import forms

BUDGETS = [(5, "5 s"), (20, "20 s"), (60, "60 s")]


class PlanForm(forms.Form):
    seconds = forms.TypedChoiceField(
        label="Look for a better one for",
        choices=BUDGETS,
        coerce=int,
        required=False,
        empty_value=BUDGETS[0][0],
        initial=BUDGETS[0][0],
        error_messages={"invalid_choice": "Choose 5, 20 or 60 seconds."},
    )
