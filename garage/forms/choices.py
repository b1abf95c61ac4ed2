"""A field of ticks, and what a choice says of a row that is not among those offered."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from django import forms
from django.forms.boundfield import BoundField, BoundWidget

NOT_HERE = {"invalid_choice": "That is not in this garage: choose from the list."}


@dataclass
class TickGroup:
    """Ticks under one heading; those without one stand open before the rest."""

    label: str
    ticks: list[BoundWidget]

    @property
    def ticked(self) -> int:
        return sum(bool(tick.data["selected"]) for tick in self.ticks)


class BoundTicks(BoundField):
    """Knows its groups where its choices are grouped; a template draws each as a fold with its count."""

    @property
    def groups(self) -> list[TickGroup]:
        grouped = any(isinstance(inner, list | tuple) for _, inner in self.field.choices)
        return list(self._groups()) if grouped else []

    def _groups(self) -> Iterator[TickGroup]:
        widget, first = self.field.widget, TickGroup("", [])
        attrs = self.build_widget_attrs({"id": self.auto_id})
        yield first
        for label, options, _ in widget.optgroups(self.html_name, widget.format_value(self.value()), attrs):
            ticks = [BoundWidget(widget, option, self.form.renderer) for option in options]
            if label:
                yield TickGroup(label, ticks)
            else:
                first.ticks += ticks


class TicksField(forms.MultipleChoiceField):
    """None is an answer unless it is required; `short` ones stand beside each other."""

    bound_field_class = BoundTicks

    def __init__(self, *, short: bool = False, required: bool = False, **kwargs: Any) -> None:
        widget = forms.CheckboxSelectMultiple({"class": "short"} if short else None)
        super().__init__(widget=widget, required=required, **kwargs)
