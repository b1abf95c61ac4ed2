"""Somebody's own words lead to the systems they name, and to none that they only sound like."""

import pytest

from garage.engine.systems import SAFETY_SYSTEMS, SYSTEMS
from garage.engine.systems_said import fault_said, hurts_said, systems_said
from garage.engine.units_said import unit_said


@pytest.mark.parametrize(
    ("systems", "titles"),
    [
        ("steering", "New track rod end; track-rod ends; tie rods; drag link; column; STEERING WHEEL"),
        ("brakes", "Master cylinders; servo; pedal box; pedal-box; callipers; e-brake cable; handbrake; discs; rotor"),
        ("suspension", "Ball joint left; subframe bolt; top mounts; coilovers; coil-over; upright; trailing arms"),
        ("suspension", "Track control arm; toe arm; control-arm; panhard rod; drop links; struts; bushes; rear ARB"),
        ("suspension", "Anti-roll bar; antiroll bar link; front roll bar; wishbones; sub frame; lower arm; axle"),
        ("steering suspension", "Rose joint; rod ends; spherical bearing; knuckle; king-pin; kingpins; uniball"),
        ("wheels", "Lug nuts; lug-nut; wheel nuts; spacers; stud; studs; hub nut; wheel bearings; tyres; tire"),
        ("suspension wheels", "Stub axles; spindle"),
        ("restraint", "Window nets; head restraint post; HANS post; harnesses; belts; seat belt; FHR tethers"),
        ("seat", "Seat rails; seats"),
        ("fuel", "Fuel cap; fuel-caps; filler neck; tank; injectors; petrol pipe's cap"),
        ("fire", "Extinguishers; bulkhead; fire bottle"),
        ("cage", "Roll bar padding; roll-bar; cage; rollcage; roll hoops"),
        ("engine", "Throttle sticks; accelerators; engine mounts; alternator belt; valve springs; fire up the engine"),
        ("gearbox", "Clutch master cylinder; clutch pedal; gear lever bushes"),
        ("driveline", "Prop shaft; prop-shafts; propshaft; driveshafts; drive shaft; half shaft; CV boots; diff bush"),
        ("steering", "Idler box; grub screw in boss; PAS pipe; power steering pipe"),
        ("steering suspension", "Cotter missing; locknut loose at the front; lock nuts; jam nut; grease nipples"),
        ("steering suspension", "Split pin missing; split-pins; castle nut without its pin"),
        ("brakes", "Nipples seized; kunifer; brake tubing; bleed nipple seized"),
        ("suspension", "Turret cracked; anti-dive shims"),
        ("seat", "Bucket runner sticks"),
        ("fire", "Pull cable for the bottle"),
        ("driveline", "Carrier bearing"),
        ("cooling", "Radiators; header tank; water pump studs"),
        ("exhaust", "Exhaust studs; exhaust manifold"),
        ("electrics", "Kill switch; master switches; batteries; brake light bulb; wheel speed sensor; wiring harness"),
        ("electrics", "Spacer washer of the stereo; fuel gauge; seat heater; headlight alignment"),
        ("body", "Steering wheel cover; bonnet strut; wheel arches; hub cap; seat covers; bonnet spring"),
        ("body", "Wash the seats; hoover the seats; polish the wheels; polish headlights"),
        ("glass", "Windows; wiper arm; windscreen"),
        ("driveline", "Repack the CVs; prop UJ; new doughnuts on the prop; shim the pinion; LSD; half-shaft"),
        ("gearbox", "Box out; pull the tranny; transaxle; bell-housing"),
        ("exhaust", "De-cat and back box; tailpipe; manifold off"),
        ("suspension", "Rear beam off; roll-centre kit; wind the platforms down; x-member; cross-member"),
        ("brakes", "Bigger bore m/cyl; hydro lever; nsf calliper"),
        ("body", "Undertray off and on; sills; floor pan; chassis leg; wide arches"),
        ("electrics", "Main beam; dashboard; loom"),
        ("", "Spring clean; spring washers; tyre rack; axle stands; fantasy seating; scan; press studs; Hans comes"),
        ("", "Wheelbarrow; firing order; cutting disc; bearing cage; polish"),
    ],
)
def test_words_lead_to_systems(systems, titles):
    wrong = {title: systems_said(title) for title in titles.split(";") if systems_said(title) != tuple(systems.split())}
    assert wrong == {}


def test_several_are_told_in_their_order_and_each_is_known():
    text = "Paint the seat, the brakes and the steering"
    assert systems_said(text) == ("steering", "brakes", "seat", "paint")
    assert [slug for slug in SYSTEMS if systems_said(SYSTEMS[slug].label.split(" and ")[0]) != (slug,)] == []


@pytest.mark.parametrize(
    ("text", "hurts"),
    [
        *(("Throttle sticks", True), ("accelerator pedal", True), ("Kill-switch", True), ("master switches", True)),
        *(("Light switch", False), ("Brakes", False), ("", False)),
    ],
)
def test_what_hurts_beside_its_system(text, hurts):
    assert hurts_said(text) is hurts


MECHANICS_SAY = """
track rod, track-rod ends, trackrod end, tie rod end right, tierods, ball joint left, balljoints, rose joint,
rod-ends, heim joints, uniball, master cylinder, brake master cyl, pedal box, servo, brake booster, lug nuts,
lugnuts, spacers, subframe bolts, sub-frame bolt, top mount, strut top mount, coilover, coil-overs, upright,
knuckle, kingpin, king pins, trailing arm, semi-trailing arm, track control arm, TCA bushes, toe arm, toe link,
panhard rod, drop link, end links, sway bar, antiroll bar, ARB, window net, kill switch, roll bar padding,
hand-brake cable, e-brake cable, park brake, sticking throttle, throttle sticks, HANS posts, head restraint, six
point harness, crotch straps, seat rails, fuel hose, petrol pipe, gas tank, gas line, fuel pump, swirl pot, carbs,
extinguisher, plumbed-in bottle, bulkhead, fire pull cable, door bars, roll cage foot, main hoop, wishbone, A-arm,
control arm, lower arm, radius arm, watts linkage, leaf spring, shackle, U-bolts, damper, shock absorber, shocks,
spring perch, bump stop, stub axle, spindle, hub nut, wheel bearing left, wheel studs, wheel nut, tyres, tires, tyre
valve, centre lock, center-lock, spigot ring, rims, calipers, calliper rebuild, brake pads, front pads, discs,
rotors, drums, brake shoes, flexi hoses, braided hoses, brake pipes, bias valve, balance bar, wheel cylinder,
hydraulic handbrake, brake fluid, bleed brakes, bleed all four, banjo bolts, line lock, steering rack, rack mount,
rack bush, steering column, column UJ, quick release boss, steering wheel, drag link, idler arm, pitman arm,
steering box, power steering hose, lock stops, torque wheels, wheel alignment, tracking, toe, camber bolts, caster,
castor, corner weights, ride height, rear axle, beam axle, de Dion tube, crossmember, bushes, polybushes, pushrod,
bellcrank, master switch, battery isolator, cut-off switch, accelerator cable, gas pedal, seat mount, harness eye
bolt, arm restraints, fuel filler neck, fuel cap, injectors, fuel filter, fuel cell foam, dry break, tank strap,
swivel pin, strut, strut tower, pull rod, front bearing, break pads, side net, fire system, nozzles, stabilizer bar,
stabiliser links
"""


def test_what_mechanics_call_what_hurts_is_known_on_both_sides_of_the_ocean():
    names = [name for line in MECHANICS_SAY.split(",") if (name := " ".join(line.split()))]
    assert len(names) > 150
    assert [name for name in names if not (SAFETY_SYSTEMS & {*systems_said(name)} or hurts_said(name))] == []


@pytest.mark.parametrize(
    ("text", "fault"),
    [
        *(("Fuel smell in the boot - look!", True), ("Throttle sticks", True), ("Cracked upright", True)),
        *(
            ("Brakes pull left", True),
            ("hub has play", True),
            ("pedal goes soft", True),
            ("Handbrake does not hold", True),
        ),
        *(("New brake pads", False), ("break pads", False), ("Leak test", False), ("Bleed the brakes", False)),
        *(("Pull the front hubs", False), ("Knock out the old bushes", False), ("Tear down the calipers", False)),
        *(("Check for play in the hubs", False), ("Pulls left when braking", True), ("Knock from rear left", True)),
        *(("Check brakes for leaks", False), ("Inspect the cage feet for cracks and rust", False)),
        *(("Check the pipes for brake fluid, cracked flexi", True), ("Check caliper for leaks: it leaks", True)),
        *(("Check the leaking caliper for play", True), ("Check why the brakes leak", True)),
        *(("Split the ball joint", False), ("Split ball joint boot", True), ("Ball joint boot split", True)),
        *(("Pull belts and seat", False), ("Pull the fuel pump", False), ("Pulls on the brakes", True)),
        *(("Rust treat the arms", False), ("Rust on the arms", True), ("Fault find the fuel pump", False)),
        *(("Stick on wheel weights", False), ("Pads stick", True), ("Bend new brake pipes", False)),
        *(("Break in pads", False), ("Break in the new brakes", False), ("Break in the brake line", True)),
        *(("nsf caliper siezed", True), ("Steering feels notchy", True), ("Brake fluid's black", True)),
        *(("Hub nut was finger tight", True), ("Quick-release boss sticky", True), ("Swap to the sticky tyres", False)),
        *(
            ("Pull the gearbox", False),
            ("Pull the prop", False),
            ("Column stiff", True),
            ("Fit stiffer springs", False),
        ),
        *(("Fit missing lug", True), ("Replace the cracked upright", True)),
        *(
            ("Split pins", False),
            ("Torque wheels", False),
            ("Shake-down", False),
            ("Check bearing play", False),
            ("Expired harness", False),
            ("", False),
        ),
    ],
)
def test_a_fault_is_told_from_work_that_is_planned(text, fault):
    assert fault_said(text) is fault


@pytest.mark.parametrize(
    ("names", "unit"),
    [
        ("Engine; Spare gearbox; Fuel tank; Battery, 12 V; Driver's seat; Whole unit", True),
        ("Fuel pump relay; Engine mount; Battery tray; Tank strap; Seat rail; Starter motor; Widget", False),
    ],
)
def test_what_is_a_whole_unit_by_its_name_moves_the_weights_of_a_car(names, unit):
    assert [name for name in names.split(";") if unit_said(name) != unit] == []
