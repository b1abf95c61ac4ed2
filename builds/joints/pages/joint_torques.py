"""The joints that jobs open, with their figures, as a job card or a sheet prints them."""

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass

from builds.joints.engine.joints import opens
from builds.joints.facts import coming_work
from builds.joints.models import Joint
from builds.joints.pages.words import joint_torque_words
from builds.work.models.job import Job
from garage.models import Garage

NO_FIGURE = "no figure on record: look it up at the maker's"


@dataclass(frozen=True)
class TorqueRow:
    """A joint to be torqued again: `figure` with its unit, `note` says from where and by what."""

    joint: int
    name: str
    figure: str
    note: str
    safety: bool

    def __str__(self) -> str:
        rest = f" ({self.note})" if self.note else ""
        return f"{self.name}: {self.figure}{rest}"


def torque_rows(garage: Garage, jobs: Iterable[Job]) -> dict[int, list[TorqueRow]]:
    """Of each job (pk) the kept joints of its car that it opens, by name; one query."""
    wanted = [job for job in jobs if job.kinds]
    joints: dict[int, list[Joint]] = defaultdict(list)
    cars = {job.vehicle_id for job in wanted}
    for joint in Joint.objects.in_garage(garage).kept().filter(vehicle__in=cars):
        joints[joint.vehicle_id].append(joint)
    return {
        job.pk: [_row(joint, garage.units) for joint in joints[job.vehicle_id] if opens(joint, coming_work(job))]
        for job in wanted
    }


def _row(joint: Joint, units: str) -> TorqueRow:
    beside = [joint.thread, joint.klass, joint.figure_from, joint.wrench]
    return TorqueRow(
        joint.pk,
        joint.name,
        joint_torque_words(joint, units) or NO_FIGURE,
        ", ".join(filter(None, beside)),
        joint.safety,
    )
