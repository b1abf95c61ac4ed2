"""What comes before what on a car, rule by rule, strongest first, each with its reason in words.

Common practice, no published source, where no numbered trade rule is named.
"""

from collections.abc import Callable
from dataclasses import dataclass

from builds.readings.engine.car_job import CarJob, ChainStep
from builds.readings.engine.sorts_of_job import (
    BLED,
    BRAKES,
    COATS,
    CORNER_SYSTEMS,
    ENGINE_SIDE,
    OPENS_CORNER,
    bonds_glass,
    builds_up,
    built_on,
    carrier_fault,
    closes_hub,
    closes_joints,
    drains,
    drives,
    finished_first,
    first_run,
    fits_seat,
    fits_tyres,
    fits_wheels,
    fits_wiring,
    frame_fault,
    fuel_fault,
    fuel_test,
    gearbox_off,
    gearbox_on,
    hangs,
    hangs_dampers,
    hangs_on_frame,
    last_look,
    later_run,
    looked_at_after_a_run,
    looks_over,
    made_safe,
    measured,
    mounts_seat,
    moves_engine,
    moves_no_reading,
    new_lines,
    on_stands,
    only_wheels_off,
    outside,
    paints_body,
    reads_shell,
    seen_rolling,
    sets_seat,
    strips,
    swaps_mount,
    takes_seat_out,
    takes_wiring_out,
    ties_rods,
    welds_shell,
)
from builds.work.engine.apart import HOT, SPARKS

Says = Callable[[CarJob], bool]


@dataclass(frozen=True, slots=True)
class Rule:
    """Every job of the `first` sort comes before every one of the `then` sort; `why` in a few words.

    Where both are about one `corner`, work on another end or side of the car waits for none of it.
    """

    why: str
    first: Says
    then: Says
    corner: bool = False


def _at(*steps: ChainStep) -> Says:
    return lambda job: job.step in steps


ON_ITS_WHEELS = "the car goes on its wheels after this"
MADE_SAFE = "made safe before anything else"
RULES: tuple[Rule, ...] = (
    Rule(MADE_SAFE, lambda job: not job.by_hand and made_safe(job), lambda job: job.by_hand and made_safe(job)),
    Rule(MADE_SAFE, made_safe, lambda job: not made_safe(job)),
    Rule("what is wrong with the corner is seen to before it is built up", carrier_fault, built_on, corner=True),
    Rule("shell and cage are measured before they are welded", reads_shell, welds_shell),
    Rule("the metal is sound before anything is bolted to it", frame_fault, hangs_on_frame, corner=True),
    Rule(
        "brakes come off before the hub",
        lambda job: strips(job) and job.does(BRAKES) and not job.does(OPENS_CORNER),
        lambda job: strips(job) and "hub_opened" in job.kinds,
        corner=True,
    ),
    Rule("the gearbox comes off before the engine is lifted", gearbox_off, moves_engine),
    Rule("the engine is in before the gearbox is bolted up to it", moves_engine, gearbox_on),
    Rule("the engine is in before its mounts are torqued", moves_engine, swaps_mount),
    Rule("taken apart before it is built up", strips, builds_up, corner=True),
    Rule("the arms hang before the hub goes on", hangs, closes_hub, corner=True),
    Rule("the arms hang before dampers go on", hangs, hangs_dampers, corner=True),
    Rule(
        "the steering arm is on before the hub goes on",
        lambda job: closes_hub(job) and "steering_arm" in job.kinds,
        lambda job: closes_hub(job) and "steering_arm" not in job.kinds,
        corner=True,
    ),
    Rule(
        "the hub is on before its shaft goes in",
        lambda job: closes_hub(job) and "joint_opened" in job.kinds,
        lambda job: closes_hub(job) and "joint_opened" not in job.kinds,
        corner=True,
    ),
    Rule("tie rods go on the closed hub", closes_hub, ties_rods, corner=True),
    Rule(
        "arms and hub are on before joints are closed",
        lambda job: hangs(job) or closes_hub(job),
        closes_joints,
        corner=True,
    ),
    Rule(
        "the wheels come off first",
        only_wheels_off,
        lambda job: on_stands(job) and not only_wheels_off(job),
        corner=True,
    ),
    Rule("tyres are on before the wheels go on", fits_tyres, fits_wheels, corner=True),
    Rule(
        ON_ITS_WHEELS,
        lambda job: on_stands(job) or fits_wheels(job) or fits_tyres(job),
        _at(ChainStep.ON_WHEELS),
    ),
    Rule(
        "discs and calipers go on the closed corner",
        lambda job: job.does(OPENS_CORNER) and outside(job),
        lambda job: "friction_parts" in job.kinds and outside(job),
        corner=True,
    ),
    Rule(
        "bled once discs and calipers are on",
        lambda job: "friction_parts" in job.kinds and outside(job),
        lambda job: job.takes(BLED),
    ),
    Rule(
        "spacers and wheels go on a finished corner",
        lambda job: on_stands(job) and not fits_wheels(job),
        fits_wheels,
        corner=True,
    ),
    Rule("fuel is drained first", drains, lambda job: job.does(HOT | {"fuel_line"}) and not drains(job)),
    Rule("what is wrong with the fuel is found before any spark", fuel_fault, lambda job: job.does(SPARKS)),
    Rule("no sparks near new fuel lines", lambda job: job.does(HOT), new_lines),
    Rule("belts and seat come out of the sparks", takes_seat_out, lambda job: job.does(HOT)),
    Rule("belts and seat come out of the paint", takes_seat_out, paints_body),
    Rule("belts and seat are out before they go in", takes_seat_out, fits_seat),
    Rule("no sparks near seat and belts", lambda job: job.does(HOT), fits_seat),
    Rule("paint is on before seat and belts go in", paints_body, fits_seat),
    Rule("mounts are on before seat and belts go in", mounts_seat, fits_seat),
    Rule("the seat is in before its belts", sets_seat, lambda job: fits_seat(job) and not sets_seat(job)),
    Rule("wiring comes out of the sparks", takes_wiring_out, lambda job: job.does(HOT)),
    Rule("wiring comes out of the paint", takes_wiring_out, paints_body),
    Rule("wiring is out before it goes in", takes_wiring_out, fits_wiring),
    Rule("no sparks near wiring that goes in", lambda job: job.does(HOT), fits_wiring),
    Rule("paint is on before wiring goes in", paints_body, fits_wiring),
    Rule("welding is over before paint and glass", lambda job: job.does(HOT), lambda job: job.does(COATS)),
    Rule("paint is on before glass is bonded in", paints_body, bonds_glass),
    Rule("leak tested after the last sparks", lambda job: job.does(HOT), fuel_test),
    Rule("looked at once it was driven", drives, looked_at_after_a_run),
    Rule("finished before it is driven", lambda job: finished_first(job) and not drives(job), drives),
    Rule("looked over before it is driven", last_look, drives),
    Rule("proved before it is driven", lambda job: bool(job.measures) and not drives(job), drives),
    Rule(
        "the last drive is the one to look again",
        lambda job: drives(job) and bool(job.measures),
        lambda job: drives(job) and not job.measures,
    ),
    Rule("the first run looks for fuel leaks", first_run, later_run),
    Rule("closed before the engine runs", lambda job: job.does(ENGINE_SIDE) and not job.runs, lambda job: job.runs),
)
"""Drawn before the measuring chain."""

AFTER_CHAIN: tuple[Rule, ...] = (
    Rule("finished before the car is measured", lambda job: outside(job) and not moves_no_reading(job), measured),
    Rule(
        "its wheels are torqued after this",
        lambda job: outside(job) and job.touches(CORNER_SYSTEMS),
        _at(ChainStep.TORQUED),
    ),
    Rule(
        "the corner is finished before it is checked",
        lambda job: outside(job) and job.touches(CORNER_SYSTEMS),
        _at(ChainStep.LOCKS),
    ),
    Rule(
        "looked at with the car on its wheels",
        lambda job: on_stands(job) or job.step == ChainStep.ON_WHEELS,
        seen_rolling,
    ),
    Rule(
        "looked over once all work is done",
        lambda job: bool(job.works - {"wheel_off"}) or job.unsaid or measured(job),
        looks_over,
    ),
    Rule(
        "looked over once all work is done",
        lambda job: (finished_first(job) or job.step is not None) and not drives(job) and not last_look(job),
        last_look,
    ),
    Rule("looked over once the engine has run", lambda job: "engine_run" in job.kinds, looks_over),
    Rule("fuel aboard only once the fuel is closed", fuel_test, measured),
)
"""Drawn after it: what stands in the chain by somebody's own links keeps its place there."""

ON_PAINT = frozenset(rule.why for rule in RULES if rule.first is paints_body)
"""Why that waits which goes on the paint of a car."""

PROVED_COLD: tuple[str, ...] = ("fuel_leak", "throttle_return")
"""Readings taken with the engine off before it runs."""
