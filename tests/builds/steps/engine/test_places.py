"""A place that somebody's words name is not worked on. British and American; common practice, no source."""

import pytest

from builds.readings.engine.fits_said import comes_out_said, fits_said
from builds.steps.engine.by_words import job_said
from builds.steps.engine.part_said import part_said

# What is touched, what is done to it, and titles of that, between semicolons.
READ = [
    ("", "hot_work", "Weld behind the O/S rear wheel; Grind the bracket beside the steering column"),
    ("brakes", "hydraulics_opened", "Run the brake pipe under the floor; Brake pipe near the tank rusty"),
    ("electrics", "wiring", "Clip the loom under the dash; Move the ECU behind the passenger seat"),
    ("electrics", "wiring", "Route the battery cable alongside the fuel line; Re-route the loom above the gearbox"),
    ("electrics", "", "Loom tape under the dash; Rain light next to the gearbox; Tidy the wires above the pedals"),
    ("electrics", "", "Relocate the coil under the hood; New horn behind the bumper; Radio mounted between the seats"),
    ("fire", "extinguisher_used", "Mount the fire bottle behind the driver's seat; Extinguisher between the seats"),
    ("engine", "", "Fit a catch tank next to the radiator; Oil cooler in front of the radiator"),
    ("", "", "Heat shield above the exhaust; Seal the hole behind the brake pedal; Foam next to the harness"),
    ("", "", "Drill a drain hole below the battery tray; Clean behind the wheels; Look near the fuel filler"),
    ("body", "", "Fit a mud flap behind the front wheel; Carpet under the seats"),
    ("body", "chassis_weld", "Patch the floor under the driver's seat; Weld the sill next to the trailing arm"),
    ("fuel", "fuel_line", "New fuel line above the diff; Fuel filter underneath the rear seat"),
    ("paint", "paint", "Undercoat under the car; Paint under the bonnet; Paint behind the wheels"),
    ("", "mass_moved", "Ballast behind the rear axle; Ballast between the seat and the sill"),
    # Where nothing else says what is wrong, the place does; so it does where sparks fly near fuel.
    ("driveline", "", "Drip under the rear diff"),
    ("gearbox fluids", "", "Fix leak above the gearbox; Leak at the back of the gearbox"),
    ("wheels", "wheel_off wheel_or_spacer", "Bolt loose behind the front wheel; Rattle near N/S/R wheel"),
    ("fuel", "hot_work fuel_line", "Weld a bracket next to the fuel tank"),
    # No places.
    ("brakes", "hydraulics_opened", "Near side caliper; Nearside caliper"),
    ("body paint", "paint", "Under seal the floor; Underseal the sill"),
]  # fmt: skip


@pytest.mark.parametrize(("systems", "kinds", "titles"), READ)
def test_what_is_worked_on_is_told_from_where_it_is(systems, kinds, titles):
    for title in titles.split("; "):
        said = job_said(title)
        assert ({*said.systems}, {*said.kinds}) == ({*systems.split()}, {*kinds.split()}), title


def test_what_comes_out_for_other_work_comes_out():
    assert comes_out_said("Seat out to fit the cage") and not fits_said("Seat out to fit the cage")
    assert comes_out_said("Wheels off to get at the track rods")
    assert not comes_out_said("Fit the seat to the cage") and not comes_out_said("Old belts out to fit new belts")


def test_a_part_is_asked_for_without_the_place_it_goes_to():
    assert part_said("New fuel line above the diff").name == "fuel line"
    assert part_said("Replace the hose next to the turbo").name == "hose"
