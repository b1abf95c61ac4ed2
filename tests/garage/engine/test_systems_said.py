"""Somebody's own words lead to the systems they name, and to none that they only sound like."""

import pytest

from garage.engine.systems import SYSTEMS
from garage.engine.systems_said import hurts_by_words, systems_said


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
        ("cooling", "Radiators; header tank; water pump studs"),
        ("exhaust", "Exhaust studs; exhaust manifold"),
        ("electrics", "Kill switch; master switches; batteries; brake light bulb; wheel speed sensor; wiring harness"),
        ("electrics", "Spacer washer of the stereo; fuel gauge; seat heater; headlight alignment"),
        ("body", "Steering wheel cover; bonnet strut; wheel arches; hub cap; seat covers; bonnet spring"),
        ("glass", "Windows; wiper arm; windscreen"),
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
    assert hurts_by_words(text) is hurts
