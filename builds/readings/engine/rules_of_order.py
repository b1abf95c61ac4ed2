"""What comes before what on a car, rule by rule, strongest first, each with its reason in words.

Common practice, no published source, where no numbered trade rule is named.
"""

from collections.abc import Callable
from dataclasses import dataclass

from builds.readings.engine.car_job import CarJob, ChainStep
from builds.work.engine.apart import HOT

Says = Callable[[CarJob], bool]


@dataclass(frozen=True, slots=True)
class Rule:
    """Every job of the `first` sort comes before every one of the `then` sort; `why` in a few words."""

    why: str
    first: Says
    then: Says


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
CORNER_SYSTEMS = frozenset({"steering", "brakes", "suspension", "wheels"})
PAINT = frozenset({"paint", "paint_under_joint"})
COATS = PAINT | {"glass_bonding"}
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


def _outside(job: CarJob) -> bool:
    """Work outside the measuring chain."""
    return bool(job.works) and job.step is None


def _on_stands(job: CarJob) -> bool:
    return job.step is None and (job.does(ON_STANDS) or job.takes(BLED)) and not job.runs


def _fits_wheels(job: CarJob) -> bool:
    return {"wheel_off", "wheel_or_spacer"} <= job.works and job.step is None


def _strips(job: CarJob) -> bool:
    """Wheels off and something of the corner with them; nothing is closed again."""
    return "wheel_off" in job.kinds and job.does(OPENS_CORNER | BRAKES) and job.step is None and not job.measures


def _builds_up(job: CarJob) -> bool:
    return job.does(OPENS_CORNER | {"friction_parts"}) and "wheel_off" not in job.kinds and job.step is None


def _hangs(job: CarJob) -> bool:
    """Arms and what carries them, going on."""
    return "bushing_or_mount" in job.kinds and "wheel_off" not in job.kinds and job.step is None


def _closes_hub(job: CarJob) -> bool:
    return job.does(HUB) and job.takes(PLAY) and "wheel_off" not in job.kinds and job.step is None


def _ties_rods(job: CarJob) -> bool:
    return {"steering_arm", "jam_nut"} <= job.works and _builds_up(job) and not job.does(HUB)


def _closes_joints(job: CarJob) -> bool:
    """Joints of a corner that are closed by themselves, without its arms or its hub."""
    alone = not job.does(HUB | {"bushing_or_mount", "steering_arm"})
    return {"joint_opened", "pin_out"} <= job.works and job.takes(JOINTS) and _builds_up(job) and alone


def _hangs_dampers(job: CarJob) -> bool:
    return {"spring_change", "joint_opened"} <= job.works and job.takes(JOINTS) and _builds_up(job)


def _takes_seat_out(job: CarJob) -> bool:
    return "seat_or_belt_moved" in job.kinds and "seat_work" not in job.kinds and not job.measures


def _drains(job: CarJob) -> bool:
    return "fuel_drained" in job.kinds


def _fuel_test(job: CarJob) -> bool:
    """Cold, before the engine runs."""
    return job.takes(FUEL) and not job.runs and not job.works


def looks_over(job: CarJob) -> bool:
    """The fluids of a finished car, engine off: it works on nothing."""
    return job.takes(LEAKS) and not job.kinds and job.step is None


def _measured(job: CarJob) -> bool:
    return job.step is not None and ChainStep.LOADED <= job.step <= ChainStep.FRONT_TOE


def _drives(job: CarJob) -> bool:
    return "driven" in job.kinds


def _at(*steps: ChainStep) -> Says:
    return lambda job: job.step in steps


ON_ITS_WHEELS = "the car goes on its wheels after this"
RULES: tuple[Rule, ...] = (
    Rule(
        "brakes come off before the hub",
        lambda job: _strips(job) and job.does(BRAKES) and not job.does(OPENS_CORNER),
        lambda job: _strips(job) and "hub_opened" in job.kinds,
    ),
    Rule("taken apart before it is built up", _strips, _builds_up),
    Rule("the arms hang before the hub goes on", _hangs, _closes_hub),
    Rule("the arms hang before dampers go on", _hangs, _hangs_dampers),
    Rule(
        "the steering arm is on before the hub goes on",
        lambda job: _closes_hub(job) and "steering_arm" in job.kinds,
        lambda job: _closes_hub(job) and "steering_arm" not in job.kinds,
    ),
    Rule(
        "the hub is on before its shaft goes in",
        lambda job: _closes_hub(job) and "joint_opened" in job.kinds,
        lambda job: _closes_hub(job) and "joint_opened" not in job.kinds,
    ),
    Rule("tie rods go on the closed hub", _closes_hub, _ties_rods),
    Rule("arms and hub are on before joints are closed", lambda job: _hangs(job) or _closes_hub(job), _closes_joints),
    Rule(ON_ITS_WHEELS, lambda job: _on_stands(job) and not _fits_wheels(job), _at(ChainStep.ON_WHEELS)),
    Rule(ON_ITS_WHEELS, _fits_wheels, _at(ChainStep.ON_WHEELS)),
    Rule(
        "discs and calipers go on the closed corner",
        lambda job: job.does(OPENS_CORNER) and _outside(job),
        lambda job: "friction_parts" in job.kinds and _outside(job),
    ),
    Rule(
        "bled once discs and calipers are on",
        lambda job: "friction_parts" in job.kinds and _outside(job),
        lambda job: job.takes(BLED),
    ),
    Rule(
        "spacers and wheels go on a finished corner",
        lambda job: _on_stands(job) and not _fits_wheels(job),
        _fits_wheels,
    ),
    Rule("fuel is drained first", _drains, lambda job: job.does(HOT | {"fuel_line"}) and not _drains(job)),
    Rule("belts and seat come out of the sparks", _takes_seat_out, lambda job: job.does(HOT)),
    Rule(
        "no sparks near seat and belts",
        lambda job: job.does(HOT),
        lambda job: job.does(SEAT_AND_BELTS) and job.takes(SEAT_CHECKS),
    ),
    Rule(
        "paint is on before seat and belts go in",
        lambda job: job.does(PAINT),
        lambda job: job.does(SEAT_AND_BELTS) and job.takes(SEAT_CHECKS),
    ),
    Rule("welding is over before paint and glass", lambda job: job.does(HOT), lambda job: job.does(COATS)),
    Rule("leak tested after the last sparks", lambda job: job.does(HOT), _fuel_test),
    Rule("finished before it is driven", lambda job: bool(job.works) and not _drives(job), _drives),
    Rule("proved before it is driven", lambda job: bool(job.measures) and not _drives(job), _drives),
    Rule(
        "the last drive is the one to look again",
        lambda job: _drives(job) and bool(job.measures),
        lambda job: _drives(job) and not job.measures,
    ),
    Rule("closed before the engine runs", lambda job: job.does(ENGINE_SIDE) and not job.runs, lambda job: job.runs),
)
"""Drawn before the measuring chain."""

AFTER_CHAIN: tuple[Rule, ...] = (
    Rule("finished before the car is measured", _outside, _measured),
    Rule(
        "its wheels are torqued after this",
        lambda job: _outside(job) and job.touches(CORNER_SYSTEMS),
        _at(ChainStep.TORQUED),
    ),
    Rule(
        "the corner is finished before it is checked",
        lambda job: _outside(job) and job.touches(CORNER_SYSTEMS),
        _at(ChainStep.LOCKS),
    ),
    Rule(
        "looked over once all work is done", lambda job: bool(job.works - {"wheel_off"}) or _measured(job), looks_over
    ),
    Rule("looked over once the engine has run", lambda job: "engine_run" in job.kinds, looks_over),
    Rule("fuel aboard only once the fuel is closed", _fuel_test, _measured),
)
"""Drawn after it: what stands in the chain by somebody's own links keeps its place there."""

PROVED_COLD: tuple[str, ...] = ("fuel_leak", "throttle_return")
"""Readings taken with the engine off before it runs."""
