"""The joints of cars as they stand: last mark, what opened them, when the car first ran."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime

from django.db.models import Count

from builds.joints.engine.joints import JointState, Marked, Opening, state_of
from builds.joints.models import Joint, JointMark
from builds.scrutineering.engine.scrutineering import CarWork
from builds.scrutineering.facts.car_works import works_of
from garage.engine.units import UNITS, quantity_words, unit_for
from garage.models import Garage, Vehicle


@dataclass(frozen=True)
class JointLine:
    """A joint with its last torque mark and how it stands; `version` counts what was put on it."""

    joint: Joint
    mark: JointMark | None
    standing: JointState
    figure: str
    version: int

    @property
    def signed(self) -> JointMark | None:
        return getattr(self.mark, "signed_by", None) if self.mark else None


def figure_words(joint: Joint, system: str) -> str:
    """`110 N·m`, in the garage's unit; empty where the maker's figure is not known."""
    if joint.figure_mnm is None:
        return ""
    return torque_words(joint.figure_mnm, system)


def torque_words(mnm: int, system: str) -> str:
    return quantity_words(mnm, UNITS["mN·m"], unit_for("torque", system))


def opens(joint: Joint, work: CarWork) -> bool:
    """By its kind, and where joint and work both name systems, by one they share."""
    if work.kinds.isdisjoint(joint.opened_by):
        return False
    return not joint.systems or not work.systems or not work.systems.isdisjoint(joint.systems)


def joint_lines(garage: Garage, vehicles: Iterable[Vehicle], at: datetime) -> dict[int, list[JointLine]]:
    """Of each car (pk) its joints, by name; five queries, however many there are."""
    cars = list(vehicles)
    found: dict[int, list[JointLine]] = {}
    joints = list(Joint.objects.in_garage(garage).kept().filter(vehicle__in=cars).annotate(count=Count("marks")))
    if not joints:
        return {}
    marks = JointMark.objects.filter(joint__in=joints).torqued().order_by("at", "pk")
    last = {mark.joint_id: mark for mark in marks.select_related("by__person", "signed_by__by__person")}
    # As far back as the oldest mark that counts: nothing older can have opened it since.
    works = works_of(garage, cars, at, min((mark.at for mark in last.values()), default=at))
    for joint in joints:
        mark = last.get(joint.pk)
        done = works.get(joint.vehicle_id, [])
        openings = [Opening(w.title, w.day, w.ended) for w in done if opens(joint, w)]
        runs = [w.ended for w in done if "first_run" in w.kinds and w.ended]
        standing = state_of(
            joint.safety,
            Marked(mark.at, getattr(mark, "signed_by", None) is not None) if mark else None,
            openings,
            max(runs, default=None) if joint.again_after_run else None,
        )
        line = JointLine(joint, mark, standing, figure_words(joint, garage.units), joint.count)
        found.setdefault(joint.vehicle_id, []).append(line)
    return found
