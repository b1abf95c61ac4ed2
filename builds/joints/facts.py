"""The joints of cars as they stand: last mark, what opened them, when the car first ran."""

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime

from django.db.models import Count

from builds.joints.engine.joints import JointState, Marked, opens, state_of
from builds.joints.models import Joint, JointMark
from builds.work.engine.car_work import RAN, CarWork
from builds.work.facts.car_works import works_of
from builds.work.models.job import Job
from builds.work.models.span import Span
from garage.models import Garage, Vehicle


@dataclass(frozen=True)
class JointLine:
    """A joint with its last torque mark and how it stands; `version` counts what was put on it."""

    joint: Joint
    mark: JointMark | None
    standing: JointState
    version: int

    @property
    def signed(self) -> JointMark | None:
        return getattr(self.mark, "signed_by", None) if self.mark else None


def coming_work(job: Job) -> CarWork:
    """A job as work that is not over, to ask what it opens."""
    return CarWork(job.title, frozenset(job.systems), frozenset(job.kinds), None)


def joint_lines(garage: Garage, vehicles: Iterable[Vehicle], at: datetime) -> dict[int, list[JointLine]]:
    """Of each car (pk) its joints, by name; five queries, however many there are."""
    cars = list(vehicles)
    by_car: dict[int, list[JointLine]] = {}
    joints = list(Joint.objects.in_garage(garage).kept().filter(vehicle__in=cars).annotate(count=Count("marks")))
    if not joints:
        return {}
    marks = JointMark.objects.filter(joint__in=joints).torqued().order_by("at", "pk")
    last = {
        mark.joint_id: mark
        for mark in marks.select_related("by__person", "signed_by__by__person", "signed_by__written_by__person")
    }
    # As far back as the oldest mark that counts: nothing older can have opened it since.
    works = works_of(garage, cars, at, min((mark.at for mark in last.values()), default=at))
    for joint in joints:
        mark = last.get(joint.pk)
        done = works.get(joint.vehicle_id, [])
        runs = [work for work in done if RAN in work.kinds] if joint.again_after_run else []
        standing = state_of(
            joint.safety,
            Marked(mark.at, getattr(mark, "signed_by", None) is not None) if mark else None,
            [work for work in done if opens(joint, work)],
            runs,
        )
        by_car.setdefault(joint.vehicle_id, []).append(JointLine(joint, mark, standing, joint.count))
    return by_car


def hands_on(marked: Iterable[tuple[Joint, JointMark]]) -> dict[int, frozenset[int]]:
    """Of each joint (pk), with its last mark, whose (pk) hands were on it since the mark before; three queries.

    Theirs who did the work that opened it, and his who torqued it: none of them is a second pair of eyes.
    """
    pairs = list(marked)
    hands = {joint.pk: {mark.by_id} for joint, mark in pairs}
    if not pairs:
        return {}
    torqued: dict[int, list[datetime]] = defaultdict(list)
    for joint, at in JointMark.objects.torqued().filter(joint__in=list(hands)).values_list("joint_id", "at"):
        torqued[joint].append(at)
    jobs = list(Job.objects.filter(vehicle__in={joint.vehicle_id for joint, _ in pairs}).exclude(kinds=[]))
    spans: dict[int, list[tuple[datetime, datetime | None, int]]] = defaultdict(list)
    rows = Span.objects.filter(job__in=jobs, crew__isnull=False).handled()
    for job, since, until, member in rows.values_list("job_id", "from_at", "until_at", "crew"):
        spans[job].append((since, until, member))
    for joint, mark in pairs:
        before = max((at for at in torqued[joint.pk] if at < mark.at), default=None)
        opening = [job.pk for job in jobs if job.vehicle_id == joint.vehicle_id and opens(joint, coming_work(job))]
        hands[joint.pk] |= {
            member
            for job in opening
            for since, until, member in spans[job]
            if since <= mark.at and (before is None or until is None or until > before)
        }
    return {joint: frozenset(members) for joint, members in hands.items()}
