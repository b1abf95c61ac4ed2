"""What a job opened, moved or changed: when its finish asks for it, and what is likely."""

from collections.abc import Collection, Iterable

from builds.readings.engine.car_job import NO_WORK
from builds.readings.engine.kinds_of_work import KINDS, pulled_kinds, voided_by
from builds.readings.engine.kinds_touch import TOUCHED_BY
from builds.readings.engine.wheels_said import at_wheel_said
from builds.steps.engine.looks import leaves_joint
from garage.engine.systems import SAFETY_SYSTEMS, SYSTEMS

# What happened to a car rather than what hands did to it: no finding hands it on.
HAPPENED = frozenset({"crash", "first_run", "engine_run", "driven", "part_pulled", "job_reopened"})

DRIVE_APART = "The drive is a job of its own: it comes after the work, and shows whether that holds."
WHAT_WAS_OPENED = "Tick what was opened, moved or changed, or say that nothing was."
WHY_NOTHING = "Say in words why nothing of it was opened: what was done instead."


def asks_what_was_opened(
    *, safety: bool, told: bool, systems: Collection[str], kinds: Collection[str], likely: bool
) -> bool:
    """Whether the finish of a job asks: its kinds of work were only likely, or nobody said any.

    It is `told` where a recipe says what its jobs open, or where it only measures. Work that hurts nobody may leave
    it unsaid, but nobody knows that of work of which not even the systems (slugs) are said.
    """
    return likely or ((safety or not systems) and not told and not kinds)


def opens_nothing_of(systems: Iterable[str], kinds: Collection[str]) -> bool:
    """Whether these kinds of work (slugs) leave alone all that work on the safety systems named (slugs) spoils.

    What leaves a joint, a line or a belt to be looked at opened something, wherever that was.
    Said of a safety job that is as good as a lower rank: it wants its reason in words. Trade rule, common
    practice, no source.
    """
    safety = SAFETY_SYSTEMS.intersection(systems)
    spoilt = voided_by(pulled_kinds(safety)) - voided_by(pulled_kinds(()))
    if not spoilt:
        return not kinds
    opened = (kind for kind in kinds if safety & {*TOUCHED_BY.get(kind, ())} or spoilt & voided_by([kind]))
    return not (leaves_joint(kinds) or any(opened))


def offered_first(systems: Iterable[str], kinds: Collection[str]) -> tuple[str, ...]:
    """Kinds of work (slugs) that a form offers first: those said, what pulling these systems (slugs) does, theirs."""
    asked = tuple(systems)
    theirs = (kind for kind in KINDS if not {*TOUCHED_BY.get(kind, ())}.isdisjoint(asked))
    first = dict.fromkeys([*kinds, *pulled_kinds(asked), *theirs])
    return tuple(kind for kind in first if kind in kinds or kind not in HAPPENED)


# Work on these is done with the wheel off: hubs, brakes, joints and dampers at a wheel. Common practice, no source.
_AT_WHEEL = frozenset({"hub_opened", "friction_parts", "bushing_or_mount", "spring_change", "steering_arm"})
_OPENED_AT_WHEEL = frozenset({"joint_opened", "hub_opened", "friction_parts"})


def ticked_beforehand(title: str, kinds: Collection[str]) -> tuple[str, ...]:
    """The kinds of work (slugs) that a finish asks about as likely: a wheel comes off for what is done at it."""
    off = not _AT_WHEEL.isdisjoint(kinds) and not _OPENED_AT_WHEEL.isdisjoint(kinds)
    wheel = ("wheel_off",) if off or at_wheel_said(title) else ()
    return tuple(dict.fromkeys([*kinds, *wheel]))


def other_kinds(first: Collection[str], *, happened: bool = False) -> dict[str, tuple[str, ...]]:
    """The kinds of work (slugs) beside those offered first, by the first system (slug) that each opens.

    Those that open none stand under "" and last; what `happened` to a car is among them only when it is asked for.
    """
    by_system: dict[str, list[str]] = {system: [] for system in [*SYSTEMS, ""]}
    for kind in KINDS:
        if kind not in first and (happened or kind not in HAPPENED):
            by_system[(*TOUCHED_BY.get(kind, ()), "")[0]].append(kind)
    return {system: tuple(theirs) for system, theirs in by_system.items() if theirs}


def refuse_kinds(kinds: Collection[str]) -> str | None:
    """Why these kinds of work (slugs) are not one job: nobody drives a car that he is working on."""
    return DRIVE_APART if "driven" in kinds and not NO_WORK.issuperset(kinds) else None
