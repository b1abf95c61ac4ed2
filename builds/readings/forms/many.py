"""Several readings of a car taken in one form: what stands beside all of them is written once."""

from collections.abc import Iterable, Mapping
from datetime import datetime
from functools import cached_property
from typing import Any

from django import forms

from builds.readings.actions.readings import Measured
from builds.readings.engine.reading_kind import ReadingKind
from builds.readings.forms.conditions import SAID_BY, ConditionsForm
from builds.readings.forms.readings import ReadingAddForm, begun_on, going_on
from builds.work.models.job import Job
from garage.engine.words import listed_in_words
from garage.forms.within import FormWithin
from garage.models import Membership, Vehicle

# Conditions of each reading by itself: scales are no torque wrench. The others are the car's.
OF_EACH = ("instrument", "bars")
SHARED = ("fuel", "driver", "pressures", "floor")
FEW = 2  # so many stand open: folding them would save nothing


def kinds_sent(data: Mapping[str, Any] | None) -> set[str]:
    """The kinds (keys) whose figures were drawn in the form that came: none of them is lost."""
    return {key for name in data or () for key, dash, _ in [name.partition("-value_")] if dash}


class OneOfManyForm(ReadingAddForm):
    """The figures of one kind, left empty when it is not measured now."""

    def __init__(self, *args: Any, kind: ReadingKind, **kwargs: Any) -> None:
        kwargs |= {"prefix": kind.key, "empty_permitted": True, "use_required_attribute": False}
        super().__init__(*args, kind=kind, **kwargs)
        self.of_each = [name for slug in OF_EACH if slug in kind.conditions for name in SAID_BY[slug]]
        self.keep([*self.value_names, *self.of_each, "sure"])
        if self.of_each:
            self.fields["instrument"].help_text = ""  # said once, over all of them

    def has_changed(self) -> bool:
        """A yes alone is no reading."""
        return not {"sure"}.issuperset(self.changed_data)

    @property
    def named(self) -> str:
        """Six of them have a front left: which one it is of."""
        return self.kind.label

    @property
    def taken(self) -> bool:
        return self.is_bound and self.has_changed()

    def conditions(self) -> list[forms.BoundField]:
        return [self[name] for name in self.of_each]

    def holds(self) -> list[str]:
        """What is folded behind its line, in words."""
        count, word = len(self.value_names), "figure" if self.kind.figures else "answer"
        said = [f"{count} {word}{'s' if count > 1 else ''}", *(str(self[name].label).lower() for name in self.of_each)]
        return ["filled in", *said] if self.taken else said

    def told(self) -> dict[str, Any]:
        return {**{name: self.cleaned_data[name] for name in self.of_each}, "sure": self.sure}


class ManyReadingsForm(FormWithin, ConditionsForm):
    """`kinds` in measuring order; what is left empty is left for later. Of a `job` they are the last act."""

    def __init__(
        self,
        data: Any = None,
        *,
        kinds: Iterable[ReadingKind],
        vehicle: Vehicle,
        member: Membership,
        job: Job | None = None,
    ) -> None:
        kinds, begun = list(kinds), begun_on(vehicle)
        going = [] if job else list({other.pk: other for kind in kinds for other in going_on(begun, kind)}.values())
        measuring = [other for other in going if other.state == "in_hand" and other.measures]
        last = measuring[0] if len(measuring) == 1 else None
        super().__init__(data, initial={"who": member, "last_of": last})
        self.of(vehicle, going)
        wanted = {slug for kind in kinds for slug in kind.conditions}
        self.shared = [name for slug in SHARED if slug in wanted for name in SAID_BY[slug]]
        self.keep([*self.shared, "who", "last_of"])
        self.decide(self.shared, said_above=True)
        self.job = job
        self.each = [OneOfManyForm(data, kind=kind, vehicle=vehicle, member=member, begun=begun) for kind in kinds]

    @property
    def within(self) -> list[OneOfManyForm]:
        return self.each

    def conditions(self) -> list[forms.BoundField]:
        """Those of the car, which all of its readings share."""
        return [self[name] for name in self.shared]

    @property
    def few(self) -> bool:
        return len(self.each) <= FEW

    @property
    def needing(self) -> str:
        """`Ride height and camber count`: those that count only with the conditions that all share."""
        labels = [form.kind.label for form in self.each if not {*SHARED}.isdisjoint(form.kind.conditions)]
        listed = listed_in_words(label[:1].lower() + label[1:] for label in labels)
        return f"{listed} count{'s' if len(labels) == 1 else ''}"

    @property
    def with_instrument(self) -> bool:
        return any(form.of_each for form in self.each)

    @cached_property
    def measured_by(self) -> str:
        """Whoever stands in the form as having measured."""
        return dict(self.fields["who"].choices).get(self["who"].value(), "")

    def clean(self) -> dict[str, Any]:
        """By itself it wants at least one; with a job all may wait."""
        if self.job is None and not any(form.taken for form in self.each):
            self.add_error(None, "Write down at least one of them.")
        return super().clean() or self.cleaned_data

    def measured(self, taken_at: datetime | None = None) -> list[Measured]:
        """Once it is valid; `taken_at` None for now."""
        shared = {"last_of": self.job, **{name: self.cleaned_data[name] for name in self.fields}, "taken_at": taken_at}
        return [Measured(form.kind, form.typed(), {**shared, **form.told()}) for form in self.each if form.taken]
