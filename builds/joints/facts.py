"""The joints of cars as they stand: last mark, what opened them, when the car first ran."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime

from django.db.models import Count

from builds.joints.engine.joints import JointState, Marked, opens, state_of
from builds.joints.models import Joint, JointMark
from builds.work.engine.car_work import RAN, CarWork
from builds.work.facts.car_works import works_of
from builds.work.models.job import Job
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
