"""A field of ticks, and what a choice says of a row that is not among those offered."""

from typing import Any

from django import forms

NOT_HERE = {"invalid_choice": "That is not in this garage: choose from the list."}


class TicksField(forms.MultipleChoiceField):
    """None is an answer unless it is required; `short` ones stand beside each other."""

    def __init__(self, *, short: bool = False, required: bool = False, **kwargs: Any) -> None:
        widget = forms.CheckboxSelectMultiple({"class": "short"} if short else None)
        super().__init__(widget=widget, required=required, **kwargs)
