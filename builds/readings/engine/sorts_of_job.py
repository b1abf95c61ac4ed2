"""Sorts of jobs on a car that the order of work tells apart, by their kinds of work and the readings they take.

Common practice, no published source.
"""

from builds.readings.engine.car_job import CarJob, ChainStep
from builds.readings.engine.when_said import LAST, RAN
from builds.work.engine.apart import HOT, SPARKS, found_open

# Work that is done with the wheels off or the car on stands, unless a step of the chain does it.
ON_STANDS = frozenset(
    {
        *("wheel_off", "hub_opened", "joint_opened", "pin_out", "bushing_or_mount", "steering_arm", "rack_spacer"),
        *("part_weld", "chassis_weld", "hydraulics_opened", "friction_parts", "wheel_or_spacer"),
        *("spring_change", "bar_preload"),
    }
)
OPENS_CORNER = frozenset({"hub_opened", "joint_opened", "pin_out", "bushing_or_mount", "steering_arm"})
BRAKES = frozenset({"hydraulics_opened"})
HANGS_ON_FRAME = frozenset({"spring_change", "bar_preload", "joint_opened", "bushing_or_mount"})
CORNER_SYSTEMS = frozenset({"steering", "brakes", "suspension", "wheels"})
SHELL = frozenset({"body", "cage"})
PAINT = frozenset({"paint", "paint_under_joint"})
COATS = PAINT | {"glass_bonding"}
BURNS = frozenset({"fuel_line", "wiring", "seat_or_belt_moved"})
SEAT_AND_BELTS = frozenset({"seat_work", "seat_or_belt_moved"})
SEAT_CHECKS = frozenset({"ballast_position", "belt_geometry", "belt_torque"})
BLED = frozenset({"brake_bleed"})
HUB, PLAY = frozenset({"hub_opened"}), frozenset({"bearing_play"})
JOINTS = frozenset({"joint_torque", "joint_pins"})
# Until these are closed the engine does not run: rules 24 to 28.
ENGINE_SIDE = frozenset(
    {"fuel_line", "coolant", "throttle", "engine_mount", "engine_work", "clutch_line", "brake_vacuum", "wiring"}
)
FUEL = frozenset({"fuel_leak"})
LEAKS = frozenset({"leak_check"})


def outside(job: CarJob) -> bool:
    """Work outside the measuring chain."""
    return (bool(job.works) or job.unsaid) and job.step is None


def moves_no_reading(job: CarJob) -> bool:
    """Lights and wiring, by somebody's own words, with nothing that goes in or comes out and may weigh."""
    electrics = set(job.systems) == {"electrics"} and job.works <= {"wiring"}
    return job.by_hand and electrics and not (job.fits or job.comes_out)


def on_stands(job: CarJob) -> bool:
    done_there = job.does(ON_STANDS) or job.takes(BLED) or (job.by_hand and _moves_gearbox(job))
    return job.step is None and done_there and not job.runs


def fits_wheels(job: CarJob) -> bool:
    """And no more: what opens a brake line is bled afterwards, what opens a corner is closed by others."""
    return {"wheel_off", "wheel_or_spacer"} <= job.works and job.step is None and not job.does(OPENS_CORNER | BRAKES)


def seen_rolling(job: CarJob) -> bool:
    """Work that the wheels stay on for, looked at at full lock and in bump."""
    return job.seen_rolling and job.step is None and not on_stands(job)


def strips(job: CarJob) -> bool:
    """Wheels off and something of the corner with them; nothing is closed again."""
    return "wheel_off" in job.kinds and job.does(OPENS_CORNER | BRAKES) and job.step is None and not job.measures


def builds_up(job: CarJob) -> bool:
    return job.does(OPENS_CORNER | BRAKES | {"friction_parts"}) and "wheel_off" not in job.kinds and job.step is None


def carrier_fault(job: CarJob) -> bool:
    """A cracked upright, a bent arm."""
    return job.faulty and "bushing_or_mount" in job.kinds and job.step is None


def reads_shell(job: CarJob) -> bool:
    """Body and cage together, by a recipe that works on nothing then."""
    return not (job.by_hand or job.kinds or job.measures) and set(job.systems) >= SHELL


def welds_shell(job: CarJob) -> bool:
    return job.does(SPARKS) and job.touches(SHELL)


def frame_fault(job: CarJob) -> bool:
    """A turret rusted through, a torn pickup point: the car itself, where something hangs on it."""
    return job.faulty and "chassis_weld" in job.kinds and job.step is None


def hangs_on_frame(job: CarJob) -> bool:
    """What is bolted to the car itself, going on: dampers, arms, bars."""
    whole = job.by_hand or not strips(job)
    return job.does(HANGS_ON_FRAME) and whole and job.step is None and not job.does(SPARKS)


def built_on(job: CarJob) -> bool:
    """What goes on the arms and uprights of a corner."""
    whole = job.by_hand and job.does(HUB) and job.step is None
    return (builds_up(job) or whole) and not job.faulty


def hangs(job: CarJob) -> bool:
    """Arms and what carries them, going on."""
    return "bushing_or_mount" in job.kinds and "wheel_off" not in job.kinds and job.step is None


def closes_hub(job: CarJob) -> bool:
    return job.does(HUB) and job.takes(PLAY) and "wheel_off" not in job.kinds and job.step is None


def ties_rods(job: CarJob) -> bool:
    return {"steering_arm", "jam_nut"} <= job.works and builds_up(job) and not job.does(HUB)


def closes_joints(job: CarJob) -> bool:
    """Joints of a corner that are closed by themselves, without its arms or its hub."""
    alone = not job.does(HUB | {"bushing_or_mount", "steering_arm"})
    return {"joint_opened", "pin_out"} <= job.works and job.takes(JOINTS) and builds_up(job) and alone


def hangs_dampers(job: CarJob) -> bool:
    return {"spring_change", "joint_opened"} <= job.works and job.takes(JOINTS) and builds_up(job)


def made_safe(job: CarJob) -> bool:
    """After a crash."""
    return "crash" in job.kinds


def moves_engine(job: CarJob) -> bool:
    """The engine, out or in."""
    return _moves_unit(job) and job.touches(frozenset({"engine"}))


def gearbox_off(job: CarJob) -> bool:
    return _moves_gearbox(job) and "engine_work" not in job.kinds


def gearbox_on(job: CarJob) -> bool:
    return _moves_gearbox(job) and "engine_work" in job.kinds


def _moves_gearbox(job: CarJob) -> bool:
    return _moves_unit(job) and job.touches(frozenset({"gearbox"})) and not job.touches(frozenset({"engine"}))


def _moves_unit(job: CarJob) -> bool:
    return {"mass_unit_moved", "engine_mount"} <= job.works


def swaps_mount(job: CarJob) -> bool:
    """With the engine in the car."""
    return {"engine_mount", "engine_work"} <= job.works and not _moves_unit(job)


def new_lines(job: CarJob) -> bool:
    return job.works == {"fuel_line"}


def first_run(job: CarJob) -> bool:
    """The engine runs, and somebody looks for leaks of the fuel."""
    return job.runs and job.takes(FUEL) and not drives(job)


def later_run(job: CarJob) -> bool:
    return job.runs and not job.takes(FUEL)


def takes_seat_out(job: CarJob) -> bool:
    """Only by somebody's word: whoever reads a date on a belt takes nothing out."""
    said = job.comes_out or not (job.guessed or "seat_work" in job.kinds)
    return said and "seat_or_belt_moved" in job.kinds and not job.measures and not job.fits and not job.does(HOT)


def fits_seat(job: CarJob) -> bool:
    """Seat or belts, going in: a recipe's step is known by what is read then, a job by hand by its words."""
    return job.does(SEAT_AND_BELTS) and (job.takes(SEAT_CHECKS) or (job.fits and not job.does(HOT)))


def mounts_seat(job: CarJob) -> bool:
    """What the seat stands on, with the seat out."""
    return "seat_work" in job.kinds and "seat_or_belt_moved" not in job.works and not job.takes(SEAT_CHECKS)


def sets_seat(job: CarJob) -> bool:
    """The seat itself, going in."""
    return fits_seat(job) and "seat_work" in job.kinds


def takes_wiring_out(job: CarJob) -> bool:
    """A loom, a battery: a recipe's own links say so of its jobs."""
    return job.comes_out and "wiring" in job.kinds and not job.does(HOT)


def fits_wiring(job: CarJob) -> bool:
    return job.fits and "wiring" in job.kinds and not job.does(HOT)


def only_wheels_off(job: CarJob) -> bool:
    return job.comes_out and job.works == {"wheel_off"} and job.step is None


def wheels_off(job: CarJob) -> bool:
    """Alone, or with what else of the corner is stripped."""
    return only_wheels_off(job) or strips(job)


def fits_tyres(job: CarJob) -> bool:
    return "tyre_or_pressure" in job.kinds and job.step is None


def paints_body(job: CarJob) -> bool:
    """And not, by somebody's own words, a caliper or an arm; it is painted once that has cured."""
    return job.cures or (job.does(PAINT) and not (job.by_hand and job.touches(CORNER_SYSTEMS)))


def bonds_glass(job: CarJob) -> bool:
    return "glass_bonding" in job.kinds and not job.does(PAINT)


def fuel_fault(job: CarJob) -> bool:
    """A smell, a drip, a split hose; a pump that somebody took off."""
    return found_open(job.systems, job.kinds, faulty=job.faulty)


def drains(job: CarJob) -> bool:
    return "fuel_drained" in job.kinds


def fuel_test(job: CarJob) -> bool:
    """Cold, before the engine runs."""
    return job.takes(FUEL) and not job.runs and not job.works


def looks_over(job: CarJob) -> bool:
    """The fluids of a finished car, engine off: it works on nothing."""
    return job.takes(LEAKS) and not job.kinds and job.step is None


def last_look(job: CarJob) -> bool:
    """By somebody's own words."""
    return job.when == LAST and not job.runs


def looked_at_after_a_run(job: CarJob) -> bool:
    return job.when == RAN and not drives(job)


def finished_first(job: CarJob) -> bool:
    """Work that is over before the car is driven or looked over."""
    return bool(job.works) or job.unsaid


def measured(job: CarJob) -> bool:
    return job.step is not None and ChainStep.LOADED <= job.step <= ChainStep.FRONT_TOE


def drives(job: CarJob) -> bool:
    return "driven" in job.kinds
