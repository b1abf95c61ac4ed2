"""Fields for the values of a reading: figures in the garage's units, checks, words."""

from typing import Any

from django import forms

from builds.readings.actions.readings import Typed
from builds.readings.engine.fields import CHECK, FAIL, FIGURE, PASS, Field
from builds.readings.engine.figures import number_of, parse_figure
from builds.readings.models.reading import ReadingValue
from garage.engine.said import says_unit, total_of
from garage.engine.units import QuantityError

MOST_WORDS = 200
CHECKED = [(str(PASS), "passed"), (str(FAIL), "failed")]


def typed_with(field: Field) -> dict[str, str]:
    """A keypad of digits has no minus, no degree and no letters, which angles are written with."""
    return {"inputmode": "text" if field.quantity == "angle" else "decimal", "autocomplete": "off"}


class FigureField(forms.CharField):
    """Cleans to Typed: whole stored units, as it was typed, in which unit."""

    def __init__(
        self, row: Field, system: str, *, of_both: bool = False, read_alone: bool = False, **more: Any
    ) -> None:
        """`of_both`: the figure of both wheels may be written, and then stays to be halved; `read_alone`: it may be
        left out, and then is not known."""
        self.row, self.system, self.unit, self.of_both = row, system, row.unit(system), of_both
        self.said_above = read_alone or of_both
        super().__init__(max_length=24, required=not (of_both or read_alone), **more)

    def widget_attrs(self, widget: forms.Widget) -> dict[str, str]:
        return {**super().widget_attrs(widget), **typed_with(self.row)}

    def clean(self, value: Any) -> Typed | None:
        text = super().clean(value)
        if not text:
            return None
        total = total_of(text) if self.of_both else None
        try:
            return Typed(parse_figure(self.row, total or text, self.system), text, "" if says_unit(text) else self.unit)
        except QuantityError as wrong:
            raise forms.ValidationError(str(wrong)) from wrong


class CheckField(forms.ChoiceField):
    def __init__(self, **more: Any) -> None:
        super().__init__(choices=CHECKED, widget=forms.RadioSelect, **more)

    def clean(self, value: Any) -> Typed | None:
        chosen = super().clean(value)
        return Typed(int(chosen), dict(CHECKED)[chosen]) if chosen else None


class WordsField(forms.CharField):
    def clean(self, value: Any) -> Typed | None:
        text = super().clean(value)
        return Typed(None, text) if text else None


def value_field(row: Field, system: str, *, alone: bool, of_both: bool, read_alone: bool) -> forms.Field:
    """The form's field for one value; words may stay away unless they are all there is."""
    if row.type == FIGURE:
        return FigureField(row, system, of_both=of_both, read_alone=read_alone, label=row.label)
    if row.type == CHECK:
        return CheckField(label=row.label)
    return WordsField(label=row.label, max_length=MOST_WORDS, required=alone)


def typed_again(row: Field, value: ReadingValue, system: str) -> str:
    """What to draw in the field so that this value is typed once more."""
    if row.type == CHECK:
        return str(value.amount)
    as_typed = value.unit == row.unit(system) or (says_unit(value.typed) and not total_of(value.typed))
    if row.type == FIGURE and not as_typed:
        return number_of(row, value.amount or 0, system)
    return value.typed
