"""What the verdict is told of joints and welds, car by car."""

from collections import defaultdict
from datetime import datetime

from builds.engine.verdict import JointFact
from builds.engine.welds import WeldJob, unfinished_weld
from builds.loaders.joints import JointLine, joint_lines
from builds.models import Job
from builds.models.states import FINISHED_STATES, State
from garage.models import Entry, Garage, Vehicle

Found = dict[int, tuple[JointFact, ...]]


def joints_facts(
    garage: Garage, cars: list[Vehicle], at: datetime, entries: dict[int, Entry]
) -> Found:
    """Of each car (pk) its joints that do not stand, and its welds that are not inspected.

    A joint that is no safety joint is a reason only while it is loose. Six queries at most.
    """
    lines = joint_lines(garage, cars, at)
    welds = weld_facts(cars)
    return {
        car.pk: (
            *welds[car.pk],
            *(
                JointFact(line.joint.pk, line.joint.name, _state(line), line.standing.words)
                for line in lines.get(car.pk, ())
                if line.standing.state != "stands"
            ),
        )
        for car in cars
    }


def _state(line: JointLine) -> str:
    loose = line.standing.state == "loose"
    return "slack" if loose and not line.joint.safety else line.standing.state


def weld_facts(cars: list[Vehicle]) -> dict[int, list[JointFact]]:
    """Of each car (pk) the welds that were begun and not inspected; the fact names the next job.

    Jobs of one weld came onto the car together, or stand alone.
    """
    rows = (
        Job.objects.filter(vehicle__in=cars)
        .exclude(weld="")
        .exclude(state=State.DROPPED)
        .order_by("pk")
    )
    welds: dict[tuple[int, object], list[WeldJob]] = defaultdict(list)
    for row in rows.values("pk", "vehicle_id", "title", "weld", "state", "batch"):
        over = row["state"] in FINISHED_STATES
        welds[row["vehicle_id"], row["batch"] or row["pk"]].append(
            WeldJob(row["pk"], row["title"], row["weld"], over)
        )
    found: dict[int, list[JointFact]] = defaultdict(list)
    for (car, _), jobs in welds.items():
        if unfinished := unfinished_weld(jobs):
            state, job = unfinished
            found[car].append(JointFact(job.id, job.title, state))
    return found
