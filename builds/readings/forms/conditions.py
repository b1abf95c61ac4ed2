"""What stands beside a reading: instrument, fuel, driver, pressures, floor, bars, and who took it."""

from collections.abc import Collection, Iterable
from typing import Any

from django import forms

from builds.readings.models.reading import MOST_FUEL_ML, MOST_PRESSURE_PA, Reading
from builds.work.models.job import Job
from garage.forms.choices import NOT_HERE
from garage.forms.quantities import QuantityField
from garage.models import Membership, Vehicle

# Each condition (slug) and the fields that say it.
SAID_BY = {
    "instrument": ("instrument",),
    "fuel": ("fuel_ml",),
    "driver": ("driver",),
    "pressures": ("front_pa", "rear_pa"),
    "floor": ("floor",),
    "bars": ("bars",),
}
EMPTY = ("", "not written down")
NOTE_ONLY = "needed to count"


def _choices(kind: Any) -> list[tuple[str, str]]:
    return [EMPTY, *kind.choices]


class ConditionsForm(forms.Form):
    instrument = forms.CharField(
        max_length=80,
        required=False,
        help_text="what it was measured with: where it stands among the gear with a date, by its name there",
    )
    fuel_ml = QuantityField("volume", "ml", 0, MOST_FUEL_ML, label="Fuel aboard", required=False)
    driver = forms.ChoiceField(choices=_choices(Reading.Driver), required=False)
    front_pa = QuantityField("pressure", "Pa", 0, MOST_PRESSURE_PA, label="Front tyres at", required=False)
    rear_pa = QuantityField("pressure", "Pa", 0, MOST_PRESSURE_PA, label="Rear tyres at", required=False)
    floor = forms.ChoiceField(choices=_choices(Reading.Floor), required=False)
    bars = forms.ChoiceField(label="Anti-roll bars", choices=_choices(Reading.Bars), required=False)
    who = forms.ModelChoiceField(
        label="Who measured",
        queryset=Membership.objects.none(),
        required=False,
        empty_label=None,
        error_messages=NOT_HERE,
    )
    last_of = forms.ModelChoiceField(
        label="The last thing done in",
        queryset=Job.objects.none(),
        required=False,
        empty_label="no job that is going on",
        error_messages=NOT_HERE,
        help_text="Nothing was changed after it: the reading holds when that job is finished.",
    )

    def of(self, vehicle: Vehicle, going: Collection[Job]) -> None:
        """In the units of the car's garage, by its people; `going` are the jobs whose last act it may be."""
        for name in ("fuel_ml", "front_pa", "rear_pa"):
            self.fields[name].use(vehicle.garage.units)
        hands = Membership.objects.in_garage(vehicle.garage_id).hands().select_related("person")
        self.fields["who"].queryset = hands
        self.fields["last_of"].queryset = Job.objects.filter(pk__in=[job.pk for job in going])
        if not going:
            del self.fields["last_of"]

    def keep(self, names: Collection[str]) -> None:
        for name in set(self.fields).difference(names):
            del self.fields[name]

    def decide(self, names: Iterable[str], *, said_above: bool = False) -> None:
        """Fields without which a reading is a note only say so, or their heading does: they may be left empty, but
        not without a word."""
        for name in names:
            self.fields[name].left_empty = NOTE_ONLY
            self.fields[name].said_above = said_above

    def said_by(self, conditions: Iterable[str]) -> list[forms.BoundField]:
        return [self[name] for slug in conditions for name in SAID_BY[slug]]
