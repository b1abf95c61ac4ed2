"""What a reading that is not as it must be comes to: its words, the job that it opens and how grave that is."""

from collections.abc import Iterator

from builds.readings.engine.fields import CHECK
from builds.readings.engine.judge import OUT
from builds.readings.engine.kind_line import KindLine
from builds.readings.engine.reading_kind import ReadingKind
from builds.readings.engine.vocabulary import names_of
from builds.readings.engine.why_not import goal_words, value_words
from builds.work.engine.ranks import rank_for
from garage.engine.systems import SAFETY_SYSTEMS

# The systems that a reading is of. Common practice, no source.
_READ_ON = {
    "brakes": "brake_bleed pedal_travel brake_bias pad_bedding hose_check wheel_speed_gap",
    "wheels": "bearing_play wheel_run_out wheel_torque tyre_pressures",
    "steering": "lock_angles ackermann lock_clearance toggle_check bump_steer jam_nuts",
    "steering suspension": "joint_pins joint_torque thread_engagement toe_front toe_rear",
    "suspension": "ride_height corner_weights camber caster scrub_radius track_width",
    "restraint": "belt_geometry belt_torque belt_life belt_check helmet_life",
    "fire": "extinguisher",
    "fuel": "fuel_leak",
    "cooling": "coolant_bleed fan_switch",
    "engine": "throttle_return",
    "electrics": "earths master_switch",
    "fluids": "fluid_levels leak_check",
}
SYSTEMS_READ: dict[str, tuple[str, ...]] = {
    slug: tuple(systems.split()) for systems, slugs in _READ_ON.items() for slug in slugs.split()
}
# Somebody gets hurt by these, whatever their system: what fails in them stops no engine, or burns.
HURTS = frozenset({"throttle_return", "master_switch", "leak_check", "fluid_levels"})
MENDED = "It is within its limits since."
# A pump is all that it takes.
SET_BY_HAND = frozenset({"tyre_pressures"})
_SETS = "Set it within its limits: "
_MENDS = "Mend what failed: "


def opens_job(line: KindLine) -> bool:
    """Whether somebody has to mend it: a check that failed, or a figure out of its limits on a safety system."""
    on_safety = not SAFETY_SYSTEMS.isdisjoint(systems_read(line.kind))
    return line.judged == OUT and (line.failed or on_safety)


def systems_read(kind: ReadingKind) -> tuple[str, ...]:
    """The systems (slugs) that a reading is of; none of one that nobody has said it of."""
    return SYSTEMS_READ.get(kind.follows, ())


def rank_of(kind: ReadingKind) -> str:
    return "safety" if kind.follows in HURTS else rank_for(systems_read(kind)) or "needed"


def title_of_failed(kind: ReadingKind) -> str:
    return f"{_MENDS}{names_of([kind])}"


def title_of_out(kind: ReadingKind) -> str:
    """Its words name no fault: it can be set."""
    return f"{_SETS}{names_of([kind])}"


def only_sets(title: str) -> bool:
    """Whether a job of that title mends no fault, wherever that was read: it sets what is out of its limits."""
    return title.startswith(_SETS)


def told_by_reading(title: str) -> str:
    """`thread engagement failed: a job to mend it`, of a job that a reading opened; nothing of another."""
    if title.startswith(_MENDS):
        return f"{title.removeprefix(_MENDS)} failed: a job to mend it"
    return f"{title.removeprefix(_SETS)} is out of its limits: a job to set it" if only_sets(title) else ""


def title_of(line: KindLine) -> str:
    return title_of_failed(line.kind) if line.failed else title_of_out(line.kind)


def amiss_words(line: KindLine, system: str) -> str:
    """`No leak under pedal pressure: failed.` or `Front toe: left 0.4°, wanted 0.1° ± 0.05°.`; empty when it is right.

    Figures in words of the `system` of units.
    """
    failed, out = [], []
    for field in line.kind.fields:
        if line.judged_value(field.slug) != OUT:
            continue
        if field.type == CHECK:
            failed.append(line.kind.label if len(line.kind.fields) == 1 else field.label)
            continue
        value = value_words(field, line.values.get(field.slug), system)
        out.append(f"{field.label.lower()} {value}, wanted {goal_words(field, line.targets.get(field.slug), system)}")
    return " ".join(_said(failed, out, line.kind))


def _said(failed: list[str], out: list[str], kind: ReadingKind) -> Iterator[str]:
    if failed:
        yield f"{'; '.join(failed)}: failed."
    if out:
        yield f"{kind.label} out of its limits: {'; '.join(out)}."


def opened_words(title: str, rank: str) -> str:
    verb = "set" if only_sets(title) else "mended"
    return f"To be {verb}{', for safety' if rank == 'safety' else ''}: “{title}”."


def sets_words(title: str) -> str:
    """Of the open job that is to set it all the same."""
    return f"“{title}” sets it."
