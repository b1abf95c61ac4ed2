"""Why a job has no place in a plan, in one sentence that says what to change."""

from __future__ import annotations

from collections.abc import Sequence

from .axis import length
from .fields import shown
from .model import NEVER, Model
from .place import Places
from .words import Names, When, duration


def why_unplaced(model: Model, places: Places, j: int, names: Names, when: When) -> str:
    """The first cause that applies, from what no plan could mend to what this plan left over."""
    problem = model.problem
    job = problem.jobs[j]
    for first, _, _ in model.before[j]:
        if places.end[first] == NEVER:
            return f"It waits for {problem.jobs[first].label}, which has no place in the plan."
    capacities = {row.id: row.capacity for row in problem.stations}
    for name, units in job.uses.items():
        if units > capacities[name] and job.work:
            return f"It uses {units} of {names.station[name]}, which has only {capacities[name]}."
    if job.hands and job.skill:
        pool = [row for row in problem.people if job.crew is None or row.id in job.crew]
        if not any(job.skill in row.skills for row in pool):
            if job.crew is not None:
                return f"Nobody of the crew that has it in hand can {shown(job.skill)}."
            return f"Nobody can {shown(job.skill)}: teach or lend somebody the skill."
    if not model.crews[j]:
        return _no_hours(model, j)
    return _no_room(model, places, j, when)


def _no_hours(model: Model, j: int) -> str:
    job = model.problem.jobs[j]
    needs = f"It needs {duration(job.work, model.problem.slot_minutes)}, and"
    left = length(model.roster.place_hours(job))
    if left < job.work:
        hours = duration(left, model.problem.slot_minutes)
        return f"{needs} its own hours and those of its stations leave {hours} within the plan."
    who = "the crew that has it in hand is" if job.crew else "the people who could do it are"
    return f"{needs} {who} never in that long within the plan."


def _no_room(model: Model, places: Places, j: int, when: When) -> str:
    job, minutes = model.problem.jobs[j], model.problem.slot_minutes
    needs, ends = duration(job.work, minutes), when(model.horizon)
    opens, cause = model.earliest[j], job.waits_for or "its earliest start"
    for first, wait, ready in model.before[j]:
        ended = places.end[first]
        at = ended + wait if ready is None else ready[ended]
        if at > opens:
            opens, cause = at, f"{model.problem.jobs[first].label} before it"
    if job.pinned is not None:
        pin = f"It is pinned to {when(job.pinned)}"
        if opens > job.pinned:
            return f"{pin}, and {cause} does not let it start by then."
        return f"{pin}, when its people or stations are not free for it."
    if opens + job.work > model.horizon:
        return f"The plan ends ({ends}) before it could be done after {cause}."
    if not job.splits:
        longest = max(_longest_run(crew.axis.slots) for crew in model.crews[j])
        if longest < job.work:
            return (
                f"It needs {needs} on end, and the longest session for it is "
                f"{duration(longest, minutes)}: let it be split, or give it a longer session."
            )
    if j in model.starts:
        return (
            "Its car would block a station past the end of the plan, or until another car needs "
            "it: free the station, or plan further ahead."
        )
    return f"No room is left for its {needs} before the plan ends ({ends}): add hours or plan ahead."


def _longest_run(slots: Sequence[int]) -> int:
    longest = run = 0
    last = None
    for slot in slots:
        run = run + 1 if last is not None and slot == last + 1 else 1
        longest, last = max(longest, run), slot
    return longest
