"""Which systems of a car somebody's own words name. Common practice, no source."""

import re
from functools import cache

from garage.engine.systems import SYSTEMS

# A longer name wins over one within it. A blank stands for a blank, a hyphen or nothing, a star for any ending;
# every name is known in the plural too.
_NAMES: dict[str, str] = {
    "steering": (
        "steer*, steering wheel, steering wheel spacer, steering arm, steering knuckle, steering column, steering "
        "rack, rack, rack end, rack spacer, rack mount, track rod, track rod end, track rod ball joint, tie rod, "
        "tie rod end, drag link, pitman arm, idler arm, power steering belt, column, lock stop, quick release, bump "
        "steer, ackermann"
    ),
    "brakes": (
        "brake*, braking, caliper, calliper, handbrake, hand brake, handbrake cable, e brake, e brake cable, "
        "parking brake, brake spring, hydraulic handbrake, master cylinder, wheel cylinder, slave cylinder, servo, "
        "pedal, pedal box, bias bar, bias valve, brake valve, proportioning valve, disc, rotor, brake disc bell, "
        "brake line, brake pipe"
    ),
    "suspension": (
        "suspension, damper, shock, shock absorber, spring, coil spring, leaf spring, helper spring, coilover, coil "
        "over, strut, strut brace, strut top, top mount, camber plate, wishbone, a arm, arm, control arm, track "
        "control arm, trailing arm, semi trailing arm, toe arm, toe link, camber arm, swing arm, radius arm, radius "
        "rod, panhard, panhard rod, panhard bar, watts link, drop link, anti roll bar, anti roll bar link, arb, "
        "sway bar, front roll bar, rear roll bar, roll bar link, roll bar bush, roll bar drop link, ball joint, "
        "bush, bushing, polybush, subframe, sub frame, upright, torsion bar, spring seat, axle, rear axle, live "
        "axle, beam axle, bump stop, spring perch, camber, caster, castor, ride height, corner weight*, corner "
        "balanc*"
    ),
    "steering suspension": (
        "rod end, rose joint, spherical joint, spherical bearing, heim joint, uniball, knuckle, kingpin, king pin, "
        "align*, tracking, toe, front toe, rear toe, thrust angle"
    ),
    "suspension wheels": "stub axle, spindle, hub carrier",
    "wheels": (
        "wheel, wheel nut, wheel stud, wheel bolt, wheel bearing, wheel spacer, wheel hub, lug, lug nut, lug stud, "
        "lug bolt, stud, spacer, hub, hub nut, hub spacer, hub bearing, tyre, tire, wheel lock, wheel tether, tyre "
        "valve, tire valve"
    ),
    "restraint": (
        "harness, harness bar, harness bolt, belt, seat belt, lap belt, crotch strap, shoulder strap, restraint, "
        "buckle, window net, head restraint, head restraint post, head and neck, neck device, neck restraint, hans "
        "post, hans device, hans anchor, hans tether, fhr, tether"
    ),
    "seat": "seat, seat mount, seat rail, seat runner, seat bracket",
    "fuel": (
        "fuel*, fuel cap, fuel filler, filler cap, filler neck, fuel tank, fuel pump, fuel line, fuel hose, fuel "
        "rail, fuel cell, fuel filter, tank, injector, carb, carburettor, carburetor, petrol, petrol cap, gas tank, "
        "gas cap, swirl pot"
    ),
    "fire": (
        "fire, extinguisher, fire extinguisher, bulkhead, firewall, fire wall, plumbed in, fire bottle, fire pull"
    ),
    "cage": ("cage, roll cage, roll bar, roll bar padding, roll hoop, rollover, padding, harness tube, door bar"),
    "engine": (
        "engine, engine mount, oil, oil line, oil filter, oil cooler, oil pump, sump, cam, camshaft, cam belt, "
        "cambelt, timing belt, timing chain, fan belt, drive belt, alternator belt, aux belt, pulley, spark plug, "
        "plug, rocker, rocker arm, tappet, valve spring, valve, valve seat, turbo stud, cylinder head, head stud, "
        "head gasket, head bolt, crank*, piston, throttle, throttle body, throttle cable, throttle pedal, throttle "
        "spring, throttle return spring, throttle servo, accelerator, accelerator pedal, accelerator cable, return "
        "spring, turbo, intercooler, inlet manifold, intake, air filter, dipstick, catch tank, oil tank, misfire, "
        "idle"
    ),
    "gearbox": (
        "gearbox, clutch, clutch pedal, clutch master cylinder, clutch slave cylinder, clutch line, clutch cable, "
        "clutch spring, gear lever, gear linkage, shifter, gear knob, gear lever bush, gear linkage bush, shifter "
        "bush, gear shift bush, flywheel, release bearing, neutral, transmission"
    ),
    "driveline": (
        "driveline, drive shaft, prop shaft, half shaft, axle shaft, prop, diff, diff bush, differential, cv joint, "
        "cv boot, universal joint, uj, drive flange, chain, drive chain, sprocket, final drive"
    ),
    "cooling": (
        "cooling, coolant, radiator, rad, rad cap, thermostat, fan, shroud, water pump, water, expansion tank, "
        "header tank, swirl tank, water tank, coolant tank, washer tank, water pump stud, heater hose, heater "
        "matrix, top hose, bottom hose"
    ),
    "exhaust": (
        "exhaust, exhaust stud, exhaust spring, exhaust manifold, manifold, manifold stud, silencer, downpipe, "
        "noise, silenc*, muffler, lambda"
    ),
    "electrics": (
        "wiring, wire, electric*, wiring harness, engine harness, kill switch, master switch, cut off switch, "
        "battery isolator, cable lug, earth lug, battery lug, headlight align*, headlamp align*, battery, battery "
        "tray, loom, alternator, lamp, light, brake light, brake light bulb, brake light switch, brake lamp, stop "
        "light, fuse, fuse box, bulb, switch, relay, sensor, wheel speed sensor, fuel gauge, oil pressure gauge, "
        "gauge, starter, starter motor, ignition, coil, rotor arm, distributor, ecu, stereo, stereo spacer, radio, "
        "horn, wiper motor, dash, earth, seat heater, brake warning light, steering wheel button, rain light, "
        "headlight, headlamp, tail light, fog light, transponder"
    ),
    "fluids": "fluid, leak, fluid level",
    "body": (
        "body*, panel, bumper, bonnet, bonnet pin, bonnet strut, bonnet catch, bonnet spring, boot strut, boot lid, "
        "tailgate strut, gas strut, hood, hood pin, trunk, door, door hinge, door card, door spring, wing, wing "
        "mirror, mirror, splitter, diffuser, spoiler, fender, sill, wheel arch, arch, wheel arch liner, wheel well, "
        "arch liner, tow*, roof rack, mud flap, floor pan, hub cap, wheel trim, seat cover, steering wheel cover, "
        "carpet, trim, panel align*, door align*, bonnet align*, arm rest, bonnet tether"
    ),
    "paint": ("paint*, respray, spray, prime, primer, top coat, lacquer, under seal, underseal, filler, undercoat"),
    "glass": ("windscreen, windshield, screen, window, glass, rear screen, window seal, wiper, wiper arm, wiper blade"),
    "": (
        "spring clean, spring clip, spring clamp, spring washer, spacer washer, fire up, firing order, tyre rack, "
        "tire rack, parts rack, tool rack, storage rack, wheel chock, wheel dolly, wheel barrow, tyre gauge, wheel "
        "brace, screen wash, paint stripe, belt sander, belt grinder, disc cutter, wheel skate, cutting disc, "
        "grinding disc, grinding wheel, shop light, spirit level, jack stand, trolley jack, toe cap, water bottle, "
        "fuel card, axle stand, cage nut, bearing cage, press stud"
    ),
}
# Somebody gets hurt by these although not by all of their system.
_HURTS = "throttle*, accelerator*, kill switch, master switch, cut off switch, battery isolator, kill cable"


def systems_said(text: str) -> tuple[str, ...]:
    """The systems (slugs) that words in the text name, in the order of `SYSTEMS`; none where they name none."""
    names = _names()
    said = {slug for name in _reader().finditer(_plain(text)) for slug in names[name.lastindex or 0]}
    return tuple(slug for slug in SYSTEMS if slug in said)


def hurts_by_words(text: str) -> bool:
    """Whether the text names what somebody gets hurt by, whatever its system: a throttle, a master switch."""
    return _dangers().search(_plain(text)) is not None


def _plain(text: str) -> str:
    """Small letters, with single blanks for hyphens and whatever else stands between words."""
    return " ".join(re.findall(r"[^\W_]+", text.casefold().replace("'s", "").replace("’s", "")))


def _split(names: str) -> list[str]:
    return [" ".join(name.split()) for name in names.split(",")]


def _pattern(name: str) -> str:
    ending = ""
    if name.endswith("*"):
        name, ending = name[:-1], r"\w*"
    elif name.endswith("y"):
        name, ending = name[:-1], "(?:ys?|ies)"
    else:
        ending = "(?:es)?" if name.endswith("s") else "(?:es|s)?"
    return name.replace(" ", " ?") + ending


@cache
def _listed() -> list[tuple[str, tuple[str, ...]]]:
    """Every name with its systems, the longest first."""
    names = [(name, tuple(systems.split())) for systems, more in _NAMES.items() for name in _split(more)]
    return sorted(names, key=lambda one: -len(one[0].rstrip("*")))


@cache
def _names() -> dict[int, tuple[str, ...]]:
    return {place: systems for place, (_, systems) in enumerate(_listed(), 1)}


@cache
def _reader() -> re.Pattern[str]:
    return re.compile(rf"\b(?:{'|'.join(f'({_pattern(name)})' for name, _ in _listed())})\b")


@cache
def _dangers() -> re.Pattern[str]:
    return re.compile(rf"\b(?:{'|'.join(map(_pattern, _split(_HURTS)))})\b")
