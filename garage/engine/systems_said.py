"""Which systems of a car somebody's own words name. Common practice, no source."""

import re
from functools import lru_cache

from garage.engine.denied import denies, undenied
from garage.engine.names_said import NameTable
from garage.engine.places_said import beside_places
from garage.engine.systems import SYSTEMS

# British and American names, and what people write for them. Without a system: what only sounds like one.
_NAMES = NameTable(
    {
        "steering": """
            steer*, steering wheel, steering wheel spacer, steering arm, steering knuckle, steering column, steering
            rack, rack, rack end, rack spacer, rack mount, track rod, track rod end, track rod ball joint, tie rod, tie
            rod end, drag link, pitman arm, idler arm, power steering belt, tracked, geo, column, lock stop, quick
            release, bump steer, ackermann, tre, track rod gaiter, rack gaiter, rack boot, steering box, steering
            damper, lock to lock, relay rod, center link, centre link, steering uj, steering universal joint, rack and
            pinion, idler box, pas, pas pipe, pas hose, pas pump, pas fluid, grub screw, boss, boss kit
        """,
        "brakes": """
            brake*, braking, caliper, calliper, handbrake, handbrake cable, e brake, e brake cable, parking brake, brake
            spring, hydraulic handbrake, master cylinder, wheel cylinder, slave cylinder, servo, pedal, pedal box, bias
            bar, bias valve, brake valve, proportioning valve, disc, rotor, brake disc bell, brake line, brake pipe,
            pad, shoe, brake shoe, drum, bleed*, flexi, flexi hose, braided hose, push rod, hydraulic*, line lock, abs,
            brake booster, booster, booster hose, vacuum hose, break pad, break disc, break fluid, break caliper, break
            line, breaks, hand break, park brake, caliper bracket, banjo, banjo bolt, banjo fitting, bleed nipple, bleed
            screw, balance bar, bias adjuster, reservoir, backing plate, dot 4, dot 5, nipple, kunifer, cupro nickel,
            copper nickel pipe, copper nickel line, m cyl, m cylinder, master cyl, brake cyl, wheel cyl, w cyl, hydro,
            hydro lever, hydro handbrake, hydro line, fly off handbrake, stopper, anchor
        """,
        "suspension": """
            suspension, damper, shock, shock absorber, spring, coil spring, leaf spring, helper spring, coilover,
            strut, strut brace, strut top, top mount, camber plate, wishbone, a arm, arm, control arm, track control
            arm, trailing arm, semi trailing arm, toe arm, toe link, camber arm, swing arm, radius arm, radius rod,
            panhard, panhard rod, panhard bar, watts link, drop link, anti roll bar, anti roll bar link, arb, sway
            bar, front roll bar, rear roll bar, roll bar link, roll bar bush, roll bar drop link, ball joint, bush,
            bushing, polybush, subframe, upright, torsion bar, spring seat, axle, rear axle, live axle, beam axle,
            bump stop, spring perch, camber, caster, castor, ride height, corner weight*, corner balanc*, lower
            control arm, upper control arm, lca, uca, tca, track arm, track bar, a frame, four link, 4 link, trailing
            link, lateral link, leading arm, tie bar, compression rod, reaction rod, torque arm, traction bar, de
            dion, transverse spring, damper mount, adjustable platform, droop stop, limit strap, axle strap, u bolt,
            shackle, leaf, pull rod, bell crank, watt linkage, watts linkage, z bar, stabiliser, stabilizer,
            stabiliser bar, stabilizer bar, sway bar link, end link, crossmember, link arm, shocker, strut bearing,
            strut tower, k frame, camber bolt, camber shim, twist beam, tramp bar, lower arm, upper arm, steady bar,
            turret, strut turret, suspension turret, shock turret, shock absorber turret, spring turret, damper turret,
            coilover turret, shock tower, spring tower, damper tower, turret top, anti dive, anti squat,
            platform, spring platform, spring collar, beam, rear beam, front beam, torsion beam, roll centre*, roll
            center*, rca, x member, k member, cradle, engine cradle
        """,
        "steering suspension": """
            rod end, rose joint, spherical joint, spherical bearing, heim joint, uniball, knuckle, kingpin, align*,
            tracking, toe, front toe, rear toe, thrust angle, ball end, spherical, swivel, swivel pin, swivel hub,
            ball pin, heim, pillow ball, cotter, cotter pin, split pin, castle nut, castellated nut, lock nut, jam nut,
            grease nipple, track it up, track wheel, track up
        """,
        "suspension wheels": """
            stub axle, spindle, hub carrier, wheel carrier, bearing carrier, bearing housing, hub assembly, stub
        """,
        "wheels": """
            wheel, wheel nut, wheel stud, wheel bolt, wheel bearing, wheel spacer, wheel hub, lug, lug nut, lug stud,
            lug bolt, stud, spacer, hub, hub nut, hub spacer, hub bearing, tyre, tire, wheel lock, wheel tether, tyre
            valve, tire valve, centre lock, center lock, spigot ring, rim, alloy, slick, locking nut, bearing left,
            bearing right, front bearing, rear bearing, drive peg, puncture, balance weight
        """,
        "restraint": """
            harness, harness bar, harness bolt, belt, seat belt, lap belt, crotch strap, shoulder strap, restraint,
            buckle, window net, head restraint, head restraint post, head and neck, neck device, neck restraint, hans
            post, hans device, hans anchor, hans tether, fhr, tether, eye bolt, sub strap, anti submarine strap, cam
            lock, neck collar, arm restraint, arm strap, driver net, side net, head surround, helmet tether,
            pretensioner, air bag, harness mount
        """,
        "seat": """
            seat, seat mount, seat rail, seat runner, seat bracket, seat back, seat back brace, seat insert, seat
            frame, runner, bucket runner
        """,
        "fuel": """
            fuel*, fuel cap, fuel filler, filler cap, filler neck, fuel tank, fuel pump, fuel line, fuel hose, fuel
            rail, fuel cell, fuel filter, tank, injector, carb, carburettor, carburetor, petrol, petrol cap, gas tank,
            gas cap, swirl pot, gasoline, gas line, petcock, filler hose, bag tank, tank foam, roll over valve, float
            bowl, float chamber, lift pump, dry break, collector tank, tank strap, tank vent, injection pump, diesel,
            drain gas
        """,
        "fire": """
            fire, extinguisher, fire extinguisher, bulkhead, firewall, plumbed in, fire bottle, fire pull, fire
            system, suppression, nozzle, fire handle, afff, pull cable
        """,
        "cage": """
            cage, roll cage, roll bar, roll bar padding, roll hoop, rollover, padding, harness tube, door bar, rear
            stay, cage stay, roll over bar, roll over hoop, main hoop, gusset, cage foot, roll bar foam, rollbar cover
        """,
        "engine": """
            engine, engine mount, motor, lump, head off, head on, head skim*, power unit, long block, short block, oil,
            oil line, oil filter, oil cooler, oil pump, sump, cam, camshaft, cam belt, timing belt, timing chain, fan
            belt, drive belt, alternator belt, aux belt, pulley, spark plug, plugs, plug lead, glow plug, sump plug,
            rocker, rocker arm, tappet, valve spring, valve, valve seat, turbo stud, cylinder head, head stud, head
            gasket, head bolt, crank*, piston, throttle, throttle body, throttle cable, throttle pedal, throttle spring,
            throttle return spring, throttle servo, accelerator, accelerator pedal, accelerator cable, return spring,
            turbo, intercooler, inlet manifold, intake, air filter, dipstick, catch tank, oil tank, misfire, idle, gas
            pedal, loud pedal, engine bay, hydraulic lifter, alternator pulley, injector loom
        """,
        "gearbox": """
            gearbox, clutch, clutch pedal, clutch master cylinder, clutch slave cylinder, clutch line, clutch cable,
            clutch spring, gear lever, gear linkage, shifter, gear knob, gear lever bush, gear linkage bush, shifter
            bush, gear shift bush, flywheel, release bearing, neutral, transmission, bleed clutch, clutch bleed, clutch
            master, clutch slave, clutch hydraulic*, hydraulic clutch, bell housing, gearbox oil, gearbox mount, gearbox
            bush, transaxle, g box, tranny, trans, box out, box in, box off, drop box, box back in, gear ratio, synchro,
            dog ring, input shaft, gear change, gear shift, thrust bearing, spigot bearing, pressure plate
        """,
        "driveline": """
            driveline, drive shaft, prop shaft, half shaft, axle shaft, prop, diff, diff bush, differential, cv joint,
            cv boot, universal joint, uj, drive flange, chain, drive chain, sprocket, final drive, torque tube, half
            shaft gaiter, cv gaiter, diff mount, diff oil, prop shaft centre bearing, carrier bearing, cv, outer cv,
            inner cv, outboard joint, inboard joint, inner joint, outer joint, cardan shaft, carden shaft, cardan, stub
            shaft, output shaft, drive shaft nut, doughnut, donut, guibo, giubo, rotoflex, flex disc, crown wheel,
            pinion, lsd, limited slip, cwp, spool, tripod joint, transfer box, transfer case
        """,
        "cooling": """
            cooling, coolant, radiator, rad, rad cap, thermostat, fan, shroud, water pump, water, expansion tank,
            header tank, swirl tank, water tank, coolant tank, washer tank, water pump stud, heater hose, heater
            matrix, top hose, bottom hose, bleed coolant, bleed cooling system, bleed cooling, bleed radiator, coolant
            bleed, cooling system bleed, coolant reservoir, washer reservoir
        """,
        "exhaust": """
            exhaust, exhaust stud, exhaust spring, exhaust manifold, manifold, manifold stud, silencer, downpipe,
            noise, silenc*, muffler, lambda, cat, decat, catalyst, catalytic
            converter, back box, centre box, tail pipe, header, mid pipe, resonator
        """,
        "electrics": """
            wiring, wire, electric*, wiring harness, engine harness, kill switch, master switch, cut off switch, battery
            isolator, cable lug, earth lug, battery lug, headlight align*, headlamp align*, align headlight, align
            headlamp, battery, batt, battery tray, clocks, instrument cluster, binnacle, heater, loom, alternator, lamp,
            light, brake light, brake light bulb, brake light switch, brake lamp, stop light, fuse, fuse box, bulb,
            switch, relay, sensor, wheel speed sensor, fuel gauge, oil pressure gauge, gauge, starter, starter motor,
            fan motor, heater motor, window motor, blower motor, heater box, ignition, coil, rotor arm, distributor,
            ecu, stereo, stereo spacer, radio, horn, wiper motor, dash, earth, seat heater, brake warning light,
            steering wheel button, rain light, headlight, headlamp, tail light, fog light, transponder, isolator,
            isolator switch, battery cut off, cut out switch, kill cord, abs sensor, intercom, dashboard, switch panel,
            earth strap, main beam, full beam, high beam, low beam, dipped beam, headlight beam, beam setter
        """,
        "fluids": """
            fluid, leak, fluid level
        """,
        "body": """
            body*, panel, bumper, bonnet, bonnet pin, bonnet strut, bonnet catch, bonnet spring, boot strut, boot lid,
            tailgate strut, gas strut, hood, hood pin, trunk, door, door hinge, door card, door spring, wing, wing
            mirror, mirror, splitter, diffuser, spoiler, fender, sill, wheel arch, arch, wheel arch liner, wheel well,
            arch liner, wash seat, clean seat, vacuum seat, hoover seat, shampoo seat, wipe seat, dust seat, polish
            seat, wash bucket seat, clean bucket seat, wash wheel, clean wheel, polish wheel, polish headlight, polish
            headlamp, clean headlight, clean headlamp,
            tow*, roof rack, mud flap, floor pan, hub cap, wheel trim, seat cover, steering wheel cover,
            carpet, trim, panel align*, door align*, bonnet align*, align panel, align door, align
            bonnet, arm rest, bonnet tether, engine bay cover, side skirt, skirt, bodykit, undertray,
            belly pan, skid plate, sump guard, floor, boot floor, chassis, chassis leg, chassis rail, frame
            rail, rail section, outrigger, body shell, shell, inner wing, inner arch, wide arch, over fender, quarter
            panel, scuttle, toe board, rocker panel, a post, b post, c post, a pillar, b pillar, valance, canard
        """,
        "paint": """
            paint*, respray, spray, prime, primer, top coat, lacquer, under seal, filler, undercoat, 2k, two pack, 2
            pack, two pack paint, 2k lacquer, clear coat, stone chip
        """,
        "glass": """
            windscreen, windshield, screen, window, glass, rear screen, window seal, wiper, wiper arm, wiper blade
        """,
        "": """
            spring clean, spring clip, spring clamp, spring washer, spacer washer, fire up, firing order, tyre rack,
            tire rack, parts rack, tool rack, storage rack, wheel chock, wheel dolly, wheel barrow, tyre gauge, wheel
            brace, screen wash, paint stripe, belt sander, belt grinder, disc cutter, wheel skate, cutting disc,
            grinding disc, grinding wheel, shop light, spirit level, jack stand, trolley jack, toe cap, water bottle,
            fuel card, axle stand, cage nut, bearing cage, press stud, knee pad, sanding pad, polishing pad, mouse pad,
            oil drum, shoe box, driving shoe, alloy polish, jet wash, leaf blower, hydraulic jack, hydraulic press,
            hydraulic lift, spray gun nozzle, welding nozzle, rim tape, window shopping, trailer tyre, level floor,
            floor jack, shop floor, garage floor, workshop floor, to floor, on floor, off floor, hydro dip*, heat
            screen, touch screen, wash bucket, mop bucket, lump hammer, picture frame, tracked down, tracked it down,
            cat litter, header card
        """,
    }
)
# What a car hit, or how it left the road: whatever was looked at before says nothing of it since.
CRASHED = """
    crash*, collision, collide*, shunt, shunted, rear ended, tail ended, t boned, side swiped, clout*, kerb, kerbed,
    kerbing, curb, curbed, hit wall, hit a wall, hit tyre wall, hit tire wall, hit tree, hit a tree, hit post, hit a
    post, hit cone, hit a cone, hit bank, hit car, hit another car, hit pothole, hit a pothole, hit rock, hit a rock,
    barrier, gravel trap, into gravel, into bank, into hedge, into ditch, into field, into wall, hay bale, straw
    bale, contact with car, contact with another car, contact with wall, spun into, spun off, went off at, went off
    into, went off backwards, went off track, went off road, off at turn, off at corner, rolled it, rolled over, rolled
    car, landed hard, landed heavily, heavy landing, hard landing, bottomed hard, bottomed out hard, stuffed it, binned
    it, stacked it, prang, pranged, nosed into, slid into
"""
# Somebody gets hurt by these although not by all of their system.
_HURTS = NameTable(
    {
        "hurts": f"""
            throttle*, accelerator*, gas pedal, loud pedal, kill switch, kill cord, kill cable, master switch, cut off
            switch, cut out switch, battery isolator, isolator switch, battery cut off, {CRASHED}
        """,
        "": """
            crash pad, crash bar, crash helmet, crash box, crash gearbox, crash bolt, crash structure, crash mat, clout
            nail, shunt resistor, kerb weight, curb weight
        """,
    }
)
# How somebody says that something is not as it must be; these words name no work, but why there is some.
_FAULTS = NameTable(
    {
        "fault": """
            crack*, leak*, weep*, seep*, drip*, smell*, stink*, stick*, stuck, jam*, seize*, bind*, loose, has play,
            play in, play at, much play, some play, slop*, worn, wears, broke*, break*, bent, bend*, split, tear, torn,
            fray*, chafe*, chafing, rubs, rubbing, perish*, rot*, rust*, corrode*, missing, lost, snap*, shear*, soft,
            spongy, long pedal, sink*, pull*, knock*, clonk*, clunk*, rattl*, nois*, squeal*, grinding noise, rumbl*,
            wobbl*, vibrat*, shimm*, shak*, fail*, fault*, defect*, damage*, danger*, unsafe, wrong, bad, burnt, burst,
            bulg*, no brake, goes to floor, went to floor, go to floor, down to floor, does not, doesn t, will not, won
            t, not work*, not hold*, not lock*, not release*, not return*, over centre, over center, fell off, came
            off, falls off, comes off, hang up, hanging up, split ball joint boot, split ball joint gaiter, split ball
            joint rubber, split ball joint cover, split track rod end boot, split tie rod end boot, split track rod end
            gaiter, split tie rod end gaiter, notch*, graunch*, judder*, scrap*, stiff*, lumpy, tight spot, finger
            tight, hand tight, not tight, undone, came undone, backed off, contaminat*, milky, sticky, mushy, vague,
            wander*, darts, black fluid, fluid black, fluid is black, fluid gone black, fluid looks black, fluid brown,
            fluid is brown, fluid dark, fluid is dark, fluid dirty, fluid is dirty, fluid old, fluid is old, oil milky,
            knacker*, shagged, had it, shot, buggered, goosed, sheared
        """,
        "": """
            rubbing compound, rubbing down,
            break pad, break disc, break fluid, break caliper, break line, leak test, leak check, crack test*, crack
            check*, rotor, rot box, snap ring, pull cable, fire pull, pull rod, pull handle, fault finding, soft top,
            split pin, split rim, split collar, breaker bar, breaker, dry break, drip tray, jam nut, rust proof*,
            failsafe, knock sensor, noise test, sticker, shake down, jamb, rotat*, binder, pull out, pull off, pull
            apart, pull front, pull rear, pull both, pull old, pull hub, pull wheel, pull bearing, pull caliper, pull
            disc, pull rotor, pull pad, pull strut, pull damper, pull spring, pull arm, pull subframe, pull axle, pull
            shaft, pull diff, pull rack, pull column, pull engine, pull gearbox, pull tank, pull seat, knock out, tear
            down, break down, bend up, soft compound, split ball joint, split track rod end, split tie rod end, break in
            pad, break in new pad, break in front pad, break in rear pad, break in brake pad, break in shoe, break in
            new brake pad, break in brakes, break in new brakes, fault find, rattle can, rust treat*, treat rust, stick
            weight, stick wheel weight, stick on weight, stick on wheel weight, bend new, pull belt, pull harness, pull
            window net, pull fuel pump, pull fuel tank, pull fuel cell, pull fuel line, pull injector, pull brake line,
            pull brake pipe, pull brake hose, pull brake disc, pull brake pad, pull brake caliper, pull master cylinder,
            pull pedal box, pull booster, pull servo, pull drum, pull shoe, pull upright, pull knuckle, pull steering
            column, pull steering rack, pull new, pull left hub, pull right hub, pull extinguisher, pull tranny, pull
            transmission, pull trans, pull motor, pull prop, pull clutch, pull box, pull dash, pull loom, pull exhaust,
            pull screen, pull beam, pull cv, pull drive shaft, pull half shaft, pull cage, pull bumper, pull undertray,
            pull battery, pull transaxle, pull steering wheel, shot blast*, shot peen*, shimmed, shimming, sticky tyre,
            sticky tire, sticky pad, sticky one, sticky rubber, sticky compound, sticky set, sticky label, sticky tape,
            sticky back, sticky slick, scrap metal, scrap yard, scrap man, stiffer, stiffen*, stiffening, notchback
        """,
    }
)
# Whoever is to look for one has not found it yet.
_A_FAULT = r"(?:leak|crack|play|damage|wear|rust|rot|chafing)\w*"
_LOOKED_FOR = re.compile(
    r"\b((?:check|inspect)\w*\b[^.,;:!?–—]*?)\bfor\s+(?:any\s+)?(?:\w+\s+)?"
    rf"{_A_FAULT}(?:\s*(?:,|&|and|or)\s*{_A_FAULT})*",
    re.IGNORECASE,
)


# Sparks fly farther than from what they are made on.
_SPARKS = NameTable(
    {"sparks": "weld*, grind, grinding, grinder, braz*, plasma*, tack, torch, cut, cutting, flame cut*"}
)
_OF_NOTHING = frozenset({"fluids"})  # a leak is of what is named beside it


@lru_cache(maxsize=32_768)
def worked_on(text: str) -> str:
    """The text without what it names only as a place; all of it where nothing else says what is wrong there.

    So it is where sparks fly near fuel.
    """
    rest, places = beside_places(text, _NAMES)
    if not places or (_SPARKS.said(rest) and "fuel" in _NAMES.said(places)):
        return text
    return text if fault_said(text) and not _NAMES.said(rest) - _OF_NOTHING else rest


@lru_cache(maxsize=32_768)
def systems_said(text: str) -> tuple[str, ...]:
    """The systems (slugs) that words in the text name, in the order of `SYSTEMS`; none where they name none."""
    said = _NAMES.said(worked_on(text))
    return tuple(slug for slug in SYSTEMS if slug in said)


@lru_cache(maxsize=32_768)
def hurts_said(text: str) -> bool:
    """Whether the text names what somebody gets hurt by, whatever its system: a throttle, a master switch."""
    return bool(_HURTS.said(worked_on(text)))


@lru_cache(maxsize=32_768)
def fault_said(text: str) -> bool:
    """Whether the text says that something is not as it must be, and not only what is to be done."""
    return bool(_FAULTS.said(_LOOKED_FOR.sub(r"\1", undenied(text))))


@lru_cache(maxsize=32_768)
def sound_said(text: str) -> bool:
    """Whether the text plainly says that something is as it must be, and of nothing that it is not."""
    return denies(text) and not fault_said(text)
