"""The figures that a sum asks for, as a form; what is wrong stands at its field."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from django import forms

from builds.bench.frame.read import missing, typed_as, work_out
from builds.bench.frame.sums import Ask, Sum, Worked
from builds.bench.frame.units import unit_in
from builds.sums.facts.car import CarFigure

MANY = 8  # figures that stand open on a phone


@dataclass
class FieldGroup:
    """`more` are folded, unless one of them is wrong."""

    heading: str
    fields: list[forms.BoundField] = field(default_factory=list)
    more: list[forms.BoundField] = field(default_factory=list)

    @property
    def is_open(self) -> bool:
        return any(bound.errors for bound in self.more)


class SumForm(forms.Form):
    """`worked` is the answer once the form is valid."""

    worked: Worked | None = None
    is_example = False
    of_car: frozenset[str] = frozenset()  # what the car has already, so that nobody has to look at it

    def __init__(self, asked: Sum, system: str, data: Mapping[str, Any] | None = None, **more: Any) -> None:
        super().__init__(data, **more)
        self.asked, self.system = asked, system
        for ask in asked.asks:
            self.fields[ask.slug] = _field(ask, system)

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or self.cleaned_data
        self.worked, errors = work_out(self.asked, cleaned, self.system)
        for slug, sentence in errors.items():
            if slug not in self.errors:
                self.add_error(slug or None, sentence)
        return cleaned

    @property
    def typed(self) -> dict[str, str]:
        """What stands in each field."""
        return {name: str(self[name].value() or "") for name in self.fields}

    @property
    def groups(self) -> list[FieldGroup]:
        """Fields under the heading that their asks share; where there are many, what may be left is folded."""
        groups: dict[str, FieldGroup] = {}
        many = len(self.asked.asks) > MANY
        for ask in self.asked.asks:
            group = groups.setdefault(ask.group, FieldGroup(ask.group))
            may_stay = not ask.needed or ask.default or ask.slug in self.of_car
            folded = many and may_stay and not ask.slider
            (group.more if folded else group.fields).append(self[ask.slug])
        for group in groups.values():
            if not group.fields:
                group.fields.append(group.more.pop(0))
        return list(groups.values())


def sum_form(
    asked: Sum, typed: Mapping[str, str], system: str, known: Mapping[str, CarFigure] | None = None
) -> SumForm:
    """The sum with what was typed; with no figure typed, a car's `known` ones, or without a car its own example."""
    chosen = {ask.slug: typed[ask.slug] for ask in asked.asks if ask.choices and typed.get(ask.slug)}
    if any(ask.slug in typed for ask in asked.asks if not ask.choices):
        given = {ask.slug: typed.get(ask.slug, ask.default if ask.choices else "") for ask in asked.asks}
        return SumForm(asked, system, given)
    if known is None:
        form = SumForm(asked, system, _example(asked, system) | chosen)
        form.is_example = True
        return form
    figures = {ask.slug: _of_car(ask, known.get(ask.slug), system) for ask in asked.asks} | chosen
    form = SumForm(asked, system, figures)
    if not form.is_valid():  # nobody has typed yet: what is lacking is no mistake
        form = SumForm(asked, system, initial=figures)
    form.of_car = frozenset(slug for slug, figure in known.items() if not figure.changed)
    return form


def _of_car(ask: Ask, figure: CarFigure | None, system: str) -> str:
    """A car's figure as it is typed in this garage; where it has none, what is taken when nothing is typed."""
    if figure is not None and figure.changed:
        return ""
    if figure is None:
        return typed_as(ask, ask.default, "metric", system)
    return typed_as(ask, figure.typed, figure.units, system)


def _example(asked: Sum, system: str) -> dict[str, str]:
    examples = asked.example
    return {ask.slug: typed_as(ask, examples[ask.slug], "metric", system) for ask in asked.asks if ask.slug in examples}


def _field(ask: Ask, system: str) -> forms.Field:
    more: dict[str, Any] = {
        "label": ask.label,
        "required": ask.needed and not ask.default,
        "help_text": ask.note,
        "error_messages": {"required": missing(ask)},
    }
    if ask.choices:
        return forms.ChoiceField(choices=ask.choices, initial=ask.default, **(more | {"required": True}))
    if ask.lines:
        return forms.CharField(widget=forms.Textarea(attrs={"rows": 4}), **more)
    if ask.slider:
        ends = {"type": "range", "min": f"{ask.least:g}", "max": f"{ask.most:g}", "step": "5"}
        return forms.CharField(widget=forms.TextInput(attrs=ends), **more)
    below = (ask.least is None and ask.above is None) or (ask.least or 0) < 0
    keypad = {"autocomplete": "off"} if below else {"inputmode": "decimal", "autocomplete": "off"}
    figure = forms.CharField(widget=forms.TextInput(attrs=keypad), **more)
    figure.unit = unit_in(ask.unit, system)
    return figure
