"""What the verdict is told of joints and welds, car by car."""

from collections import defaultdict
from datetime import datetime

from builds.joints.facts import joint_standings
from builds.readings.engine.kinds_touch import touched
from builds.verdict.engine import JointFact, WeldFact
from builds.verdict.engine.joint_facts import joint_fact
from builds.work.engine.welds import Weld, WeldJob, welds_left
from builds.work.facts.runs import RunsByCar
from builds.work.models.job import Job
from builds.work.models.states import FINISHED_STATES, State
from garage.models import Garage, Vehicle

JointsByCar = dict[int, tuple[JointFact, ...]]


def joints_facts(garage: Garage, cars: list[Vehicle], at: datetime, runs: RunsByCar) -> JointsByCar:
    """Of each car (pk) its joints; one that is no safety joint is a reason only while it is loose. Three queries."""
    return {
        car: tuple(joint_fact(line.joint, line.standing, line.since) for line in lines)
        for car, lines in joint_standings(garage, cars, at, runs).items()
    }


def weld_facts(cars: list[Vehicle]) -> dict[int, list[WeldFact]]:
    """Of each car (pk) the welds that were begun and not inspected; one query."""
    rows = (
        Job.objects.filter(vehicle__in=cars)
        .exclude(weld="")
        .exclude(state=State.DROPPED)
        .order_by("pk")
        .only(*("title", "weld", "state", "finished_at", "made_at", "systems", "kinds", "recipe", "batch", "vehicle"))
    )
    by_car: dict[int, list[WeldJob]] = defaultdict(list)
    for job in rows:
        by_car[job.vehicle_id].append(_weld_job(job))
    return {
        car.pk: [WeldFact(job.id, job.title, state, was_last) for state, job, was_last in welds_left(by_car[car.pk])]
        for car in cars
    }


def _weld_job(job: Job) -> WeldJob:
    """What is welded out by hand is inspected by whoever looks at it and signs."""
    over, ended = job.state in FINISHED_STATES, job.finished_at or job.made_at
    told = WeldJob(job.pk, job.title, job.weld, over, ended, frozenset(job.systems), job.batch or job.pk)
    if job.recipe:
        return told
    told = told._replace(systems=frozenset(touched(job.systems, job.kinds)))
    return told._replace(weld=Weld.INSPECTED, over=job.state == State.SIGNED) if job.weld == Weld.WELDED else told
