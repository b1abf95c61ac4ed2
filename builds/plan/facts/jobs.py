"""Open jobs as the planner takes them: what is left of each, who has it in hand, its earliest."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace
from datetime import timedelta

from builds.cure.engine.plan_clock import PlanClock, slots_for
from builds.plan.engine import why
from builds.plan.engine.ids import id_of
from builds.plan.facts import apart, corners, looks, nights
from builds.plan.facts.rows import PlanRows
from builds.planner.axis import clip, joined, overlap
from builds.planner.fields import Windows
from builds.planner.problem import Job
from builds.work.engine.half_done import in_one_sitting, may_split
from builds.work.models.job import Job as JobRow
from builds.work.models.need import Need
from builds.work.models.states import STARTED_STATES, State
from garage.engine.presence import wall_moment


def jobs(
    rows: PlanRows, clock: PlanClock, slots: int, hours: Mapping[str, Windows]
) -> tuple[tuple[Job, ...], dict[str, str]]:
    """The open jobs, and by id a sentence for each that no plan can place as things are.

    A moment past the last of `slots` counts as that: how far past makes no difference. `hours` are those of people
    (ids), in slots.
    """
    nowhere = _too_cold(rows, slots) | nights.refused(rows) | apart.refused(rows)
    own, places, clears = apart.uses(rows), corners.uses(rows), apart.clears(rows)
    asked = (
        (job, _with_uses(_job(job, rows, clock, slots), own[job.pk] | places[job.pk], clears.get(job.pk, 0)))
        for job in rows.work.jobs.values()
    )
    looked = (looks.with_looks(planned, job, rows, clock, hours) for job, planned in asked)
    return tuple(_nowhere(job) if job.id in nowhere else job for job in looked), nowhere | _too_few_people(rows)


def in_one_go(rows: PlanRows) -> frozenset[str]:
    """Jobs (ids) that had better be done in one sitting, and that nobody has begun."""
    jobs = rows.work.jobs.values()
    return frozenset(id_of("job", job.pk) for job in jobs if in_one_sitting(job) and not rows.work.spans[job.pk])


def _with_uses(job: Job, units: dict[str, int], clears: int) -> Job:
    return replace(job, uses={**job.uses, **units}, clears=clears) if units else job


def _too_few_people(rows: PlanRows) -> dict[str, str]:
    """Jobs that want more people than there are: they have a place once somebody comes."""
    people = {job.vehicle_id: 0 for job in rows.work.jobs.values()}
    for car in people:
        people[car] = sum(car not in rows.not_on(member) for member in rows.members)
    return {
        id_of("job", job.pk): why.too_few_people(job.hands, people[job.vehicle_id], here=len(rows.members))
        for job in rows.work.jobs.values()
        if job.hands > people[job.vehicle_id] and not _crew(job, rows) and not nights.night_of(job, rows)
    }


def _too_cold(rows: PlanRows, slots: int) -> dict[str, str]:
    """Jobs for which the shop is at no time of the plan warm and dry enough."""
    return {
        id_of("job", job.pk): why.TOO_COLD
        for job in rows.work.jobs.values()
        if job.state != State.IN_HAND and not nights.night_of(job, rows) and rows.work.times.windows(job, slots) == ()
    }


def _crew(job: JobRow, rows: PlanRows) -> tuple[str, ...]:
    """Who has the job in hand, of those who count as hands."""
    if job.state != State.IN_HAND:
        return ()
    here = {member.pk for member in rows.members}
    return tuple(id_of("person", member.pk) for member in rows.work.crew(job.pk) if member.pk in here)


def _work(job: JobRow, rows: PlanRows) -> int:
    """Slots still to do; an untouched job of no length stays one."""
    if job.state == State.OPEN and job.left_minutes is None:
        return slots_for(job.likely_minutes)
    return slots_for(rows.work.left(job.pk))


def _job(job: JobRow, rows: PlanRows, clock: PlanClock, slots: int) -> Job:
    """A job in hand keeps its crew, and asks for no skill and no weather: that they do it is a fact."""
    entry, crew = rows.leaves(job.vehicle_id), _crew(job, rows)
    asked, night = rows.asked_skill(job), nights.night_of(job, rows)
    earliest, waits_for = _earliest(job, rows, clock)
    planned = Job(
        id=id_of("job", job.pk),
        vehicle=id_of("car", job.vehicle_id),
        rank=job.rank,
        work=_work(job, rows),
        hands=len(crew) or job.hands,
        skill=asked.id if asked and not crew else None,
        crew=crew or None,
        windows=None if crew else _windows(job, rows, clock, slots),
        weight=job.weight,
        uses={id_of("station", use.station_id): use.units for use in rows.uses.get(job.pk, ())},
        splits=may_split(job),
        earliest=min(earliest, slots),
        waits_for=waits_for or None,
        due=min(clock.last_until(entry.event.due_at), slots) if entry else None,
        title=job.title.strip() or None,
        pinned=_pinned(job, clock, slots),
        started=job.state == State.IN_HAND,
    )
    return nights.overnight(planned, job, night, clock, slots) if night else planned


def _windows(job: JobRow, rows: PlanRows, clock: PlanClock, slots: int) -> Windows | None:
    """When it can be worked at all: warm and dry enough, and its car at home.

    Whether a car that is not ready goes at all nobody knows: what it must have is planned on as if it stayed.
    """
    weather = rows.work.times.windows(job, slots)
    away = [
        (clock.last_until(leaves), clock.first_from(back))
        for leaves, back in rows.away.get(job.vehicle_id, ())
        if not job.must_do or leaves <= rows.at
    ]
    if not away:
        return weather
    gone = joined([clip(away, slots)])
    home = zip((0, *(back for _, back in gone)), (*(leaves for leaves, _ in gone), slots), strict=True)
    return overlap(clip(weather, slots), [(begin, end) for begin, end in home if begin < end])


def _nowhere(job: Job) -> Job:
    """A job that is refused, so that it has no place: what waits for it has none either."""
    return replace(job, work=max(job.work, 1), hands=0, skill=None, windows=())


def _earliest(job: JobRow, rows: PlanRows, clock: PlanClock) -> tuple[int, str]:
    """The first slot that dates, parts and running waits allow, and what comes at it, in words."""
    if job.state == State.IN_HAND:
        return 0, ""
    allowed = [*_but_for_parts(job, rows, clock), *_parts(rows.needs.get(job.pk, ()), rows, clock)]
    return max(allowed, key=lambda slot_and_words: slot_and_words[0])


def _parts(needs: Iterable[Need], rows: PlanRows, clock: PlanClock) -> Iterator[tuple[int, str]]:
    for need in needs:
        if comes_on := rows.comes_on(need):
            slot = clock.first_from(wall_moment(comes_on, 0, rows.zone))
            yield slot, why.part_expected(need.what, comes_on, ordered=bool(need.expected_on))


def _but_for_parts(job: JobRow, rows: PlanRows, clock: PlanClock) -> list[tuple[int, str]]:
    allowed = [(0, ""), *_running_waits(job.pk, rows, clock)]
    if job.earliest_at:
        allowed.append((clock.first_from(job.earliest_at), ""))
    for still in apart.air_clears(job, rows):
        clear = rows.at + timedelta(minutes=still.minutes)
        allowed.append((clock.first_from(clear), why.air_clears(still.work.title, clear, clock)))
    return allowed


def opens(rows: PlanRows, clock: PlanClock) -> dict[str, int]:
    """The first slots at which all but their parts let open jobs (ids) start, where that is not at once."""
    first = {pk: max(_but_for_parts(job, rows, clock))[0] for pk, job in rows.work.jobs.items()}
    return {id_of("job", pk): slot for pk, slot in first.items() if slot > 0}


def if_ordered(rows: PlanRows, clock: PlanClock) -> dict[str, int]:
    """The first slots at which open jobs (ids) that wait for a part which nobody has ordered could start with it."""
    slots = {}
    for pk, job in rows.work.jobs.items():
        ordered = [need for need in rows.needs.get(pk, ()) if need.expected_on]
        if any(rows.comes_on(need) for need in rows.needs.get(pk, ()) if not need.expected_on):
            allowed = [*_but_for_parts(job, rows, clock), *_parts(ordered, rows, clock)]
            slots[id_of("job", pk)] = max(slot for slot, _ in allowed)
    return slots


def _running_waits(job: int, rows: PlanRows, clock: PlanClock) -> Iterator[tuple[int, str]]:
    """Slots at which the waits that finished jobs began let this one (pk) start, with their words."""
    work = rows.work
    for wait in work.waits.get(job, ()):
        before = work.before[wait.before]
        if wait.before not in work.jobs and (ready := work.times.ready_at(wait, before)):
            yield clock.first_from(ready), why.wait_over(before.title, wait.why, ready, clock)


def _pinned(job: JobRow, clock: PlanClock, slots: int) -> int | None:
    """The slot of a pinned start that is still ahead of work that has not begun."""
    if job.pinned_at is None or job.state in STARTED_STATES:
        return None
    slot = clock.first_from(job.pinned_at)
    return min(slot, slots) if slot >= 0 else None
