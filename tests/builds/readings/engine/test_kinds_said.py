"""Somebody's own words lead to the kinds of work they name and to the readings they take."""

import pytest

from builds.readings.engine.kinds_said import kinds_said
from builds.readings.engine.readings_said import readings_said
from garage.engine.systems_said import systems_said


def said(title):
    return kinds_said(title, systems_said(title))


@pytest.mark.parametrize(
    ("kinds", "titles"),
    [
        ("paint two_pack", "Spray the bonnet with 2K lacquer; paint the door two-pack; respray the wing; clear coat"),
        ("paint", "Prime the boot lid; spray can touch-up; underseal the floor"),
        ("hot_work", "Weld the exhaust hanger; grind the hanger; cut a bracket; braze the pipe; weld towbar bracket"),
        ("chassis_weld", "Weld the chassis rail; cut the sill out; weld up the strut tower"),
        ("chassis_weld", "Crack in the chassis rail; the sill is cracked; cracks in the strut tower"),
        (
            "chassis_weld",
            "Shock turret rusted through, daylight showing; hole in the floor; chassis leg torn",
        ),
        ("chassis_weld", "Pick-up point rusty; rust hole in the N/S inner arch; strut tower corroded"),
        ("spring_change chassis_weld joint_opened", "O/S rear damper mounting rusted through"),
        (
            "part_weld hot_work bushing_or_mount joint_opened",
            "Subframe rusted through; crossmember cracked",
        ),
        ("", "Surface rust on the sill: treat it; split the floor mat; drill holes in the tunnel; floor jack"),
        (
            "chassis_weld bushing_or_mount joint_opened",
            "Second crack at trailing arm bracket, runs into the sill",
        ),
        ("part_weld hot_work bushing_or_mount joint_opened", "Crack in the rear subframe mount; cracked arm bracket"),
        ("", "Cracked headlamp bracket; exhaust bracket cracked; check for cracks"),
        ("glass_bonding", "Windscreen cracked"),
        ("glued", "Glue the splitter back on"),
        ("fuel_line", "Renew the fuel hoses; fuel pump; petrol pipe; gas tank; new carbs; fuel smell in the boot"),
        ("fuel_drained", "Drain the tank; drain the fuel"),
        ("hydraulics_opened", "Bleed brakes; new calipers; flexi hoses; master cylinder; flush the brakes; bias valve"),
        ("hydraulics_opened", "Flush it all; flush the oil cooler and the brake lines"),
        ("wheel_off friction_parts", "Change front brake pads; discs; rotors; brake shoes"),
        ("clutch_line", "Bleed the clutch; clutch master cylinder; clutch hydraulics; flush the clutch"),
        ("coolant", "Coolant bleed; cooling system bleed; coolant tank"),
        ("coolant", "Bleed the coolant; radiator; water pump; top hose; flush the radiator; cooling system flush"),
        ("steering_arm joint_opened jam_nut", "Tie rod end right; track-rod ends; tierod"),
        ("steering_arm joint_opened jam_nut rack_moved", "New steering rack; rack bushes"),
        ("steering_column", "Steering column UJ; quick release"),
        ("hub_opened", "Wheel bearing left; front hub; hub nuts"),
        ("bushing_or_mount joint_opened", "Ball joint; wishbones; trailing arm; track control arm; panhard rod"),
        ("bar_preload joint_opened", "Drop link; droplinks; anti-roll bar; sway bar"),
        ("spring_change joint_opened", "Damper; coilovers; springs; strut"),
        ("length_adjusted joint_opened jam_nut", "Rose joint; rod ends"),
        ("wheel_off wheel_or_spacer", "Spacers; new wheels; wheel studs"),
        ("seat_or_belt_moved", "Harness; belts; window net; HANS posts"),
        ("spring_change", "Set the ride height; corner balance"),
        ("driven", "Test drive; test-drive it; road test; shake it down; bed in the pads; bed the brakes in"),
        ("wheel_off friction_parts", "Front pads and road test"),
        ("wheel_off friction_parts hydraulics_opened", "Front brakes: new discs and pads, hose on left weeps"),
        ("camber_front", "Set camber; camber plates"),
        ("throttle", "Throttle sticks; gas pedal; new throttle return spring"),
        ("hot_work", "Mig the towbar bracket; tig the hanger; oxy-acetylene on the manifold studs"),
        ("wiring", "Kill switch; battery; rewire the dash; wiring loom out; refit the wiring harness"),
        ("wheels_on", "Wheels on; wheels back on; put the wheels on; refit the road wheels; wheels on and car down"),
        ("wheel_off wheel_or_spacer", "New wheels on; fit wheels; wheels on order"),
        ("", "Clean the loom; wheels torqued; wheel nuts torqued"),
        ("glass_bonding", "New windscreen; windscreen cracked; replace the windscreen, chip spreading"),
        ("", "windscreen chip - check w/ scrut; chip in the windscreen; chipped windshield"),
        # No kind is named, so that it is what work on the system mostly opens.
        ("hydraulics_opened friction_parts", "Handbrake"),
        (
            "",
            "Cut and polish; paint stripes; wheel arch liner; tyre gauge; torque wheels; roll bar padding; fuel gauge",
        ),
        (
            "",
            "Inspect the welds; brake light; alternator belt; refit the fan; check camber; measure toe; corner weights",
        ),
        (
            "",
            "Check lock to lock clearance; weigh it; weight reduction; hand-brake cable; e-brake cable",
        ),
        (
            "",
            "misfire: track it down; adjust the handbrake; flush the oil cooler; oil-cooler flush; flush the gearbox",
        ),
        (
            "",
            "Align the headlights; align the doors; new steering wheel cover; trailer tyre pressures",
        ),
        (
            "",
            "Roof rack off; build a parts rack; valve seats; earth lugs; clutch spring; gear lever bush; axle stands",
        ),
    ],
)
def test_words_lead_to_kinds_of_work(kinds, titles):
    wrong = {title: said(title) for title in titles.split(";") if {*said(title)} != {*kinds.split()}}
    assert wrong == {}


def test_a_weld_on_steering_suspension_or_cage_is_one_of_that_part():
    assert {"part_weld", "hot_work"} <= {*said("Weld the steering arm")} & {*said("Weld a cage foot")}


def test_what_somebody_ticked_is_opened_where_the_words_say_nothing():
    assert kinds_said("Sort it out", ("brakes", "body")) == ("hydraulics_opened", "friction_parts")
    assert kinds_said("Sort it out", ("body",)) == ()


def test_what_is_measured_beside_other_work_hides_none_of_it():
    assert said("Rebuild the brakes and torque the wheels") == ("hydraulics_opened", "friction_parts")
    assert said("Fix the steering, check toe") == ("steering_arm",)
    assert kinds_said("Torque the wheels", ("brakes", "wheels")) == ("hydraulics_opened", "friction_parts")
    assert said("Torque the wheels") == ()


@pytest.mark.parametrize(
    ("readings", "titles"),
    [
        (
            "wheel_torque",
            "Torque wheels; torque the wheel nuts; wheel nuts torque; lug nut torque; torque up the wheels; "
            "wheels torqued; wheel nuts torqued; lug nuts torqued",
        ),
        ("corner_weights", "Weigh the car; weigh it; re-weigh; corner weights"),
        ("toe_front toe_rear", "Align it; alignment"),
        ("lock_clearance", "Check lock to lock clearance; full-lock clearance"),
        ("pad_bedding", "Bed in the pads; bed the pads in"),
        ("", "Weight reduction; align the headlights; align the panels"),
        ("brake_bleed", "Bleed brakes; bleed the front brakes; brake bleed"),
        ("toe_front", "Set toe; tracking"),
        ("toe_rear toe_front", "Wheel alignment; four-wheel alignment"),
        ("corner_weights", "Corner weights; corner-weighting"),
        ("", "Torque the head bolts; headlight alignment; wheels; bleed the clutch"),
    ],
)
def test_words_lead_to_readings(readings, titles):
    wrong = {
        title: readings_said(title) for title in titles.split(";") if {*readings_said(title)} != {*readings.split()}
    }
    assert wrong == {}
