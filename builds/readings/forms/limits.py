"""The fields with which a limit is written: how it is said, one figure or two."""

from collections.abc import Iterator
from typing import Any

from django import forms

from builds.readings.actions.readings import TargetInput
from builds.readings.engine.fields import Field
from builds.readings.engine.figures import number_of, parse_figure, parse_tolerance
from builds.readings.engine.limits import BETWEEN, CHOSEN, MARKS, OFF, SORTS, WITH_TWO
from builds.readings.forms.figures import typed_with
from builds.readings.models.target import Target
from garage.engine.said import says_unit
from garage.engine.units import QuantityError

BEYOND = "Write the upper end too, no lower than the first figure."
HOW_FAR = "Write both a figure and how far off it may be, or neither."
ONE_IS_ENOUGH = "One figure is enough here: leave this empty."


class LimitField(forms.CharField):
    """A figure as it is typed; which it is depends on how the limit is said."""

    def __init__(self, field: Field, system: str, **more: Any) -> None:
        self.field, self.unit = field, field.unit(system)
        super().__init__(max_length=24, required=False, **more)

    def widget_attrs(self, widget: forms.Widget) -> dict[str, str]:
        return {**super().widget_attrs(widget), **typed_with(self.field)}


class LimitsForm(forms.Form):
    """A form with limits in it: `sort_`, `first_` and `second_` before the name of each."""

    system: str

    def add_limit(self, name: str, field: Field, sort: str, first: str = "", second: str = "") -> None:
        self.fields[f"sort_{name}"] = forms.ChoiceField(
            label="It should be", choices=list(SORTS.items()), required=False, initial=sort
        )
        self.fields[f"first_{name}"] = LimitField(field, self.system, label="Figure", initial=first)
        self.fields[f"second_{name}"] = LimitField(
            field, self.system, label="Give or take, or upper end", initial=second
        )

    def limit_fields(self, name: str) -> tuple[forms.BoundField, ...]:
        return tuple(self[f"{part}_{name}"] for part in ("sort", "first", "second"))

    def limit_words(self, name: str) -> str:
        """What stands in the fields, such as `at least 40 mm`."""
        sort, first, second = (str(field.value() or "") for field in self.limit_fields(name))
        sort = sort if sort in SORTS else OFF  # as it was sent, which nobody has checked yet
        unit = self.fields[f"first_{name}"].unit
        if not first:
            return "no figure yet"
        if sort in WITH_TWO and not second:
            return f"{first} {unit}".strip() + ", and no second figure yet"
        if sort == BETWEEN:
            return f"between {first} and {second} {unit}".strip()
        if sort == OFF:
            return f"{first}, give or take {second} {unit}".strip()
        return f"{SORTS[sort]} {first} {unit}".strip()

    def limit(self, name: str, field: Field, mark: str) -> TargetInput | None:
        """What was written, once the form is cleaned; None for nothing, and where an error was put."""
        sort = self.cleaned_data.get(f"sort_{name}") or OFF
        first, second = (self.cleaned_data.get(f"{part}_{name}") or "" for part in ("first", "second"))
        if not first and not second:
            return None
        if sort not in WITH_TWO and second:
            return self._wrong(f"second_{name}", ONE_IS_ENOUGH)
        if not first or (sort in WITH_TWO and not second):
            missing = "first" if not first else "second"
            return self._wrong(f"{missing}_{name}", BEYOND if sort == BETWEEN else HOW_FAR)
        amount = self._parsed(f"first_{name}", field, first, parse_figure)
        other = None
        if sort in WITH_TWO:
            other = self._parsed(f"second_{name}", field, second, parse_tolerance if sort == OFF else parse_figure)
        if amount is None or (sort in WITH_TWO and other is None):
            return None
        if sort == BETWEEN and other is not None and other < amount:
            return self._wrong(f"second_{name}", BEYOND)
        return TargetInput(sort, amount, other, first, second, field.unit(self.system), mark or CHOSEN)

    def _parsed(self, name: str, field: Field, text: str, parse: Any) -> int | None:
        try:
            return int(parse(field, text, self.system))
        except QuantityError as wrong:
            self._wrong(name, str(wrong))
            return None

    def _wrong(self, name: str, sentence: str) -> None:
        self.add_error(name, sentence)


def mark_field(initial: str) -> forms.ChoiceField:
    return forms.ChoiceField(label="Whose figure it is", choices=list(MARKS.items()), required=False, initial=initial)


def limit_as_typed(target: Target, field: Field, system: str) -> Iterator[str]:
    """First and second figure as they are typed again, each in the unit that it was meant in."""
    for typed, amount in ((target.typed, target.amount), (target.second_typed, target.second)):
        as_typed = amount is None or target.unit == field.unit(system) or says_unit(typed)
        yield typed if as_typed else number_of(field, amount, system)
