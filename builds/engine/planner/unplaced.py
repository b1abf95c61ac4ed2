"""Why a job has no place in a plan, in one sentence that says what to change."""

from __future__ import annotations

from .axis import length
from .fields import shown
from .model import NEVER, Model
from .place import Places


def why_unplaced(model: Model, places: Places, j: int) -> str:
    """The first cause that applies, from what no plan could mend to what this plan left over."""
    problem = model.problem
    job, people = problem.jobs[j], problem.people
    names = {row.id: shown(row.name or row.id) for row in (*problem.stations, *people)}
    for first, _, _ in model.before[j]:
        if places.end[first] == NEVER:
            return f"It waits for {problem.jobs[first].label}, which has no place in the plan."
    capacities = {row.id: row.capacity for row in problem.stations}
    for name, units in job.uses.items():
        if units > capacities[name]:
            return f"It uses {units} of {names[name]}, which has only {capacities[name]}."
    if job.hands and job.skill:
        pool = [row for row in people if job.crew is None or row.id in job.crew]
        if not any(job.skill in row.skills for row in pool):
            if job.crew is not None:
                return f"Nobody of the crew that has it in hand can {shown(job.skill)}."
            return f"Nobody can {shown(job.skill)}: teach or lend somebody the skill."
    if not model.crews[j]:
        return _no_hours(model, j)
    return _no_room(model, places, j)


def _no_hours(model: Model, j: int) -> str:
    job = model.problem.jobs[j]
    place_hours = length(model.roster.place_hours(job))
    if place_hours < job.work:
        return (
            f"It needs {job.work} slots, and its own hours and those of its stations leave "
            f"{place_hours}."
        )
    who = "the crew that has it in hand is" if job.crew else "the people who could do it are"
    return f"It needs {job.work} slots, and {who} never there that long within the plan."


def _no_room(model: Model, places: Places, j: int) -> str:
    job = model.problem.jobs[j]
    opens = model.earliest[j]
    cause = "its earliest start"
    for first, wait, ready in model.before[j]:
        ended = places.end[first]
        at = ended + wait if ready is None else ready[ended]
        if at > opens:
            opens, cause = at, f"{model.problem.jobs[first].label} before it"
    if job.pinned is not None:
        if opens > job.pinned:
            return f"It is pinned to slot {job.pinned}, and {cause} opens it at slot {opens} only."
        return f"It is pinned to slot {job.pinned}, when its people or stations are not free."
    if opens + job.work > model.horizon:
        return f"The plan ends at slot {model.horizon}, before it could be done after {cause}."
    if not job.splits and job.work:
        longest = max(
            (end - begin for crew in model.crews[j] for begin, end in _runs(crew.axis.slots)),
            default=0,
        )
        if longest < job.work:
            return (
                f"It needs {job.work} slots on end, and the longest window is {longest}: "
                "let it be split, or give it a longer session."
            )
    if any(model.starts[h] == j for h in range(len(model.starts))):
        return (
            "The car would block its station past the end of the plan, or until another car "
            "needs it: free the station earlier, or plan further ahead."
        )
    return (
        f"No room is left for its {job.work} slots before the plan ends at slot "
        f"{model.horizon}: add hours, or plan further ahead."
    )


def _runs(slots: object) -> list[tuple[int, int]]:
    runs: list[tuple[int, int]] = []
    for slot in slots:
        if runs and runs[-1][1] == slot:
            runs[-1] = (runs[-1][0], slot + 1)
        else:
            runs.append((slot, slot + 1))
    return runs
