"""Why a job has no place in a plan, in one sentence that says what to change."""

from __future__ import annotations

from collections.abc import Sequence

from builds.planner.crowds import crowds
from builds.planner.model import NEVER, Model
from builds.planner.never_in import never_in_from, no_crew
from builds.planner.place import Places
from builds.planner.words import Names, When, duration
from garage.engine.words import listed_in_words


def why_unplaced(model: Model, places: Places, j: int, names: Names, when: When) -> str:
    """The first cause that applies, from what no plan could mend to what this plan left over."""
    for first, _, _ in model.before[j]:
        if places.end[first] == NEVER:
            return f"It waits for {model.problem.jobs[first].label}, which has no place in the plan."
    said = _no_station(model, j, names)
    if said:
        return said
    if not model.crews[j]:
        return no_crew(model, j, names)
    return _no_room(model, places, j, names, when)


def _no_station(model: Model, j: int, names: Names) -> str | None:
    """What its stations, or those its car is held in, rule out whatever the plan."""
    problem, job = model.problem, model.problem.jobs[j]
    stations = {station.id: station for station in problem.stations}
    for name, units in job.uses.items():
        if units > stations[name].capacity and job.work:
            return f"It uses {units} of {names.station[name]}, which has only {stations[name].capacity}."
    stands = [name for name in job.uses if stations[name].stands]
    if len(stands) > 1 and job.work:
        return f"Its car cannot stand in {' and in '.join(names.station[name] for name in stands[:2])} at once."
    for hold in problem.holds:
        station, capacity = names.station[hold.station], stations[hold.station].capacity
        if hold.start == job.id and hold.units > capacity:
            return f"From then on its car would take {hold.units} of {station}, which has only {capacity}."
        if j in model.holds.never and hold.vehicle == job.vehicle and stands[0] != hold.station:
            return (
                f"It needs {names.station[stands[0]]} while its car stands stripped in {station}, "
                f"from {names.job(hold.start)} to {names.job(hold.until)}: do it before or after."
            )
    return None


def _no_room(model: Model, places: Places, j: int, names: Names, when: When) -> str:
    job, minutes = model.problem.jobs[j], model.problem.slot_minutes
    needs, ends = duration(job.work, minutes), when(model.horizon)
    opens, cause = model.earliest[j], job.waits_for or "its earliest start"
    for first, wait, ready in model.before[j]:
        ended = places.end[first]
        at = ended + wait if ready is None else ready[ended]
        if at > opens:
            opens, cause = at, model.problem.jobs[first].label
    if job.pinned is not None:
        pin = f"It is pinned to {when(job.pinned)}"
        if opens > job.pinned:
            return f"{pin}, and {cause} does not let it start by then."
        return f"{pin}, when its people or stations are not free for it."
    if opens + job.work > model.horizon:
        return f"The plan ends ({ends}) before it could be done after {cause}."
    if said := never_in_from(model, j, opens, names, when):
        return said
    if not job.splits:
        longest = max(_longest_run(crew.axis.slots) for crew in model.crews[j])
        if longest < job.work:
            return (
                f"It needs {needs} in one go, and the longest session for it is "
                f"{duration(longest, minutes)}: let it be split, or give it a longer session."
            )
    if j in model.holds.starts:
        kept = next(hold.station for hold in model.problem.holds if hold.start == job.id)
        return (
            f"Its car would stand stripped in {names.station[kept]} until after the plan ends ({ends}), or while "
            "another car needs the room: make room, or add hours."
        )
    stripped = _crowded(model, j, names) or _stripped(model, places, j, names)
    return stripped or f"No room is left for its {needs} before the plan ends ({ends}): add hours."


def _crowded(model: Model, j: int, names: Names) -> str | None:
    """More cars stand stripped in a station that it wants than there is room for."""
    problem = model.problem
    for crowd in crowds(problem):
        if crowd.station in problem.jobs[j].uses:
            cars = listed_in_words([names.car(car) for car in crowd.cars])
            return f"{cars} stand stripped in {names.station[crowd.station]}, which has room for {crowd.room}."
    return None


def _stripped(model: Model, places: Places, j: int, names: Names) -> str | None:
    """Its car stands elsewhere, or another in its way, to the end of the plan: what ends that has no place."""
    job = model.problem.jobs[j]
    stations = {station.id: station for station in model.problem.stations}
    stands = {name for name, station in stations.items() if station.stands}
    for hold in model.problem.holds:
        if hold.vehicle == job.vehicle:
            others = stands.intersection(job.uses) - {hold.station}
            car, hindered = "Its car", hold.station in stands and bool(others)
        else:
            left = stations[hold.station].capacity - hold.units
            car, hindered = names.car(hold.vehicle), job.uses.get(hold.station, 0) > left
        first, last = model.number[hold.start], model.number[hold.until]
        if hindered and last != j and places.end[first] != NEVER and places.end[last] == NEVER:
            return (
                f"{car} stands stripped in {names.station[hold.station]} to the end of the plan, "
                f"because {names.job(hold.until)} has no place in it."
            )
    return None


def _longest_run(slots: Sequence[int]) -> int:
    longest = run = 0
    last = None
    for slot in slots:
        run = run + 1 if last is not None and slot == last + 1 else 1
        longest, last = max(longest, run), slot
    return longest
