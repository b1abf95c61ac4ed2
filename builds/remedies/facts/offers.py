"""Changes that only the garage knows of: free evenings, parts on order, a heater, other cars.

How long a session is and how warm a heater makes it is common practice, no source.
"""

from collections.abc import Iterable, Iterator
from copy import copy
from dataclasses import replace
from datetime import date, timedelta

from builds.cure.engine.plan_clock import SLOT_MINUTES
from builds.cure.models.shop import HeatedHours
from builds.plan.engine.ids import id_of, is_fact, pk_of
from builds.plan.facts import jobs as plan_jobs
from builds.plan.facts import links as plan_links
from builds.plan.facts.problem import NO_EVENT_WEIGHT
from builds.plan.facts.rows import PlanRows
from builds.planner.axis import clip, joined
from builds.planner.problem import Job, Link
from builds.remedies.engine.changes import (
    HEAT,
    PART_A_DAY,
    Change,
    ExtraSession,
    Hands,
    Sooner,
    StayHome,
)
from builds.remedies.engine.standing import musts
from builds.remedies.facts.deeds import Deed, codes
from builds.remedies.facts.quest import Quest, wall_hours
from builds.work.facts.cure_times import CureTimes
from builds.work.models.need import Need
from garage.engine.presence import wall_moment
from garage.models import DayHours, Entry

EVENING = ((18 * 60 + 30, 22 * 60),)
WEEKEND = ((8 * 60, 13 * 60), (14 * 60, 20 * 60))
SHORTEST = 4  # slots: for less than an hour nobody comes
MOST_SESSIONS, MOST_HANDS, MOST_SKILLS = 8, 4, 3
DAYS_SOONER, MOST_HEATERS, MOST_CARS = 3, 3, 4
WARM_MC, LONGEST_HEAT, SHORTEST_CURE = 20_000, 48, 8  # slots


def offers(quest: Quest) -> tuple[Change, ...]:
    return (
        *_sessions(quest),
        *_hands(quest),
        *_parts(quest),
        *_heaters(quest),
        *_other_cars(quest),
    )


def _spread(found: list[tuple[int, int]], most: int) -> list[tuple[int, int]]:
    """At most so many of them, the first and the last among them."""
    if len(found) <= most:
        return found
    return [found[k * (len(found) - 1) // (most - 1)] for k in range(most)]


def hours_of(begin: int, end: int) -> float:
    return (end - begin) * SLOT_MINUTES / 60


def _sessions(quest: Quest) -> Iterator[Change]:
    """Each one's free evenings and weekends until the car leaves; a day off stays one."""
    windows = {row.id: clip(row.windows, quest.problem.slots) for row in quest.problem.people}
    for member in quest.rows.members:
        name = id_of("person", member.pk)
        off = {row.day for row in member.day_hours.all() if row.kind == DayHours.Kind.OFF}
        found = [
            piece
            for day in _days(quest)
            if day not in off
            for piece in _free(_evening(quest, day), windows[name], quest.due)
        ]
        for begin, end in _spread(found, MOST_SESSIONS):
            yield ExtraSession(name, begin, end, hours_of(begin, end))


def _days(quest: Quest) -> Iterator[date]:
    day, last = quest.clock.moment(0).date(), quest.clock.moment(quest.due).date()
    while day <= last:
        yield day
        day += timedelta(days=1)


def _evening(quest: Quest, day: date) -> Iterator[tuple[int, int]]:
    """When people usually come on such a day, in slots."""
    for since, until in WEEKEND if day.weekday() > 4 else EVENING:
        begin, end = (wall_moment(day, minute, quest.rows.zone) for minute in (since, until))
        yield max(0, quest.clock.first_from(begin)), quest.clock.last_until(end)


def _free(stretches: Iterable[tuple[int, int]], taken: Iterable[tuple[int, int]], due: int) -> list[tuple[int, int]]:
    """What the windows leave of each stretch before the slot, pieces of an hour and more."""
    found = []
    for begin, end in stretches:
        for since, until in taken:
            if since < end and begin < until:
                found.append((begin, since))
                begin = until
        found.append((begin, end))
    cut = ((begin, min(end, due)) for begin, end in found)
    return [(begin, end) for begin, end in cut if end - begin >= SHORTEST]


def _hands(quest: Quest) -> Iterator[Change]:
    """Somebody new in sessions that there are, for what the car's work asks most of."""
    work: dict[str | None, int] = {}
    for job in musts(quest.problem, quest.vehicle):
        if job.hands:
            skill = quest.rows.work.jobs[pk_of(job.id)].skill.slug if job.skill else None
            work[skill] = work.get(skill, 0) + job.work
    presence = joined(clip(row.windows, quest.due) for row in quest.problem.people)
    sessions = [piece for piece in presence if piece[1] - piece[0] >= SHORTEST]
    sessions = [piece for piece in sessions if _on_one_day(quest, piece)]
    for skill in sorted(work, key=lambda skill: -work[skill])[:MOST_SKILLS]:
        for begin, end in _spread(sessions, MOST_HANDS):
            yield Hands(skill, begin, end, hours_of(begin, end), quest.rows.skill_ids(skill) if skill else ())


def _on_one_day(quest: Quest, piece: tuple[int, int]) -> bool:
    day, since, until = wall_hours(quest.clock, *piece)
    begin = quest.clock.first_from(wall_moment(day, since, quest.rows.zone))
    return (begin, quest.clock.last_until(wall_moment(day, until, quest.rows.zone))) == piece


def _parts(quest: Quest) -> Iterator[Change]:
    """Each part that the car's work waits for, some days sooner."""
    today = quest.clock.moment(0).date()
    for job in musts(quest.problem, quest.vehicle):
        for need in quest.rows.needs.get(pk_of(job.id), ()) if not is_fact(job.id) else ():
            for days in range(1, DAYS_SOONER + 1):
                if need.expected_on and need.expected_on - timedelta(days=days) >= today:
                    day = need.expected_on - timedelta(days=days)
                    if change := part_sooner(quest, need, day):
                        yield change


def part_sooner(quest: Quest, need: Need, day: date) -> Sooner | None:
    """The part expected on that day; None when that lets no job begin sooner."""
    row = copy(need)
    row.expected_on = day
    others = (other for other in quest.rows.needs[need.job_id] if other.pk != need.pk)
    needs = {**quest.rows.needs, need.job_id: [*others, row]}
    days = (need.expected_on - day).days if need.expected_on else 1
    deed = Deed("part", (need.pk,), day)
    return _sooner(quest, "part", (deed,), PART_A_DAY * days, replace(quest.rows, needs=needs))


def _heaters(quest: Quest) -> Iterator[Change]:
    """A warmer shop from the beginning of a cure that the car's work waits for."""
    ends = {row.id: row.end for row in quest.plan.placed}
    mine = {job.id for job in musts(quest.problem, quest.vehicle)}
    spans = {(0, min(job.earliest, LONGEST_HEAT)) for job in _curing(quest)}
    for link in quest.problem.links:
        if link.ready and link.after in mine and link.before in ends:
            begin = ends[link.before]
            spans.add((begin, min(link.opens(begin), begin + LONGEST_HEAT, quest.problem.slots)))
    long = sorted(span for span in spans if span[1] - span[0] >= SHORTEST_CURE)
    for begin, end in long[:MOST_HEATERS]:
        if change := heater(quest, tuple(_heat_deeds(quest, begin, end))):
            yield change


def _curing(quest: Quest) -> Iterator[Job]:
    """Work of the car that waits for a cure that runs already."""
    work = quest.rows.work
    for job in musts(quest.problem, quest.vehicle):
        for joint in work.waits.get(pk_of(job.id), ()):
            if joint.before not in work.jobs and work.times.cure_of(joint):
                yield job


def _heat_deeds(quest: Quest, begin: int, end: int) -> Iterator[Deed]:
    """The span of slots as hours of single days."""
    while begin < end:
        day, since, until = wall_hours(quest.clock, begin, end)
        yield Deed("heat", (since, until, WARM_MC), day)
        begin = quest.clock.first_from(wall_moment(day + timedelta(days=1), 0, quest.rows.zone))


def heater(quest: Quest, deeds: tuple[Deed, ...]) -> Sooner | None:
    """The shop heated at these times; None when nothing is ready sooner for it."""
    now = quest.rows.work.times
    times = CureTimes(now.garage, quest.rows.at)
    times.products = now.products
    times.shop.days, times.shop.readings = now.shop.days, now.shop.readings
    times.shop.heated = [*now.shop.heated, *map(_heated, deeds)]
    rows = replace(quest.rows, work=replace(quest.rows.work, times=times))
    return _sooner(quest, "heat", deeds, HEAT, rows)


def _heated(deed: Deed) -> HeatedHours:
    since, until, warm_mc = deed.numbers
    return HeatedHours(day=deed.day, from_minute=since, until_minute=until, warm_mc=warm_mc)


def _sooner(quest: Quest, kind: str, deeds: tuple[Deed, ...], effort: float, rows: PlanRows) -> Sooner | None:
    """What these rows let begin sooner than those of the quest."""
    slots = quest.problem.slots
    jobs, _ = plan_jobs.jobs(rows, quest.clock, slots)
    was = {job.id: job for job in quest.problem.jobs}
    waited = {(link.before, link.after): link for link in quest.problem.links}
    links: list[Link] = [
        link for link in plan_links.links(rows, slots) if link.ready != waited[link.before, link.after].ready
    ]
    changed = tuple(job for job in jobs if _release(job) != _release(was[job.id]))
    if not changed and not links:
        return None
    what = " ".join(f"{quest.book.told(deed)}." for deed in deeds)
    return Sooner(kind, what, effort, changed, tuple(links), codes(deeds))


def _release(job: Job) -> tuple[object, ...]:
    return job.earliest, job.waits_for, job.windows


def _other_cars(quest: Quest) -> Iterator[Change]:
    """Each other car that must leave, the one that counts least first."""
    rows = [row for car, row in quest.rows.entry.items() if car != quest.entry.vehicle_id]
    rows.sort(key=lambda entry: (entry.weight, entry.pk))
    for entry in rows[:MOST_CARS]:
        if musts(quest.problem, id_of("car", entry.vehicle_id)):
            yield stay_home(quest, entry)


def stay_home(quest: Quest, entry: Entry) -> StayHome:
    """The car not entered: its next event counts, if it has one."""
    ahead = [
        row
        for row in quest.book.entries.values()
        if row.vehicle_id == entry.vehicle_id and row.pk != entry.pk and row.event.due_at > quest.rows.at
    ]
    after = min(ahead, key=lambda row: row.event.due_at, default=None)
    due = after and min(quest.clock.last_until(after.event.due_at), quest.problem.slots)
    weight = after.weight if after else NO_EVENT_WEIGHT
    return StayHome(id_of("car", entry.vehicle_id), due, weight, entry.weight)
