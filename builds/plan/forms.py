"""How long to look for a better plan."""

from django import forms

BUDGETS = [(5, "5 s"), (20, "20 s"), (60, "60 s")]


class PlanForm(forms.Form):
    seconds = forms.TypedChoiceField(
        label="How long to search",
        choices=BUDGETS,
        coerce=int,
        initial=BUDGETS[0][0],
        error_messages={
            "required": "Choose how long to search: 5, 20 or 60 seconds.",
            "invalid_choice": "Choose 5, 20 or 60 seconds.",
        },
    )
