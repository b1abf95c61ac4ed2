"""The names by which people call kinds of work. Common practice, no source."""

from itertools import product

from garage.engine.systems_said import CRASHED

# By the words for what is done, or for the part that it is done to; without a kind what opens nothing.
NAMED: dict[str, str] = {
    "hot": """
            weld*, grind, grinds, grinder, grinding, ground off, cut, cutting, braz*, plasma, plasma cut*, angle
            grind*, gas axe, tack, tack weld*, spot weld*, flame cut*, drill out spot weld*, hot work, heat gun, blow
            torch, mig, tig, oxy acetylene, gas torch
        """,
    "structure": """
            chassis, chassis rail, chassis leg, frame rail, outrigger, sill, floor, floor pan, boot floor, inner wing,
            inner arch, inner sill, tub, body shell, shell, strut tower, shock tower, spring tower, damper tower,
            turret, shock turret, shock absorber turret, strut turret, spring turret, damper turret, coilover turret,
            suspension turret, pick up point, suspension pick up, pickup, jacking point, bulkhead, tunnel, transmission
            tunnel, prop tunnel, chassis member, frame, frame horn, main rail, rail section, outer sill, rocker panel, a
            post, b post, c post, a pillar, b pillar, c pillar, door pillar, scuttle, toe board, spare wheel well, rear
            panel, front panel, slam panel, inner wheel arch, trunk floor
        """,
    "structure metal": "half sill, sill section, sill skin",
    "metal": """
            let in, letting in, let into, patch*, plate, plated, plating, gas it, gas up, gas in, gassed, gas weld*,
            stitch*, seam*, repair panel, repair section, new section, fabricat*, burn in, burn it in, straighten*
        """,
    "mends": "do, doing, redo, repair*, make, making, remake, mend*, fix, fixing",
    "structure spring_change joint_opened": """
            shock mount, shock mounting, shock absorber mount, damper mount, damper mounting, spring mount, strut mount,
            strut mounting, suspension mount, suspension mounting
        """,
    "crack holed": """
            crack*, torn, tear, tears, tearing, tore, rusted through, rust through, rusts through, rotted through,
            rotten through, daylight, hole
        """,
    "holed": "rust*, rot, rotted, rotten, rotting, corrod*, corrosion, perforat*, split*, ripped",
    "bracket hot": "weld seam",
    "bracket": "bracket, gusset, mounting, mounting tab, mounting point, mounting plate",
    "bracket bushing_or_mount joint_opened": """
            subframe mount, subframe mounting, axle mount, axle mounting, arm mount, arm mounting, trailing arm mount,
            trailing arm mounting, subframe, crossmember, k frame, x member, k member, engine cradle, cradle, beam, rear
            beam, front beam, torsion beam
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
            cylinder, bias valve, proportioning valve, brake valve, hydraulic handbrake, line lock, bleed*, flush*, m
            cyl, m cylinder, master cyl, brake cyl, wheel cyl, slave cyl, w cyl, hydro, hydro lever, hydro handbrake,
            hydro line, fly off handbrake
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
            bearing, bearing left, bearing right, bearing housing, hub seal, drive shaft, half shaft, axle shaft, stub
            shaft, output shaft, drive shaft boot, drive shaft gaiter, drive shaft nut, half shaft boot, half shaft
            gaiter, cv, cv joint, cv boot, cv gaiter, outer cv, inner cv, tripod joint, drive flange, outboard joint,
            inboard joint, inner joint, outer joint, hub flange
        """,
    "bushing_or_mount joint_opened": """
            ball joint, wishbone, arm, lower arm, upper arm, control arm, lower control arm, upper control arm, track
            control arm, trailing arm, semi trailing arm, swing arm, radius arm, radius rod, a arm, a frame, track
            arm, panhard, panhard rod, panhard bar, watts link, watts linkage, four link, trailing link, lateral link,
            leading arm, tie bar, compression rod, reaction rod, torque arm, tca, lca, uca, bush, bushing, polybush,
            axle, live axle, beam axle, rear axle, twist beam, de dion, tramp bar, roll centre*, roll center*, rca
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
            platform, spring platform, adjustable platform, spring collar, wind platform,
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
    "jam_nut": """
            toe, set toe, front toe, tracking, tracked, track it up, track wheel, track up, geo,
            align*, wheel align*, four wheel align*
        """,
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
            radiator, rad, coolant*, coolant hose, water pump, thermostat, top hose, bottom hose, heater matrix, heater
            hose, expansion tank, header tank, swirl tank, bleed coolant, bleed cooling system, bleed cooling, bleed
            radiator, flush coolant, flush radiator, flush cooling, flush cooling system, flush heater matrix, coolant
            flush, radiator flush, cooling flush, cooling system flush, coolant bleed, cooling system bleed, coolant
            tank
        """,
    "wiring": """
            battery, alternator, rewir*, kill switch, master switch, cut off switch, cut out switch, battery isolator,
            isolator, loom, main loom, wiring loom, engine loom, wiring harness, engine harness, dash, dashboard, dash
            panel, fuse box, switch panel, ignition switch, clocks, instrument cluster, binnacle, batt, ecu, starter,
            starter motor, earth strap, battery cable
        """,
    "glass_bonding": """
            windscreen, windshield, rear screen, front screen, screen, bonded glass, bonded screen, replace windscreen,
            new windscreen, fit windscreen, change windscreen, replace windshield, new windshield, fit windshield,
            change windshield
        """,
    "glued": "glue*, gluing, epoxy, epoxied, adhesive*, bond, bonded, bonding, rebond*",
    "crash": CRASHED,
    "driven": """
            test driv*, road test, drive it, shake down, shake it down, bed in pad, bed pad in,
            bed in brake, bed brake in, bed in disc
        """,
    "seat_or_belt_moved": "harness, belt, seat belt, crotch strap, shoulder strap, sub strap",
    "seat_work seat_or_belt_moved": "seat, seat mount, seat rail, seat runner, seat bracket, bucket seat",
    "": """
            crash pad, crash bar, crash helmet, crash box, crash gearbox, crash bolt, crash structure, crash mat, clout
            nail, shunt resistor, kerb weight, curb weight, level floor, floor jack, floor mat, shop floor, garage
            floor, workshop floor, to floor, on floor, off floor,
            surface rust, light rust, rust proof*, rust treat*, treat rust, rust convert*, rust remov*, rust stain*,
            drill hole, drain hole, weep hole, bolt hole, fixing hole, tear down, split pin, split rim, split collar,
            split charge, crack test*, crack check*, check crack, check for crack, look for crack, inspect crack, crack
            detection, lock to lock, lock to lock clearance, check full lock, full lock clearance, lock clearance,
            measure camber, check camber, measure caster, check caster, measure castor, check castor, measure toe, check
            toe, cut off switch lamp, cut and polish, cut polish, cut back, cutting compound, cut gasket, cut tie, cable
            tie, grinding noise, grinding paste, inspect weld, check weld, weld inspection, welding gas, welding mask,
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
            wiring loom, tyre rack, tyre gauge, tyre
            trolley, oil drum, gearbox arm, gearbox bush, diff bush, oil flush, flush oil, oil cooler flush, engine
            flush, flush engine, flush gearbox, gearbox flush, head stud, turbo stud, water pump stud, disc cutter, air
            tank, cargo strap, water tank, valve seat, injector loom, clutch spring, gear lever bush, gear linkage bush,
            shifter bush, gear shift bush, exhaust spring, cable lug, earth lug, battery lug, stereo spacer, door
            spring, roof rack, spring clamp, spacer washer, tire rack, parts rack, tool rack, storage rack, wheel dolly,
            wheel barrow, belt sander, belt grinder, wheel skate, grinding wheel, axle stand, mouse pad, shoe box,
            driving shoe, alloy polish, rim tape, screen wash*, heat screen, rad screen, stone screen, touch screen,
            screen heater, sun screen, number plate, clutch plate, back plate, backing plate, base plate, skid plate,
            face plate, pressure plate, name plate, trade plate, swash plate, main beam, full beam, high beam, low beam,
            dipped beam, headlight beam, beam setter, dash cam, dash light, dash lamp, dash bulb, dash mat, seat frame,
            door frame, window frame, tracked down, tracked it down, hydro dip*, seam sealer, flat floor, make sure,
            make good, make up, make list
        """,
}
# What lies on the car itself, or is fixed to it: nobody welds for that.
_BODY = ("sill", "floor", "floor pan", "boot floor", "tunnel", "transmission tunnel", "bulkhead", "turret", "chassis")
_ON_BODY = (
    *("cover", "trim", "grommet", "plug", "bung", "carpet", "strip", "protector", "finisher", "paint", "insulation"),
    *("guard", "liner", "number", "pad", "stone chip", "seal", "wax", "light", "heat shield", "sound deadening"),
)
NAMED[""] += "".join(f", {part} {thing}" for part, thing in product(_BODY, _ON_BODY))
