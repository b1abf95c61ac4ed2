"""Which kinds of work on a car somebody's own words name. Common practice, no source."""

from collections.abc import Collection, Iterable
from functools import lru_cache

from builds.readings.engine.car_job import NO_WORK, ON_WHEELS
from builds.readings.engine.kinds_of_work import KINDS, pulled_kinds
from builds.readings.engine.kinds_touch import TOUCHED_BY
from builds.readings.engine.readings_said import beside_readings, readings_said
from builds.readings.engine.wheels_said import wheels_back_on_said
from garage.engine.names_said import NameTable
from garage.engine.systems import SAFETY_SYSTEMS
from garage.engine.systems_said import systems_said

# What `hot` comes to depends on what is welded, ground or cut: on `structure` it is the car itself.
_HOT, _STRUCTURE = "hot", "structure"
# Metal that has cracked is welded, whatever somebody calls it: the car itself, or what is welded to it. What has
# rusted or split is welded where it is the car itself.
_CRACK, _HOLED, _BRACKET = "crack", "holed", "bracket"
# What works the brakes without their fluid and from outside: on a cable nothing of them is opened.
_CABLE = "cable"
# Which system a hose, a pipe or a union is of is said elsewhere in the line.
_HOSE = "hose"
_OF_HOSE = {"brakes": "hydraulics_opened", "fuel": "fuel_line"}
_WELDED_APART = frozenset({"steering", "suspension", "cage"})
# By the words for what is done, or for the part that it is done to; without a kind what opens nothing.
_KINDS = NameTable(
    {
        "hot": """
            weld*, grind, grinds, grinder, grinding, ground off, cut, cutting, braz*, plasma, plasma cut*, angle
            grind*, gas axe, tack, tack weld*, spot weld*, flame cut*, drill out spot weld*, hot work, heat gun, blow
            torch, mig, tig, oxy acetylene, gas torch
        """,
        "structure": """
            chassis, chassis rail, chassis leg, frame rail, outrigger, sill, floor, floor pan, boot floor, inner wing,
            inner arch, inner sill, tub, body shell, shell, strut tower, shock tower, spring tower, damper tower,
            turret, shock turret, shock absorber turret, strut turret, spring turret, damper turret, coilover turret,
            suspension turret, pick up point, suspension pick up, pickup, jacking point, bulkhead, tunnel
        """,
        "structure spring_change joint_opened": """
            shock mount, shock mounting, shock absorber mount, damper mount, damper mounting, spring mount, strut mount,
            strut mounting, suspension mount, suspension mounting
        """,
        "crack holed": """
            crack*, torn, tear, tears, tearing, tore, rusted through, rust through, rusts through, rotted through,
            rotten through, daylight, hole
        """,
        "holed": "rust*, rot, rotted, rotten, rotting, corrod*, corrosion, perforat*, split*, ripped",
        "bracket": "bracket, gusset, weld seam, mounting, mounting tab, mounting point, mounting plate",
        "bracket bushing_or_mount joint_opened": """
            subframe mount, subframe mounting, axle mount, axle mounting, arm mount, arm mounting, trailing arm mount,
            trailing arm mounting, subframe, crossmember, k frame
        """,
        "hose": "hose, pipe, union",
        "cable": """
            handbrake cable, e brake cable, park brake cable, parking brake cable, emergency brake cable, brake cable,
            handbrake lever, e brake lever, parking brake lever, adjust handbrake, adjust e brake, adjust parking brake,
            handbrake adjust*, e brake adjust*, parking brake adjust*
        """,
        "paint": "paint*, prime, primer, priming, spray can, rattle can, aerosol, underseal, undercoat",
        "paint two_pack": """
            two pack, 2 pack, 2k, two pack paint, 2 pack paint, 2k paint, 2k lacquer, 2k primer, 2k clear, spray*,
            respray*, lacquer, lacquering, clear coat, top coat, base coat, blow in, isocyanate
        """,
        "fuel_line": """
            fuel*, petrol, gasoline, fuel hose, fuel line, fuel pipe, fuel pump, lift pump, fuel filter, fuel tank,
            fuel cell, fuel rail, fuel regulator, fuel tap, petcock, injector, carb, carburettor, carburetor, tank,
            gas tank, gas line, swirl pot, float bowl, float chamber, filler neck, filler hose, dry break
        """,
        "fuel_drained": "drain fuel, drain tank, drain petrol, drain fuel tank, drain gas",
        "hydraulics_opened": """
            caliper, calliper, brake hose, brake line, brake pipe, brake fluid, brake union, break fluid, break line,
            flexi, flexi hose, flexible hose, braided hose, banjo, banjo bolt, master cylinder, wheel cylinder, slave
            cylinder, bias valve, proportioning valve, brake valve, hydraulic handbrake, line lock, bleed*, flush*
        """,
        "hydraulics_opened throttle": "pedal box, brake pedal",
        "brake_vacuum": "servo, brake servo, brake booster, booster, servo hose, booster hose, vacuum hose",
        "friction_parts wheel_off": """
            pad, brake pad, break pad, disc, brake disc, break disc, rotor, brake rotor, shoe, brake shoe, drum, brake
            drum
        """,
        "clutch_line": """
            bleed clutch, clutch bleed, clutch master cylinder, clutch slave cylinder, clutch line, clutch hose,
            clutch hydraulic*, hydraulic clutch, clutch fluid, clutch pipe, clutch master, clutch slave, flush clutch,
            clutch flush, flush clutch fluid
        """,
        "steering_arm jam_nut joint_opened": """
            track rod, track rod end, track rod ball joint, tie rod, tie rod end, tre, rack end, steering ball joint
        """,
        "steering_arm joint_opened": """
            steering arm, drag link, idler arm, pitman arm, relay rod, center link, centre link, steering link,
            steering linkage
        """,
        "steering_arm rack_moved jam_nut joint_opened": "rack, steering rack, rack bush, rack mount, steering box",
        "rack_moved": "centre rack, center rack, rack centring, rack centering, centre steering rack",
        "rack_spacer": "rack spacer, rack shim",
        "lock_stop": "lock stop",
        "steering_column": """
            column, steering column, steering wheel, quick release, steering boss, steering uj, steering joint,
            steering universal joint, steering coupling, steering lock
        """,
        "steering_arm bushing_or_mount joint_opened": """
            kingpin, swivel, swivel pin, swivel hub, knuckle, steering knuckle, ball pin
        """,
        "hub_opened bushing_or_mount joint_opened": "upright, hub carrier, wheel carrier, bearing carrier",
        "hub_opened": """
            wheel bearing, hub, hub nut, hub bearing, wheel hub, hub assembly, stub axle, spindle, front bearing, rear
            bearing, bearing left, bearing right, bearing housing, hub seal
        """,
        "bushing_or_mount joint_opened": """
            ball joint, wishbone, arm, lower arm, upper arm, control arm, lower control arm, upper control arm, track
            control arm, trailing arm, semi trailing arm, swing arm, radius arm, radius rod, a arm, a frame, track
            arm, panhard, panhard rod, panhard bar, watts link, watts linkage, four link, trailing link, lateral link,
            leading arm, tie bar, compression rod, reaction rod, torque arm, tca, lca, uca, bush, bushing, polybush,
            axle, live axle, beam axle, rear axle, twist beam, de dion, tramp bar
        """,
        "rear_link bushing_or_mount joint_opened": "toe arm, toe link, camber arm",
        "joint_opened jam_nut length_adjusted": """
            rod end, rose joint, heim, heim joint, uniball, spherical joint, spherical bearing, spherical, pillow ball
        """,
        "spring_change joint_opened": """
            damper, shock, shock absorber, shocker, spring, coil spring, leaf spring, helper spring, coilover, strut,
            bump stop, spring perch, torsion bar, shackle, u bolt, pull rod, bell crank
        """,
        "spring_change": """
            set ride height, adjust ride height, ride height adjust*, lower car, raise ride height, lower ride height,
            corner balance, corner balancing, set corner weight, set corner weights, adjust corner weight, spring rate
        """,
        "spring_change bushing_or_mount joint_opened": "top mount, strut top, strut top mount, strut bearing",
        "bar_preload joint_opened": """
            anti roll bar, anti roll bar link, anti roll bar bush, arb, arb link, sway bar, sway bar link, drop link,
            end link, roll bar link, roll bar drop link, roll bar bush, front roll bar, rear roll bar, stabiliser,
            stabilizer, stabiliser bar, stabilizer bar, z bar
        """,
        "camber_front": "camber, set camber, adjust camber, camber plate, camber bolt, camber shim, front camber",
        "caster": "caster, castor",
        "jam_nut": "toe, set toe, front toe, tracking, align*, wheel align*, four wheel align*",
        "wheel_off": "lug, lug nut, lug bolt, wheel nut, wheel bolt, wheels off, wheel off, locking nut, centre lock",
        "wheel_off wheel_or_spacer": """
            wheel, wheel stud, lug stud, stud, spacer, wheel spacer, hub spacer, spigot ring, rim, alloy
        """,
        "wheel_off tyre_or_pressure": "tyre, tire, slick, puncture, wet tyre",
        "tyre_or_pressure": "tyre pressure, tire pressure, pressures",
        "mass_moved": "ballast",
        "mass_unit_moved engine_mount engine_work": "engine out, engine in, engine swap, engine change, refit engine",
        "engine_mount": "engine mount, engine mounting, gearbox mount, gearbox mounting",
        "throttle": """
            throttle*, accelerator*, gas pedal, loud pedal, throttle cable, throttle pedal, throttle body, accelerator
            cable, throttle spring, throttle return spring, throttle servo, return spring
        """,
        "coolant": """
            radiator, coolant*, coolant hose, water pump, thermostat, top hose, bottom hose, heater matrix, heater
            hose, expansion tank, header tank, swirl tank, bleed coolant, bleed cooling system, bleed cooling, bleed
            radiator, flush coolant, flush radiator, flush cooling, flush cooling system, flush heater matrix, coolant
            flush, radiator flush, cooling flush, cooling system flush, coolant bleed, cooling system bleed, coolant
            tank
        """,
        "wiring": """
            battery, alternator, rewir*, kill switch, master switch, cut off switch, cut out switch, battery isolator,
            isolator, loom, wiring loom, engine loom, wiring harness, engine harness
        """,
        "glass_bonding": """
            windscreen, windshield, rear screen, bonded glass, bonded screen, replace windscreen, new windscreen, fit
            windscreen, change windscreen, replace windshield, new windshield, fit windshield, change windshield
        """,
        "driven": """
            test driv*, road test, drive it, shake down, shake it down, bed in pad, bed pad in,
            bed in brake, bed brake in, bed in disc
        """,
        "seat_or_belt_moved": "harness, belt, seat belt, crotch strap, shoulder strap, sub strap",
        "seat_work seat_or_belt_moved": "seat, seat mount, seat rail, seat runner, seat bracket, bucket seat",
        "": """
            level floor, floor jack, floor mat, shop floor, garage floor, workshop floor, to floor, on floor, off floor,
            floor paint, surface rust, light rust, rust proof*, rust treat*, treat rust, rust convert*, rust remov*,
            rust stain*, drill hole, drain hole, weep hole, bolt hole, fixing hole, tear down, split pin, split rim,
            split collar, split charge, crack test*, crack check*, check crack, check for crack, look for crack,
            inspect crack, crack detection,
            lock to lock, lock to lock clearance, check full lock, full lock clearance, lock clearance, measure camber,
            check camber, measure caster, check caster, measure castor, check castor, measure toe, check toe, cut off
            switch lamp, cut and polish, cut polish, cut back, cutting compound, cut gasket, cut tie, cable tie,
            grinding noise, grinding paste, inspect weld, check weld, weld inspection, welding gas, welding mask,
            welding glove, welding wire, weld nut, crack test weld, powder coat*, paint stripe, paint pen, paint marker,
            torque stripe, wire brush, spray wax, spray grease, spray bar, spray nozzle, wheel clean*, clean wheel, wash
            wheel, polish wheel, wash seat, clean seat, vacuum seat, hoover seat, shampoo seat, wipe seat, dust seat,
            polish seat, wash bucket seat, clean bucket seat, wheel arch, wheel arch liner, wheel well, wheel speed
            sensor, hub cap, wheel trim, steering wheel button, wheel chock, wheel brace, fuel gauge, fuel pump relay,
            fuel relay, fuel pump fuse, fuel card, fuel can, fuel cap, fuel jug, fuel flap, fuel up, washer tank, oil
            tank, catch tank, oil spray, engine mount bolt cap, spring clean, spring washer, spring clip, press stud,
            exhaust stud, manifold stud, seat cover, seat heater, timing belt, cam belt, fan belt, drive belt,
            alternator belt, aux belt, belt tension, valve spring, bonnet spring, bonnet strut, gas strut, boot strut,
            tailgate strut, rocker arm, wiper arm, rotor arm, arm rest, knee pad, sanding pad, polishing pad, cutting
            disc, grinding disc, brake light, brake lamp, brake light switch, windscreen wash*, windscreen wiper,
            windscreen chip*, windshield chip*, chip windscreen, chip windshield, chip in windscreen, chip in
            windshield, chipped windscreen, chipped windshield, battery drill, headlight align*, headlamp align*, panel
            align*, door align*, bonnet align*, align headlight, align headlamp, align panel, align door, align bonnet,
            steering wheel cover, trailer tyre, trailer tyre pressure, toe cap, toe strap, loom tape, clean loom, clean
            wiring loom, tyre rack, tyre gauge, tyre trolley, oil drum, gearbox arm, gearbox bush, diff bush, oil flush,
            flush oil, oil cooler flush, engine flush, flush engine, flush gearbox, gearbox flush, head stud, turbo
            stud, water pump stud, disc cutter, air tank, cargo strap, water tank, valve seat, injector loom, clutch
            spring, gear lever bush, gear linkage bush, shifter bush, gear shift bush, axle shaft, exhaust spring, cable
            lug, earth lug, battery lug, stereo spacer, door spring, roof rack, spring clamp, spacer washer, tire rack,
            parts rack, tool rack, storage rack, wheel dolly, wheel barrow, belt sander, belt grinder, wheel skate,
            grinding wheel, axle stand, mouse pad, shoe box, driving shoe, alloy polish, rim tape
        """,
    }
)
# A wheel that is only torqued is not taken off.
_ONLY_TORQUED = frozenset({"wheel_off", "wheel_or_spacer"})


def may_open(text: str, systems: Iterable[str]) -> tuple[str, ...]:
    """Those of a job's systems (slugs) that work of these words may open: on a cable nothing of the brakes is."""
    cable = _CABLE in _KINDS.said(text)
    return tuple(system for system in systems if not (cable and system == "brakes"))


def hose_said(text: str) -> bool:
    """Whether the text names a hose, a pipe or a union, of whatever system."""
    return _HOSE in _KINDS.said(text)


@lru_cache(maxsize=4096)
def kinds_said(text: str, systems: tuple[str, ...]) -> tuple[str, ...]:
    """The kinds of work (slugs) that the text names of a job on these systems (slugs), and so are likely.

    Of a safety system that none of them opens, what work on it mostly opens; not so of one that is only measured.
    """
    if wheels_back_on_said(text):
        return (ON_WHEELS,)
    named = _KINDS.said(text)
    taken = readings_said(text)
    said = set(
        named
        - {_HOT, _STRUCTURE, _CRACK, _HOLED, _BRACKET, _CABLE, _HOSE}
        - (_ONLY_TORQUED if "wheel_torque" in taken else frozenset())
    )
    if _HOT in named or _is_broken_metal(named, systems):
        said |= _hot(systems, structure=_STRUCTURE in named)
    if _HOSE in named:
        said |= {kind for system, kind in _OF_HOSE.items() if system in systems}
    measured = set(systems_said(text)).difference(systems_said(beside_readings(text)))
    if _CABLE in named:
        measured.add("brakes")
    said |= set(_mostly((system for system in systems if system not in measured), said))
    if said - NO_WORK:
        said -= NO_WORK  # work and the drive after it in one line: the drive is a job of its own
    return tuple(kind for kind in KINDS if kind in said)


def _is_broken_metal(named: Collection[str], systems: Iterable[str]) -> bool:
    """The car itself, or a bracket that lives hang on: one of a lamp is left to whoever finds it."""
    bracket = _BRACKET in named and not SAFETY_SYSTEMS.isdisjoint(systems)
    return (_STRUCTURE in named and _HOLED in named) or (bracket and _CRACK in named)


def _hot(systems: Iterable[str], *, structure: bool) -> set[str]:
    if structure:
        return {"chassis_weld"}
    return {"hot_work"} if _WELDED_APART.isdisjoint(systems) else {"part_weld", "hot_work"}


def _mostly(systems: Iterable[str], said: Iterable[str]) -> Iterable[str]:
    opened = {system for kind in said for system in TOUCHED_BY.get(kind, ())}
    left = [system for system in systems if system in SAFETY_SYSTEMS and system not in opened]
    return (kind for kind in pulled_kinds(left) if kind not in NO_WORK)
