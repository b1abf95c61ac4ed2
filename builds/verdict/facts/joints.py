"""What the verdict is told of joints and welds, car by car."""

from collections import defaultdict
from datetime import datetime

from builds.joints.facts import JointLine, joint_lines
from builds.verdict.engine import JointFact
from builds.work.engine.welds import ORDER, Weld, WeldJob, unfinished_weld
from builds.work.models.job import Job
from builds.work.models.states import FINISHED_STATES, State
from garage.models import Entry, Garage, Vehicle

FactsByCar = dict[int, tuple[JointFact, ...]]


def joints_facts(garage: Garage, cars: list[Vehicle], at: datetime, entries: dict[int, Entry]) -> FactsByCar:
    """Of each car (pk) its joints, and its welds that are not inspected.

    A joint that is no safety joint is a reason only while it is loose. Six queries at most.
    """
    lines = joint_lines(garage, cars, at)
    welds = weld_facts(cars)
    return {
        car.pk: (
            *welds[car.pk],
            *(
                JointFact(
                    line.joint.pk,
                    line.joint.name,
                    _state(line),
                    line.standing.words,
                    tuple(line.joint.opened_by),
                    tuple(line.joint.systems),
                )
                for line in lines.get(car.pk, ())
            ),
        )
        for car in cars
    }


def _state(line: JointLine) -> str:
    loose = line.standing.state == "loose"
    return "slack" if loose and not line.joint.safety else line.standing.state


def weld_facts(cars: list[Vehicle]) -> dict[int, list[JointFact]]:
    """Of each car (pk) the welds that were begun and not inspected; the fact names the next job.

    Jobs of one weld came onto the car together, or stand alone. Where its steps were left out or
    dropped, only an inspection that ended later on the same systems of the car clears it.
    """
    rows = Job.objects.filter(vehicle__in=cars).exclude(weld="").exclude(state=State.DROPPED).order_by("pk")
    welds: dict[tuple[int, object], list[Job]] = defaultdict(list)
    for job in rows:
        welds[job.vehicle_id, job.batch or job.pk].append(job)
    inspected = [job for job in rows if job.weld == Weld.INSPECTED and _over(job)]
    facts: dict[int, list[JointFact]] = defaultdict(list)
    for (car, _), jobs in welds.items():
        unfinished = unfinished_weld(
            WeldJob(job.pk, job.title, job.weld, _over(job) and not _before_others(job, jobs)) for job in jobs
        )
        if unfinished is None:
            continue
        state, following = unfinished
        if following:
            facts[car].append(JointFact(following.id, f"“{following.title}”", state))
        elif not any(_clears(inspection, jobs) for inspection in inspected):
            last = max(jobs, key=lambda job: (_ended(job), ORDER.index(Weld(job.weld))))
            words = f"“{last}” was the last of it."
            facts[car].append(JointFact(last.pk, "no job", state, words))
    return facts


def _over(job: Job) -> bool:
    return job.state in FINISHED_STATES


def _before_others(job: Job, jobs: list[Job]) -> bool:
    """Whether it inspected a weld that was worked on again afterwards."""
    return job.weld == Weld.INSPECTED and any(_ended(other) > _ended(job) for other in jobs)


def _ended(job: Job) -> datetime:
    ended: datetime = job.finished_at or job.made_at
    return ended


def _clears(inspection: Job, jobs: list[Job]) -> bool:
    """Whether it looked at the weld of these jobs after the last of them."""
    systems = {slug for job in jobs for slug in job.systems}
    return (
        inspection.vehicle_id == jobs[0].vehicle_id
        and _ended(inspection) > max(map(_ended, jobs))
        and not systems.isdisjoint(inspection.systems)
    )
