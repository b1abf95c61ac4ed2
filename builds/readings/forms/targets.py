"""Forms of what a car's readings should be, and of which it must have."""

from collections.abc import Collection, Iterable
from typing import Any

from django import forms

from builds.readings.actions.readings import TargetInput
from builds.readings.engine.figures import number_of
from builds.readings.facts.kinds import ReadingKind
from builds.readings.forms.figures import FigureField, ToleranceField
from builds.readings.models.target import Target
from garage.models import Garage


class TargetForm(forms.Form):
    """A target and a tolerance for each figure of a kind; both or neither."""

    def __init__(
        self,
        *args: Any,
        kind: ReadingKind,
        garage: Garage,
        targets: Iterable[Target],
        **kwargs: Any,
    ) -> None:
        self.kind, system = kind, garage.units
        there = {target.field: target for target in targets}
        super().__init__(*args, **kwargs)
        for field in kind.figures:
            known = there.get(field.slug)
            same = known is not None and known.unit == field.unit(system)
            self.fields[f"target_{field.slug}"] = FigureField(
                field,
                system,
                label=field.label,
                required=False,
                initial=known and (known.typed if same else number_of(field, known.amount, system)),
            )
            self.fields[f"off_{field.slug}"] = ToleranceField(
                field,
                system,
                label=f"{field.label}: off by at most, each way",
                required=False,
                initial=known and (known.tolerance_typed if same else number_of(field, known.tolerance, system)),
            )

    def rows(self) -> list[tuple[forms.BoundField, forms.BoundField]]:
        return [(self[f"target_{field.slug}"], self[f"off_{field.slug}"]) for field in self.kind.figures]

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or self.cleaned_data
        for field in self.kind.figures:
            target, off = (cleaned.get(f"{name}_{field.slug}") for name in ("target", "off"))
            sound = not {f"target_{field.slug}", f"off_{field.slug}"} & set(self.errors)
            if sound and bool(target) != bool(off):
                missing = "off" if target else "target"
                said = "Write both a target and how far off it may be, or neither."
                self.add_error(f"{missing}_{field.slug}", said)
        return cleaned

    def aims(self) -> dict[str, TargetInput]:
        aims = {}
        for field in self.kind.figures:
            target = self.cleaned_data[f"target_{field.slug}"]
            off = self.cleaned_data[f"off_{field.slug}"]
            if target and off:
                aims[field.slug] = TargetInput(target.amount, off.amount, target.typed, off.typed, target.unit)
        return aims


class RequiredForm(forms.Form):
    """Which readings a car must have; none only when that is said."""

    kinds = forms.MultipleChoiceField(label="It must have", required=False, widget=forms.CheckboxSelectMultiple)
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
        self.fields["kinds"].choices = [(kind.key, kind.label) for kind in kinds]

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
