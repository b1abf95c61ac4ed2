"""What words take out of a car or put into it, in the words of several mechanics; common practice, no source."""

import pytest

from builds.readings.engine.kinds_said import kinds_said, part_kinds
from builds.readings.engine.moved_said import moves_said, units_moved
from garage.engine.systems_said import systems_said

HEAVY = """
gearbox out for clutch, gearbox swap, drop the box: box out, new gearbox in, trans out, pull the tranny, transaxle
swap, transmission rebuild, clutch replaced, new clutch, clutch kit in, change flywheel, engine out, engine lifted and
refitted, rebuild the motor, engine back in, long block swap, diff out and in, swap the diff for a 4.1, LSD fitted,
rebuild diff, shim the pinion, new crown wheel and pinion, drop the tank, tank out for sender, fuel cell in, new fuel
tank, fit bag tank, move battery to boot, battery relocated, new battery, lighter battery fitted, seat out for carpet,
new bucket seat, driver's seat out, move the seat back 20 mm, refit seat
"""
LIGHT = """
engine oil change, gearbox oil changed, new engine mounts, new gearbox mount, diff oil, fit diff bush, tank strap
replaced, new fuel tank cap, new battery terminal, battery charged, battery tray out, seat cover, new seat rail bolts,
engine misfires: find out why, sort out the engine wiring, adjust clutch cable, clutch slipping, new clutch cable,
wiper motor out, change starter motor, header tank out, new catch tank, fit oil tank, take the engine bay cover off,
fuse box out, steering rack and pinion out, paint the engine, engine number, new valve seats
"""


def each(text):
    return [name for line in text.replace("\n", " ").split(",") if (name := line.strip())]


def test_heavy_units_that_come_out_or_go_in_move_the_weights():
    assert [title for title in each(HEAVY) if "mass_unit_moved" not in units_moved(title)] == []


def test_what_is_only_of_them_moves_none():
    assert [title for title in each(LIGHT) if units_moved(title)] == []


@pytest.mark.parametrize(
    ("text", "moves"), [("Loom in", False), ("Loom out", True), ("Fit it", True), ("Check", False)]
)
def test_which_words_take_out_or_put_in(text, moves):
    assert moves_said(text) is moves


@pytest.mark.parametrize(
    ("kind", "titles"),
    [
        (
            "hub_opened",
            "half shaft out and in; new driveshaft boots; CV joint clicking; repack the CVs; outer cv split",
        ),
        ("hub_opened", "axle shaft out; drive-shaft nut; stub shaft; swop wheel berings rear; hub bearings"),
        ("chassis_weld", "gas it and do the sill; new floor pan let in; patch the chassis leg; chassis rail let in"),
        (
            "chassis_weld",
            "seam weld the shell; plate the turret; boot floor cut out; repair the outrigger; rocker panel new",
        ),
        (
            "chassis_weld",
            "sills need doing; half sill let in; fabricate an inner wing; floor rotten, plate it; new A-post",
        ),
        ("bushing_or_mount", "front x-member off for sump; rear beam off; roll centre kit; subframe dropped; axle out"),
        (
            "bushing_or_mount",
            "cross member out; engine cradle down; torsion beam bushes; diff out; roll center adjusters",
        ),
        (
            "wiring",
            "loom in; dash out for loom; wiring harness out; dashboard off; move battery to boot; starter motor",
        ),
        ("glass_bonding", "screen in; new screen; windscreen out; rear screen; bond the screen"),
        (
            "part_weld",
            "plate the subframe ear; weld in the cage feet; patch the wishbone; stitch weld the axle bracket",
        ),
        ("hydraulics_opened", "bigger bore m/cyl on; new hydro lever and lines; hydro handbrake; brake cyl weeps"),
        ("spring_change", "wind the platforms down 10mm; raise the spring platforms"),
        ("fuel_line", "drop the tank; fuel cell foam"),
        ("engine_mount", "gearbox out; trans swap; clutch change; engine out"),
    ],
)
def test_each_opens_what_the_trade_says(kind, titles):
    assert [title for title in titles.split(";") if kind not in kinds_said(title, systems_said(title))] == []


def test_what_lies_on_the_car_itself_is_no_new_metal():
    titles = (
        "new floor mats;replace the tunnel cover;fit bulkhead grommets;new sill trim;paint the sills;new number plate"
    )
    welded = [title for title in titles.split(";") if "chassis_weld" in kinds_said(title, systems_said(title))]
    assert welded == []


@pytest.mark.parametrize(
    ("name", "kinds"),
    [
        *(("Gearbox", "mass_unit_moved engine_mount"), ("Clutch", "mass_unit_moved engine_mount")),
        *(("Drive shaft", "hub_opened"), ("Half shaft", "hub_opened"), ("CV joint", "hub_opened")),
        *(("Battery 12 kg", "wiring mass_unit_moved"), ("Sill", "chassis_weld"), ("Prop shaft", ""), ("Mirror", "")),
        ("Wheel nut", "wheel_or_spacer wheel_off"),
    ],
)
def test_a_part_opens_what_its_name_says_and_what_its_systems_mostly_do(name, kinds):
    assert {*part_kinds(name, systems_said(name))} == {"part_pulled", *kinds.split()}
