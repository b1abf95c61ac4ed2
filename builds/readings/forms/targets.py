"""Forms of what a car's readings should be, and of which it must have."""

from collections.abc import Collection, Iterable
from dataclasses import dataclass
from typing import Any

from django import forms

from builds.readings.actions.readings import TargetInput
from builds.readings.engine.figures import number_of
from builds.readings.engine.limits import CHOSEN, OFF
from builds.readings.engine.reading_kind import ReadingKind
from builds.readings.engine.required import SENSIBLE
from builds.readings.engine.wanted_limits import WantedLimit
from builds.readings.forms.limits import LimitsForm, limit_as_typed, mark_field
from builds.readings.models.target import Target
from garage.forms.choices import TicksField
from garage.forms.edits import EditForm
from garage.models import Garage


class TargetForm(EditForm, LimitsForm):
    """A limit for each figure of a kind, or none, and whose figures they are."""

    def __init__(
        self,
        *args: Any,
        kind: ReadingKind,
        garage: Garage,
        targets: Iterable[Target],
        **kwargs: Any,
    ) -> None:
        self.kind, self.system = kind, garage.units
        there = {target.field: target for target in targets}
        super().__init__(*args, **kwargs)
        for field in kind.figures:
            known = there.get(field.slug)
            told = limit_as_typed(known, field, self.system) if known else ()
            self.add_limit(field.slug, field, known.sort if known else OFF, *told)
        self.fields["mark"] = mark_field(next((target.mark for target in there.values()), CHOSEN))

    def rows(self) -> list[tuple[str, tuple[forms.BoundField, ...]]]:
        """What each is of, and its fields."""
        return [(field.label, self.limit_fields(field.slug)) for field in self.kind.figures]

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or self.cleaned_data
        mark = cleaned.get("mark", "")
        limits = {field.slug: self.limit(field.slug, field, mark) for field in self.kind.figures}
        self.aims = {slug: limit for slug, limit in limits.items() if limit}
        return cleaned


@dataclass(frozen=True)
class LimitLine:
    """A limit as it is offered: its tick, its fields, whose figure it is, and what it stands at in words."""

    tick: forms.BoundField
    fields: tuple[forms.BoundField, ...]
    mark: forms.BoundField
    words: str

    @property
    def wrong(self) -> bool:
        return any(field.errors for field in (*self.fields, self.mark))


class LimitOffersForm(LimitsForm):
    """Limits offered for figures that have none: each ticked or not, all of them to be changed."""

    def __init__(self, *args: Any, wanted: Iterable[WantedLimit], system: str, **kwargs: Any) -> None:
        self.system, self.wanted = system, tuple(wanted)
        super().__init__(*args, **kwargs)
        for want in self.wanted:
            offer, field = want.offer, want.fields[0]
            told = [
                "" if amount is None else number_of(field, amount, system) for amount in (offer.amount, offer.second)
            ]
            self.fields[f"take_{want.name}"] = forms.BooleanField(
                label=want.label, required=False, initial=offer.amount is not None
            )
            self.add_limit(want.name, field, offer.sort, *told)
            self.fields[f"mark_{want.name}"] = mark_field(offer.mark)

    def rows(self) -> list[LimitLine]:
        return [
            LimitLine(
                self[f"take_{want.name}"],
                self.limit_fields(want.name),
                self[f"mark_{want.name}"],
                self.limit_words(want.name),
            )
            for want in self.wanted
        ]

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or self.cleaned_data
        self.aims: dict[str, dict[str, TargetInput]] = {}
        taken = [want for want in self.wanted if cleaned.get(f"take_{want.name}")]
        for want in taken:
            limit = self.limit(want.name, want.fields[0], cleaned.get(f"mark_{want.name}", ""))
            if limit is not None:
                self.aims.setdefault(want.kind.key, {}).update({field.slug: limit for field in want.fields})
            elif not {f"first_{want.name}", f"second_{want.name}"} & set(self.errors):
                self.add_error(f"first_{want.name}", "Write the figure, or do not tick it.")
        if not taken:
            self.add_error(None, "Tick at least one limit.")
        return cleaned


class RequiredForm(EditForm, forms.Form):
    """Which readings a car must have; none only when that is said."""

    kinds = TicksField(label="It must have")
    none = forms.BooleanField(label="This car needs no readings to be fit to run", required=False)

    def __init__(
        self,
        *args: Any,
        kinds: Iterable[ReadingKind],
        chosen: Collection[str] | None,
        **kwargs: Any,
    ) -> None:
        kwargs["initial"] = {"kinds": list(chosen or ()), "none": chosen is not None and not chosen}
        super().__init__(*args, **kwargs)
        first, rest = _usual_first(kinds, chosen or ())
        self.fields["kinds"].choices = [*first, ("Other readings", rest)] if rest else first

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or self.cleaned_data
        chosen = cleaned.get("kinds")
        if chosen is not None and bool(chosen) == bool(cleaned.get("none")):
            said = (
                "Tick readings, or that it needs none, not both."
                if chosen
                else "Tick the readings that it must have, or say that it needs none."
            )
            self.add_error("kinds", said)
        return cleaned


def _usual_first(kinds: Iterable[ReadingKind], chosen: Collection[str]) -> tuple[list[Any], list[Any]]:
    """Choices: those that it must have already and the usual ones; all others."""
    first, rest = [], []
    for kind in kinds:
        (first if kind.key in chosen or kind.key in SENSIBLE else rest).append((kind.key, kind.label))
    return first, rest
