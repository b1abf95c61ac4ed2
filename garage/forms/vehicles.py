"""The form of a vehicle."""

from typing import Any

from django import forms

from garage.forms.edits import EditForm
from garage.forms.quantities import QuantityField
from garage.models import Garage, Vehicle

LENGTHS = {
    "wheelbase_um": ("Wheelbase", 500_000, 8_000_000),
    "track_front_um": ("Front track", 300_000, 4_000_000),
    "track_rear_um": ("Rear track", 300_000, 4_000_000),
}
OWN = ("name", "tape", "what", "state", *LENGTHS)


class VehicleForm(EditForm, forms.Form):
    name = forms.CharField(max_length=40, help_text="what everybody calls it")
    tape = forms.ChoiceField(label="Tape colour", choices=Vehicle.Tape.choices)
    what = forms.CharField(
        label="What it is",
        max_length=120,
        required=False,
        help_text="such as rear-drive coupe, hill climbs",
    )
    state = forms.ChoiceField(choices=Vehicle.State.choices, widget=forms.RadioSelect, initial=Vehicle.State.DRIVEABLE)
    wheelbase_um = QuantityField("length", "µm", *LENGTHS["wheelbase_um"][1:], required=False, label="Wheelbase")
    track_front_um = QuantityField("length", "µm", *LENGTHS["track_front_um"][1:], required=False, label="Front track")
    track_rear_um = QuantityField("length", "µm", *LENGTHS["track_rear_um"][1:], required=False, label="Rear track")

    usual = forms.BooleanField(
        label="It must have the usual readings, within wide limits",
        required=False,
        help_text="camber, toe, wheel torque and the like; the limits are common practice without a source, and the "
        "maker's figures come first. Without them nobody knows whether it is fit to run.",
    )

    def __init__(self, *args: Any, garage: Garage, vehicle: Vehicle | None = None, **kwargs: Any) -> None:
        self.garage, self.vehicle = garage, vehicle
        if vehicle:
            kwargs["initial"] = {name: getattr(vehicle, name) for name in OWN}
        super().__init__(*args, edits=vehicle is not None, **kwargs)
        if vehicle:
            del self.fields["usual"]  # they have pages of their own
        else:
            self.fields["tape"].initial = Vehicle.objects.in_garage(garage).kept().free_tape()
        for name in LENGTHS:
            self.fields[name].use(garage.units)

    def clean_name(self) -> str:
        name: str = self.cleaned_data["name"]
        others = Vehicle.objects.in_garage(self.garage).filter(name__iexact=name)
        if self.vehicle:
            others = others.exclude(pk=self.vehicle.pk)
        if others.exists():
            raise forms.ValidationError(f"There is a {name} already.")
        return name
