"""The joints of cars as they stand: last mark, what opened them, when the car first ran."""

from collections import defaultdict
from collections.abc import Collection, Iterable
from dataclasses import dataclass
from datetime import datetime
from typing import Any, NamedTuple
from zoneinfo import ZoneInfo

from django.db.models import Count, OuterRef, Subquery

from builds.joints.engine.joints import JointState, Marked, opens, state_of, why_off
from builds.joints.models import Joint, JointMark
from builds.readings.engine.kinds_of_work import disturbed_by
from builds.readings.facts.instruments import Instrument, instruments_of, run_out
from builds.readings.facts.seen import seen_works
from builds.work.engine.car_work import RUNNING, CarWork
from builds.work.facts.car_works import works_of
from builds.work.facts.runs import RunsByCar
from builds.work.models.job import Job
from builds.work.models.span import Span
from garage.models import Garage, Vehicle
from garage.remembered import remembered

# What a joint is told of its last mark.
LAST_MARK = {"mark": "pk", "mark_at": "at", "used": "wrench", "brought_to": "torque_mnm", "told": "note"}
# From when until when (None while it goes on) whose (pk) hands were on work.
Worked = tuple[datetime, datetime | None, int]


class WorkedJob(NamedTuple):
    """A job of a car (pk) as work to ask what it opens, and who was on it."""

    car: int
    work: CarWork
    stretches: list[Worked]


@dataclass(frozen=True)
class JointLine:
    """A joint with its last torque mark and how it stands."""

    joint: Joint
    mark: JointMark | None
    standing: JointState

    @property
    def signed(self) -> JointMark | None:
        return getattr(self.mark, "signed_by", None) if self.mark else None


def coming_work(job: Job) -> CarWork:
    """A job as work that is not over, to ask what it opens."""
    return CarWork(job.title, frozenset(job.systems), frozenset(job.kinds), None)


@dataclass(frozen=True)
class JointStanding:
    """A joint with the pk of its last torque mark and its moment, if it has one, and how it stands."""

    joint: Joint
    mark: int | None
    standing: JointState
    since: datetime | None = None


def joint_standings(
    garage: Garage, vehicles: Iterable[Vehicle], at: datetime, runs: RunsByCar | None = None
) -> dict[int, list[JointStanding]]:
    """Of each car (pk) its joints, by name; seven queries, one more where a wrench is named, one less with `runs`."""
    cars = list(vehicles)
    newest = JointMark.objects.filter(joint=OuterRef("pk")).torqued().order_by("-at", "-pk")
    rows = Joint.objects.in_garage(garage).kept().filter(vehicle__in=cars)
    last = {name: Subquery(newest.values(of)[:1]) for name, of in LAST_MARK.items()}
    signed = Subquery(JointMark.objects.filter(signs=OuterRef("mark")).values("at"))
    joints = list(rows.annotate(**last).annotate(signed_at=signed))
    if not joints:
        return {}
    _pass_over_ahead(joints, at)
    # As far back as the oldest mark that counts: nothing older can have opened it since.
    back = min((joint.mark_at for joint in joints if joint.mark_at), default=at)
    asked = {kind for joint in joints for kind in disturbed_by(joint.opened_by)}
    asked |= {RUNNING} if any(joint.again_after_run for joint in joints) else set()
    works = works_of(garage, cars, at, back=back, kinds=asked, runs=runs)
    named = any(joint.mark and (joint.used or joint.wrench) for joint in joints)
    instruments, zone = instruments_of(garage) if named else (), ZoneInfo(garage.time_zone)
    seen, by_car = seen_works(garage, back), defaultdict[int, list[JointStanding]](list)
    for joint in joints:
        done = [*works.get(joint.vehicle_id, ()), *seen.get(joint.vehicle_id, ())]
        standing = state_of(
            joint.safety,
            _marked(joint, instruments, zone, garage.units, at),
            [work for work in done if opens(joint, work)],
            [work for work in done if RUNNING in work.kinds] if joint.again_after_run else [],
        )
        by_car[joint.vehicle_id].append(JointStanding(joint, joint.mark, standing, joint.mark_at))
    return dict(by_car)


def _pass_over_ahead(joints: Iterable[Any], at: datetime) -> None:
    """Of a mark that was written down for a day to come the next one that was put on after it counts before it."""
    for joint in joints:
        if not joint.mark or joint.mark_at <= at:
            continue
        if mark := JointMark.objects.filter(joint=joint).put_on_after(joint.mark, at).first():
            for name, of in LAST_MARK.items():
                setattr(joint, name, getattr(mark, of))
            joint.signed_at = JointMark.objects.filter(signs=mark).values_list("at", flat=True).first()


def _marked(joint: Any, instruments: Iterable[Instrument], zone: ZoneInfo, units: str, at: datetime) -> Marked | None:
    """Torqued with the wrench that the mark names, else with the joint's own."""
    if not joint.mark:
        return None
    out = run_out(joint.used or joint.wrench, joint.mark_at, instruments, zone)
    off = why_off(joint.brought_to, joint.figure_mnm, joint.told, units)
    last = max(filter(None, [joint.mark_at, joint.signed_at]))
    ahead = last.astimezone(zone).date() if last > at else None
    return Marked(joint.mark_at, joint.signed_at is not None, out, off, ahead)


def joint_lines(
    garage: Garage, vehicles: Iterable[Vehicle], at: datetime, runs: RunsByCar | None = None
) -> dict[int, list[JointLine]]:
    """As `joint_standings` with the marks and who put them on; one query more, none where they are remembered."""
    standings = joint_standings(garage, vehicles, at, runs)
    marks = _marks(garage, {joint.mark for joints in standings.values() for joint in joints if joint.mark})
    return {
        car: [JointLine(joint.joint, marks.get(joint.joint.pk), joint.standing) for joint in joints]
        for car, joints in standings.items()
    }


def _marks(garage: Garage, pks: set[int]) -> dict[int, JointMark]:
    """These, by the pk of their joint, with who put them on and who looked."""
    known = remembered(garage, "joint_marks", dict[int, JointMark])
    if left := pks - known.keys():
        people = ("by__person", "signed_by__by__person", "signed_by__written_by__person")
        known |= JointMark.objects.select_related(*people).in_bulk(left)
    return {known[pk].joint_id: known[pk] for pk in pks}


def puts_of(lines: Iterable[JointLine]) -> dict[int, int]:
    """How many marks and signatures were put on each joint (pk); one query."""
    marks = JointMark.objects.filter(joint__in=[line.joint.pk for line in lines]).order_by()
    return dict(marks.values_list("joint").annotate(Count("pk")))


def hands_to_sign(garage: Garage, lines: Iterable[JointLine]) -> dict[int, frozenset[int]]:
    """As `hands_on`, of those lines whose mark waits for a look; no query where they are remembered."""
    waiting = [(line.joint, line.mark) for line in lines if line.mark and line.standing.state == "unsigned"]
    known = remembered(garage, "hands_to_sign", dict[int, frozenset[int]])
    if left := [(joint, mark) for joint, mark in waiting if mark.pk not in known]:
        hands = hands_on(left)
        known |= {mark.pk: hands[joint.pk] for joint, mark in left}
    return {joint.pk: known[mark.pk] for joint, mark in waiting}


def hands_on(marked: Iterable[tuple[Joint, JointMark]]) -> dict[int, frozenset[int]]:
    """Of each joint (pk), with its last mark, whose (pk) hands were on it since the mark before; two queries.

    Theirs who did the work that opened it, and his who torqued it: none of them is a second pair of eyes.
    """
    pairs = list(marked)
    hands = {joint.pk: {mark.by_id} for joint, mark in pairs}
    if not pairs:
        return {}
    torqued: dict[int, list[datetime]] = defaultdict(list)
    for joint, at in JointMark.objects.torqued().filter(joint__in=list(hands)).values_list("joint_id", "at"):
        torqued[joint].append(at)
    before = {joint.pk: max((at for at in torqued[joint.pk] if at < mark.at), default=None) for joint, mark in pairs}
    jobs = _worked({joint.vehicle_id for joint, _ in pairs}, before.values())
    for joint, mark in pairs:
        since_then = before[joint.pk]
        opening = (job for job in jobs if job.car == joint.vehicle_id and opens(joint, job.work))
        hands[joint.pk] |= {
            member
            for job in opening
            for since, until, member in job.stretches
            if since <= mark.at and (since_then is None or until is None or until > since_then)
        }
    return {joint: frozenset(members) for joint, members in hands.items()}


def _worked(cars: Collection[int], moments: Iterable[datetime | None]) -> list[WorkedJob]:
    """The work of the cars (pk) that may open a joint, since the first of these moments; None is since ever."""
    back = list(moments)
    rows = Span.objects.filter(job__vehicle__in=cars, crew__isnull=False).exclude(job__kinds=[]).handled()
    if None not in back:
        rows = rows.exclude(until_at__lte=min(moment for moment in back if moment))
    jobs: dict[int, WorkedJob] = {}
    job_told = ("job_id", "job__vehicle_id", "job__title", "job__systems", "job__kinds")
    for pk, car, title, systems, kinds, *stretch in rows.values_list(*job_told, "from_at", "until_at", "crew"):
        if pk not in jobs:
            jobs[pk] = WorkedJob(car, CarWork(title, frozenset(systems), frozenset(kinds), None), [])
        jobs[pk].stretches.append(tuple(stretch))
    return list(jobs.values())
