"""The forms of gear: a piece, in or out of use, an event's rules, what a car must have."""

from datetime import date
from typing import Any

from django import forms

from garage.access import OWNER
from garage.engine.gear import KINDS, STANDARDS, WAYS, DateRule, Printed, printed_from
from garage.engine.gear.rules import MEANINGS, MOST_YEARS
from garage.forms.choices import TicksField
from garage.forms.edits import EditForm
from garage.models import Event, Gear, GearRule, Membership, Vehicle

KIND_CHOICES = [(slug, kind.label) for slug, kind in KINDS.items()]
NO_STANDARD = "none of these, or not known"


class GearForm(EditForm, forms.Form):
    kind = forms.ChoiceField(choices=[("", "choose"), *KIND_CHOICES])
    name = forms.CharField(max_length=60, help_text="as you call it; straps with different dates are two pieces")
    whose = forms.ChoiceField(
        label="Where it belongs",
        help_text="what a person wears counts for every car that must have it",
    )
    standard = forms.ChoiceField(
        required=False,
        choices=[("", NO_STANDARD), *((s.slug, s.label) for s in STANDARDS.values())],
    )
    label = forms.CharField(label="What the label says", max_length=120, required=False)
    meaning = forms.ChoiceField(
        label="Its date means",
        required=False,
        choices=[("", "as its standard says"), *MEANINGS.items()],
    )
    printed = forms.CharField(
        label="Date on the label",
        max_length=30,
        required=False,
        help_text="2024-03-15, March 2024 or 2024; of a tyre the last four digits, such as 2319",
    )
    made = forms.CharField(
        label="When it was made, if the date above is until when it is valid",
        max_length=30,
        required=False,
        help_text="for events that count from the making: the sooner of both wins",
    )
    note = forms.CharField(max_length=200, required=False)
    struck = forms.BooleanField(label="It has been in a crash", required=False)
    all_along = forms.BooleanField(
        label="It was so already, and was only written down wrong",
        required=False,
        help_text="what is bolted to a car and goes to another was work on both: somebody else looks at it",
    )

    def __init__(
        self,
        *args: Any,
        today: date,
        gear: Gear | None = None,
        car: str = "",
        by: Membership,
        **kwargs: Any,
    ) -> None:
        self.today, garage = today, by.garage
        self.cars = {f"car-{vehicle.pk}": vehicle for vehicle in Vehicle.objects.on_cars_of(by).kept()}
        people = Membership.objects.in_garage(garage).active().select_related("person")
        self.people = {f"person-{person.pk}": person for person in people}
        if gear:
            self._keep(gear)
            kwargs["initial"] = {
                **{name: getattr(gear, name) for name in ("kind", "name", "standard", "label")},
                **{name: getattr(gear, name) for name in ("meaning", "note")},
                "whose": _whose(gear),
                "printed": gear.code or gear.printed_words,
                "made": gear.made_words,
            }
        else:
            kwargs["initial"] = {"whose": f"car-{car}"}
        super().__init__(*args, edits=gear is not None, **kwargs)
        self.fields["whose"].choices = [
            *((key, vehicle.name) for key, vehicle in self.cars.items()),
            *((key, person.name) for key, person in self.people.items()),
            ("garage", "the garage: a spare, in no car"),
        ]
        if gear:
            del self.fields["struck"]
        if not (gear and by.role == OWNER):
            del self.fields["all_along"]

    def _keep(self, gear: Gear) -> None:
        """A car that is gone or a person who left stays as a choice for what belongs there."""
        if gear.vehicle:
            self.cars.setdefault(_whose(gear), gear.vehicle)
        if gear.member:
            self.people.setdefault(_whose(gear), gear.member)

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or self.cleaned_data
        kind, standard = cleaned.get("kind"), STANDARDS.get(cleaned.get("standard", ""))
        if kind and standard and standard.kind != kind:
            belongs = KINDS[standard.kind].label.lower()
            self.add_error("standard", f"{standard.label} is a standard of: {belongs}.")
        meaning = cleaned.get("meaning") or (standard.meaning if standard else "made")
        said = cleaned.get("meaning") or standard or kind == "tyres"
        if cleaned.get("printed") and not said:
            self.add_error("meaning", "Say what its date means: no standard says it.")
        cleaned["meaning"] = meaning
        printed = self._dated("printed", cleaned.get("printed", ""), tyre=kind == "tyres")
        if printed and meaning != "until" and printed.on > self.today:
            self.add_error("printed", "That is still to come: a label says when it was made.")
        cleaned["printed"] = printed
        cleaned["made"] = made = self._dated("made", cleaned.get("made", ""))
        if made and meaning != "until":
            self.add_error("made", "The date above says it already: leave this empty.")
        elif made and made.on > self.today:
            self.add_error("made", "That is still to come: a label says when it was made.")
        return cleaned

    def _dated(self, name: str, typed: str, *, tyre: bool = False) -> Printed | None:
        if not typed:
            return None
        try:
            return printed_from(typed.split(" (")[0], tyre=tyre)
        except ValueError as wrong:
            self.add_error(name, str(wrong))
            return None

    def row(self) -> dict[str, Any]:
        """What was typed as the columns of a row."""
        cleaned = dict(self.cleaned_data)
        printed: Printed | None = cleaned.pop("printed")
        made: Printed | None = cleaned.pop("made")
        whose = cleaned.pop("whose")
        return {
            **cleaned,
            "vehicle": self.cars.get(whose),
            "member": self.people.get(whose),
            "printed_on": printed.on if printed else None,
            "precision": printed.precision if printed else "",
            "code": printed.code if printed else "",
            "made_on": made.on if made else None,
            "made_precision": made.precision if made else "",
        }


def _whose(gear: Gear) -> str:
    if gear.vehicle_id:
        return f"car-{gear.vehicle_id}"
    return f"person-{gear.member_id}" if gear.member_id else "garage"


class GearReasonForm(forms.Form):
    because = forms.CharField(label="Why", max_length=200)


class StruckForm(forms.Form):
    note = forms.CharField(label="What happened", max_length=200, required=False)


class GearRulesForm(EditForm, forms.Form):
    """A way and its years for every kind; years only count where the way counts them."""

    def __init__(self, *args: Any, event: Event, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        rules = {standing.kind: standing.rule for standing in GearRule.objects.filter(event=event)}
        for slug, kind in KINDS.items():
            rule = rules.get(slug)
            years = f"years_{slug}"
            self.fields[f"way_{slug}"] = forms.ChoiceField(
                label="How long it is good",
                choices=list(WAYS.items()),
                initial=rule.way if rule else None,
            )
            self.fields[years] = forms.IntegerField(
                label=f"Years for {kind.label.lower()}",
                min_value=0,
                max_value=MOST_YEARS,
                required=False,
                initial=rule.years or None if rule else None,
            )
            self.fields[years].kind = kind.label

    @property
    def rows(self) -> list[tuple[Any, Any]]:
        return [(self[f"way_{slug}"], self[f"years_{slug}"]) for slug in KINDS]

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or self.cleaned_data
        for slug in KINDS:
            way, years = cleaned.get(f"way_{slug}"), f"years_{slug}"
            if way not in (None, "printed") and not cleaned.get(years) and years not in self.errors:
                self.add_error(years, "How many years?")
        return cleaned

    @property
    def rules(self) -> dict[str, DateRule]:
        cleaned = self.cleaned_data
        return {slug: DateRule(cleaned[f"way_{slug}"], cleaned[f"years_{slug}"] or 0) for slug in KINDS}


class NeededGearForm(EditForm, forms.Form):
    kinds = TicksField(label="This car must have", choices=KIND_CHOICES)
