"""Who may say "I looked", and which finished work the hold points of a recipe look at."""

from collections.abc import Collection, Iterable
from dataclasses import dataclass
from datetime import datetime

from garage.engine.words import listed_in_words

# Kinds of work that leave a joint, a line or a belt that somebody else has to look at.
JOINTS = frozenset(
    {
        "joint_opened",
        "pin_out",
        "jam_nut",
        "length_adjusted",
        "part_weld",
        "chassis_weld",
        "steering_arm",
        "rack_spacer",
        "steering_column",
        "bushing_or_mount",
        "hydraulics_opened",
        "hub_opened",
        "seat_or_belt_moved",
        "fuel_line",
    }
)
NOBODY = "somebody whom the owner lets sign"


@dataclass(frozen=True, slots=True)
class Eyes:
    """A member of the garage; `here` while an owner or a helper, `may_sign` if the owner says so."""

    id: int
    name: str
    here: bool
    may_sign: bool
    owner: bool


@dataclass(frozen=True, slots=True)
class RecipeWork:
    """A job that came with others: `ended` its end, `points` when its hold points were signed.

    A point that nobody has signed is None; those of a dropped job that nobody signed are left out.
    """

    id: int
    systems: frozenset[str]
    ended: datetime | None
    points: tuple[datetime | None, ...] = ()

    def looks_at(self, other: "RecipeWork") -> bool:
        """Whether a point here is about the other's work, and no look came before the work's end."""
        if other.id != self.id and other.systems.isdisjoint(self.systems):
            return False
        ends = [moment for moment in (self.ended, other.ended) if moment]
        return any(signed is None or all(signed >= end for end in ends) for signed in self.points)


def refuse_look(
    who: Eyes, by: Eyes, workers: Collection[int], everybody: Collection[int], *, safety: bool, outsider: str = ""
) -> str | None:
    """Why `who` cannot have looked, as `by` writes it down; None when it counts.

    `workers` are those (ids) whose hands were on the work that is looked at, `everybody` all hands
    of the garage. Of an `outsider` both are the owner who writes his name down. Source: trade rule,
    common practice, no source.
    """
    for member in (who, by):
        if not member.here:
            return f"{member.name} cannot sign here: choose an owner or a helper of this garage."
        if not member.may_sign:
            return f"{member.name} may not sign: the owner says who may, on the page of each person."
    if outsider:
        return None if by.owner else "Only the owner writes down that somebody from outside looked."
    if who.id in workers and not set(everybody) <= set(workers):
        return f"{who.name} worked on this: somebody else has to look at it and sign."
    if who.id in workers and not who.owner:
        return "Everybody here worked on this: the owner looks at it and signs."
    if safety and who.id != by.id and by.id in workers:
        return f"{by.name} worked on this and cannot write down another's look: {who.name} signs it."
    return None


def who_can_look(people: Collection[Eyes], workers: Collection[int]) -> list[Eyes]:
    """`people` are all hands of the garage, `workers` (ids) those whose hands were on what is looked at."""
    everybody = {member.id for member in people}
    return [member for member in people if refuse_look(member, member, workers, everybody, safety=True) is None]


def waits_for(people: Collection[Eyes], workers: Collection[int]) -> str:
    """Who can look at it: `Tove or Priya`; both arguments as of `who_can_look`."""
    able = [member.name for member in who_can_look(people, workers)]
    return listed_in_words(able or [NOBODY], "or")


def gives_up(by: Eyes, people: Collection[Eyes], workers: Collection[int], did: Collection[int]) -> str:
    """What somebody who could look at it gives up by finishing what others `did` (ids); empty where he loses nothing.

    `people` and `workers` as of `who_can_look`: whoever finishes it counts as a hand.
    """
    able = {member.id for member in who_can_look(people, workers)}
    doers = [member.name for member in people if member.id in did]
    if by.id in workers or by.id not in able or not doers:
        return ""
    names, left = listed_in_words(doers, "and"), who_can_look(people, {*workers, by.id})
    others = [member.name for member in left if member.id != by.id]
    then = f"it waits for {listed_in_words(others, 'or')}" if others else "nobody else is left to look at it"
    said = f"{names} worked on it, and whoever finishes it counts as a hand and cannot look at it afterwards."
    return f"{said} If {names} finishes it, you can look at it and sign; if you do, {then}."


def covering(jobs: Iterable[RecipeWork], links: Iterable[tuple[int, int]]) -> dict[int, frozenset[int]]:
    """Of each job (id) those whose hold points look at it: its own, else the next ones after it.

    A point further on looks at a job only if it touches one of its systems; nothing covers a job
    that names none. `links` are (before, after) inside one recipe as it was put onto a car; jobs that
    they name and that are not given have no points. A point that nobody has signed counts, since it
    stands in the verdict itself.
    """
    works = {job.id: job for job in jobs}
    afters: dict[int, list[int]] = {}
    for before, after in links:
        afters.setdefault(before, []).append(after)
    return {pk: frozenset(_next_points(work, works, afters)) for pk, work in works.items()}


def _next_points(work: RecipeWork, works: dict[int, RecipeWork], afters: dict[int, list[int]]) -> set[int]:
    looking: set[int] = set()
    seen, reached = {work.id}, [work.id]
    while reached:
        at = reached.pop()
        if at in works and works[at].looks_at(work):
            looking.add(at)
            continue
        later = [after for after in afters.get(at, []) if after not in seen]
        seen.update(later)
        reached += later
    return looking


def leaves_joint(kinds: Iterable[str]) -> bool:
    return not JOINTS.isdisjoint(kinds)


def wants_look(*, safety: bool, of_recipe: bool, kinds: Iterable[str], covered: bool) -> bool:
    """Whether a job that is done waits to be looked at by itself.

    Work for safety does, unless it came from a recipe and leaves no joint, or one that a hold point
    looks at (`covered`).
    """
    return safety and not (of_recipe and (covered or not leaves_joint(kinds)))
