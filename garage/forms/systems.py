"""A field for the systems of a car that something touches or belongs to."""

from typing import Any

from django import forms

from garage.engine.systems import SYSTEMS


class SystemsField(forms.MultipleChoiceField):
    """Their slugs; none is an answer."""

    def __init__(self, **kwargs: Any) -> None:
        choices = [(slug, system.label) for slug, system in SYSTEMS.items()]
        widget = forms.CheckboxSelectMultiple({"class": "short"})
        super().__init__(choices=choices, widget=widget, required=False, **kwargs)
