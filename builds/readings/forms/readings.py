"""Forms of a reading: its values and conditions, why it is struck out, a kind of one's own."""

from typing import Any

from django import forms

from builds.readings.actions.readings import Typed, doubts_of
from builds.readings.engine import READINGS
from builds.readings.engine.conditions import CONDITIONS
from builds.readings.engine.doubts import READ_IN
from builds.readings.engine.kinds_of_work import KINDS, voided_by
from builds.readings.engine.reading_kind import ReadingKind
from builds.readings.forms.conditions import SAID_BY, ConditionsForm
from builds.readings.forms.figures import typed_again, value_field
from builds.readings.models.reading import Reading
from builds.work.models.job import Job
from garage.engine.said import total_of
from garage.forms.moments import MomentField
from garage.models import Membership, Vehicle

OWN = ("instrument", "fuel_ml", "driver", "front_pa", "rear_pa", "floor", "bars", "note")
TOES = ("toe_front", "toe_rear")


class ReadingAddForm(ConditionsForm):
    """Values first, then the conditions that this kind needs, then the rest behind a fold."""

    taken_at = MomentField(label="When", required=False, help_text="Empty: now.")
    note = forms.CharField(max_length=400, required=False, widget=forms.Textarea(attrs={"rows": 3}))
    sure = forms.Field(label="Is it right?", required=False, widget=forms.CheckboxSelectMultiple)

    def __init__(
        self,
        *args: Any,
        kind: ReadingKind,
        vehicle: Vehicle,
        member: Membership,
        start: Reading | None = None,
        begun: list[Job] | None = None,
        **kwargs: Any,
    ) -> None:
        self.kind, self.vehicle, system = kind, vehicle, vehicle.garage.units
        self.asked: dict[str, str] = {}
        going = going_on(begun_on(vehicle) if begun is None else begun, kind)
        measuring = [job for job in going if job.state == "in_hand" and kind.key in job.measures]
        kwargs["initial"] = {
            "who": member,
            "last_of": measuring[0] if len(measuring) == 1 else None,
            **(_initial(kind, start, system) if start else {}),
        }
        super().__init__(*args, **kwargs)
        self.of(vehicle, going)
        self.decide([name for slug in kind.conditions for name in SAID_BY[slug]], said_above=not self.prefix)
        alone = len(kind.fields) == 1
        self.value_names = []
        for field in kind.fields:
            name = f"value_{field.slug}"
            self.fields[name] = value_field(
                field, system, alone=alone, of_both=self.of_both, read_alone=kind.read_alone
            )
            self.value_names.append(name)

    @property
    def of_both(self) -> bool:
        """Whether the figure of both wheels together may be written."""
        return self.kind.key in TOES

    @property
    def by_rule(self) -> bool:
        """Whether a figure may be a difference and across what it was read, as well as degrees."""
        return any(field.quantity == "angle" for field in self.kind.fields)

    @property
    def in_units(self) -> bool:
        return any(field.quantity in READ_IN for field in self.kind.fields)

    def values(self) -> list[forms.BoundField]:
        return [self[name] for name in self.value_names]

    def conditions(self) -> list[forms.BoundField]:
        """Those without which the reading is only a note."""
        return self.said_by(self.kind.conditions)

    def more(self) -> list[forms.BoundField]:
        others = [slug for slug in CONDITIONS if slug not in self.kind.conditions]
        return [self["taken_at"], self["who"], *self.said_by(others)]

    def clean(self) -> dict[str, Any]:
        """Doubtful figures are asked about; sent again with the same ones and a yes, they are kept."""
        cleaned = super().clean() or self.cleaned_data
        if self.of_both:
            self._halve(cleaned)
        if self.kind.read_alone and not self.errors and not any(cleaned.get(name) for name in self.value_names):
            self.add_error(self.value_names[0], "Write down at least one of them.")
        if self.errors:
            return cleaned
        values = self.typed()
        self.asked = doubts_of(self.vehicle, self.kind, values)
        answer = ",".join(f"{slug}:{values[slug].amount}" for slug in sorted(self.asked))
        self.fields["sure"].widget.choices = [(answer, "Yes, it is right: keep it")]
        self.sure = bool(answer) and answer in (cleaned.get("sure") or [])
        if not self.sure:
            for slug, question in self.asked.items():
                self.add_error(f"value_{slug}", question)
        return cleaned

    def _halve(self, cleaned: dict[str, Any]) -> None:
        """What was written as the toe of both wheels is half of it at each."""
        given = {name: cleaned.get(name) for name in self.value_names}
        totals = [name for name, value in given.items() if value and total_of(value.typed)]
        for name, value in given.items():
            if value is None and not totals and name not in self.errors:
                self.add_error(name, self.fields[name].error_messages["required"])
            elif value is not None and totals and name != totals[0]:
                self.add_error(name, "Leave this empty: the total is of both wheels.")
        if totals and not self.errors:
            amount, typed, unit = given[totals[0]]
            halves = (amount // 2, amount - amount // 2)
            cleaned.update({name: Typed(half, typed, unit) for name, half in zip(given, halves, strict=True)})

    def typed(self) -> dict[str, Typed]:
        typed = {name.removeprefix("value_"): self.cleaned_data[name] for name in self.value_names}
        return {slug: value for slug, value in typed.items() if value is not None}

    def told(self) -> dict[str, Any]:
        """What `readings.take` wants besides the values."""
        told = {name: self.cleaned_data[name] for name in (*OWN, "who", "taken_at")}
        return {**told, "last_of": self.cleaned_data.get("last_of"), "sure": self.sure}


def begun_on(vehicle: Vehicle) -> list[Job]:
    return list(Job.objects.on(vehicle).begun())


def going_on(begun: list[Job], kind: ReadingKind) -> list[Job]:
    """Of the jobs begun and not finished those that will make such a reading void when they are."""
    return [
        job
        for job in begun
        if kind.follows in voided_by(kind_of_work for kind_of_work in job.kinds if kind_of_work in KINDS)
    ]


def _initial(kind: ReadingKind, start: Reading, system: str) -> dict[str, Any]:
    values = {value.field: value for value in start.values.all()}
    initial: dict[str, Any] = {name: getattr(start, name) for name in OWN}
    for field in kind.fields:
        if field.slug in values:
            initial[f"value_{field.slug}"] = typed_again(field, values[field.slug], system)
    return initial


class StrikeForm(forms.Form):
    because = forms.CharField(label="Why it is wrong", max_length=200)


class OwnKindForm(forms.Form):
    """A kind of reading that only this garage has."""

    name = forms.CharField(label="What is measured", max_length=60)
    is_number = forms.TypedChoiceField(
        label="It is",
        choices=[("1", "a number"), ("0", "words")],
        coerce=lambda chosen: chosen == "1",
        widget=forms.RadioSelect,
        initial="1",
    )
    unit = forms.CharField(label="Unit", max_length=12, required=False, help_text="such as mm, V or turns")
    follows = forms.ChoiceField(
        label="Goes void together with",
        required=False,
        choices=[
            ("", "nothing: no work makes it void"),
            *((slug, reading.label) for slug, reading in READINGS.items()),
        ],
    )
