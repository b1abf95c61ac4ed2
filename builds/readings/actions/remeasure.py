"""Jobs on each car that measure again what work made void, and bleed what it opened, after all of that work."""

from collections.abc import Iterable
from datetime import datetime
from typing import Any

from django.db import transaction

from builds.readings.actions.order import draw_order, hold
from builds.readings.engine import READINGS
from builds.readings.engine.again_job import AgainJob, again_job
from builds.readings.engine.kind_line import KindLine
from builds.readings.engine.kinds_of_work import FOLLOWS_WORK, follows_work, voided_by
from builds.readings.engine.order_of_work import Pair, order_of_work, untaken
from builds.readings.engine.stretches import stretches
from builds.readings.engine.void import AHEAD, LAPSED, MISSING, STANDS, ReadingStanding, to_measure
from builds.readings.facts.finished import finished_work
from builds.readings.facts.readings import readings_of
from builds.readings.facts.work_ahead import WorkAhead, work_ahead
from builds.readings.models.target import RequiredReadings
from builds.work.actions import turn
from builds.work.engine.again import BLEED_AGAIN, MEASURES_AGAIN, TAKEN_AGAIN
from builds.work.models.hold_point import WAITS_FOR_EYES, HoldPoint
from builds.work.models.job import STATE_NOTE_MOST, Job, JobStation
from builds.work.models.states import STARTED_STATES, State
from garage import clock
from garage.models import Garage, Membership, Skill, Station, Vehicle

NOT_NEEDED = "nothing is left to measure that other work does not measure"


@transaction.atomic
def settle(vehicle: Vehicle, *, by: Membership, at: datetime) -> list[Job]:
    """The order of work on this car, and its open jobs that measure again and that bleed again.

    Called after whatever changes what is void: each is made, changed or ended as it must be. None of a sort of
    which nothing must be taken again, or jobs that are there take it all anyway.
    """
    hold(vehicle)
    ahead = work_ahead(vehicle, clock.now())
    open_jobs = Job.objects.on(vehicle).taking_again().open().exclude(state=State.HELD, finished_at__isnull=False)
    there = {job.recipe: job for job in open_jobs}
    was = _told(there.values())
    jobs = _taking_again(vehicle, there, ahead, by=by, at=at)
    draw_order(vehicle, ahead if _told(jobs) == was else None)
    return jobs


def _told(jobs: Iterable[Job]) -> set[tuple[Any, ...]]:
    """What the order of work is drawn from."""
    return {(job.pk, job.title, *job.measures, *job.systems) for job in jobs}


def _taking_again(
    vehicle: Vehicle, there: dict[str, Job], ahead: WorkAhead, *, by: Membership, at: datetime
) -> list[Job]:
    required = RequiredReadings.objects.filter(vehicle=vehicle).first()
    coming = follows_work(kind for other in ahead.others.values() for kind in other.kinds)
    if not there and not (required and required.kinds) and not coming:
        return []
    lines = readings_of(vehicle.garage, [vehicle], at)[vehicle.pk].lines
    done = _done_without(vehicle, lines, there.values(), at)
    asked = [key for job in there.values() for key in job.measures]
    left, links = _left_over(lines, asked, ahead, coming | done)
    bleeds = [key for key in left if key in FOLLOWS_WORK]
    parts = stretches((key for key in left if key not in FOLLOWS_WORK), ahead.others, links)
    wanted = {BLEED_AGAIN: bleeds, **_marked(parts, [job for job in there.values() if job.recipe != BLEED_AGAIN])}
    for again in there.keys() - wanted.keys():
        _end(there[again], lines, by=by, at=at)
    jobs = (
        _follow(vehicle, there.get(again), again_job(again, [lines[key].kind for key in keys]), lines, by=by, at=at)
        for again, keys in wanted.items()
    )
    return [job for job in jobs if job]


def _marked(parts: Iterable[tuple[str, ...]], there: Iterable[Job]) -> dict[str, tuple[str, ...]]:
    """Each stretch of readings (keys) by the mark of its job: the one that took most of them already, begun ones first.

    One that took none of them takes what is new all the same, so that none ends while another is written down.
    """
    free, marked = list(there), dict[str, tuple[str, ...]]()
    unused = [mark for mark in MEASURES_AGAIN if mark not in {job.recipe for job in free}]
    for keys in parts:
        alike = {job.pk: (job.state in STARTED_STATES, len({*job.measures} & {*keys})) for job in free}
        mine = max(free, key=lambda job: (bool(alike[job.pk][1]), *alike[job.pk]), default=None)
        if mine is not None:
            free.remove(mine)
        marked[mine.recipe if mine else unused.pop(0)] = keys
    return marked


def _follow(
    vehicle: Vehicle,
    job: Job | None,
    told: AgainJob | None,
    lines: dict[str, KindLine],
    *,
    by: Membership,
    at: datetime,
) -> Job | None:
    if told is None:
        if job is not None:
            _end(job, lines, by=by, at=at)
        return None
    if job is None:
        return _make(vehicle, told, by=by, at=at)
    _bring_up_to_date(job, told)
    return job


def _done_without(vehicle: Vehicle, lines: dict[str, KindLine], there: Iterable[Job], at: datetime) -> frozenset[str]:
    """Readings (keys) that work which was done is not over without, and that nobody has taken since."""
    taken = {key for key, line in lines.items() if line.work and key in follows_work(line.work.kinds)}
    for job in there:
        missing = {key for key in job.measures if key in FOLLOWS_WORK and lines[key].state == MISSING}
        works = finished_work([vehicle], job.made_at, at).get(vehicle.pk, []) if missing else []
        taken |= missing & follows_work(kind for work in works for kind in work.kinds)
    return frozenset(taken)


def _left_over(
    lines: dict[str, KindLine], asked: Iterable[str], ahead: WorkAhead, follows: frozenset[str]
) -> tuple[list[str], list[Pair]]:
    """Readings (keys) that must be taken and that no other job takes, the garage's own last; and all links of these.

    `asked` are those that a job was to take until now, `follows` those that work is not over without, though the
    car need not have them.
    """
    others = ahead.others
    standing = {key: ReadingStanding(key, line.state, line.work) for key, line in lines.items() if key in READINGS}
    wanted = [key for key, line in lines.items() if line.required or key in follows]
    coming = [other.kinds for other in others.values()]
    need = set(to_measure(standing, wanted, coming)) | follows
    # A note does not mend it: the job stays until the reading has its conditions.
    need |= {key for key in asked if key in READINGS and _is_note(lines[key])}
    need |= {key for key, line in lines.items() if key in READINGS and line.missing and _is_note(line)}
    order = order_of_work(others, ahead.links, ahead.strips, ahead.cut)
    spoilt = voided_by({kind for kinds in coming for kind in kinds})
    own = [
        key
        for key in wanted
        if key not in READINGS and (lines[key].state in LAPSED - {AHEAD} or lines[key].kind.follows in spoilt)
    ]
    links = [*ahead.links, *order]
    return [*untaken(need, others, links, ahead.cut), *own], links


def _is_note(line: KindLine) -> bool:
    return line.required and line.state == STANDS and line.only_a_note


def _bring_up_to_date(job: Job, told: AgainJob) -> None:
    if (job.title, job.measures, job.systems) == (told.title, list(told.measures), list(told.systems)):
        return
    told_fields = _fields(told)
    if job.lowered_because:
        del told_fields["rank"]
    for name, value in told_fields.items():
        setattr(job, name, value)
    job.save(update_fields=[*told_fields])


def _fields(told: AgainJob) -> dict[str, Any]:
    low, likely, high = told.work
    return {
        "title": told.title,
        "measures": list(told.measures),
        "systems": list(told.systems),
        "rank": told.rank,
        "note": told.note,
        "low_minutes": low,
        "likely_minutes": likely,
        "high_minutes": high,
    }


def _make(vehicle: Vehicle, told: AgainJob, *, by: Membership, at: datetime) -> Job:
    """Of no kind of work: it voids nothing. What others have to look at stops it."""
    job = Job.objects.create(
        vehicle=vehicle,
        skill=_skill(vehicle.garage, told.skill),
        recipe=told.again,
        made_by=by,
        made_at=at,
        **_fields(told),
    )
    if told.looked_at:
        HoldPoint.objects.create(job=job, what=told.looked_at)
    station = Station.objects.in_garage(vehicle.garage_id).filter(slug=told.station).first()
    if station is not None:
        JobStation.objects.create(job=job, station=station)
    return job


def _skill(garage: Garage, slug: str) -> Skill | None:
    """The skill of that work, if somebody who works here has it."""
    working = Membership.objects.in_garage(garage).active().working()
    skills = Skill.objects.in_garage(garage).filter(slug=slug)
    return skills.filter(pk__in=working.values("skills")).first()


def _end(job: Job, lines: dict[str, KindLine], *, by: Membership, at: datetime) -> None:
    """Done when what it was for has been measured since; dropped when nothing is void any more."""
    taken = any(
        (line := lines.get(key)) and line.reading and line.reading.written_at >= job.made_at for key in job.measures
    )
    if not taken:
        turn(job, "drop", by=by, at=at, note=NOT_NEEDED, state_note=NOT_NEEDED)
        return
    if job.state == State.HELD:
        turn(job, "release", by=by, at=at, state_note="")
    point = HoldPoint.objects.filter(job=job).unsigned().first()
    note = f"{WAITS_FOR_EYES}: {point}" if point else ""
    after = State.HELD if point else None
    told = {"note": note, "state_note": note[:STATE_NOTE_MOST]}
    turn(job, "finish", by=by, at=at, after=after, crew=[by], finished_at=at, left_minutes=None, **told)


def refuse_by_hand(job: Job, step: str) -> str | None:
    """Why a job that measures again, or bleeds again, cannot take a step by hand: it comes and goes by itself."""
    if job.recipe not in TAKEN_AGAIN:
        return None
    return {
        "finish": "Write the readings down: this job is finished with the last of them.",
        "drop": "It goes by itself once nothing that the car must have is void.",
        "move": "It measures what is void on its own car: it stays there.",
        "reopen": "It comes back by itself as soon as work makes a reading void.",
    }.get(step)
