"""What nobody looked at but those who had worked on it, car by car."""

from collections import defaultdict
from collections.abc import Iterable
from typing import Any

from django.db.models import Exists, OuterRef, QuerySet

from builds.joints.models import JointMark
from builds.work.facts.runs import RunsByCar
from builds.work.models.hold_point import HoldPoint
from builds.work.models.job import Job
from builds.work.models.states import State
from garage.models import Vehicle

# Of each look the car (pk), when, and by whom.
Signed = QuerySet[Any]


def alone_facts(cars: list[Vehicle], runs: RunsByCar) -> dict[int, tuple[str, ...]]:
    """Of each car (pk), for every look that nobody else took, the name of who signed it; two queries.

    A joint counts until it is marked again; work only if it was signed since the car last ran at an
    event, or may have run.
    """
    names: dict[int, list[str]] = defaultdict(list)
    at_events = {car: [run.last for run in ran if not run.job] for car, ran in runs.items()}
    last = {car: max(ended) for car, ended in at_events.items() if ended}
    for car, signed_at, name in _points(cars).union(_jobs(cars), all=True):
        if car not in last or signed_at > last[car]:
            names[car].append(name)
    for car, name in _joints(cars):
        names[car].append(name)
    return {car.pk: tuple(sorted(names[car.pk])) for car in cars}


def _points(cars: list[Vehicle]) -> Signed:
    signed = HoldPoint.objects.filter(job__vehicle__in=cars, alone=True).exclude(job__state=State.DROPPED)
    return signed.order_by().values_list("job__vehicle_id", "signed_at", "signed_by__person__name")


def _jobs(cars: list[Vehicle]) -> Signed:
    """Those without hold points, since a job is signed by whoever signs its last one."""
    pointed = HoldPoint.objects.filter(job=OuterRef("pk"))
    signed = Job.objects.filter(vehicle__in=cars, state=State.SIGNED, signed_alone=True).exclude(Exists(pointed))
    return signed.order_by().values_list("vehicle_id", "signed_at", "signed_by__person__name")


def _joints(cars: list[Vehicle]) -> Iterable[tuple[int, str]]:
    marks: QuerySet[JointMark] = JointMark.objects.filter(joint__vehicle__in=cars, joint__retired_at=None)
    later = JointMark.objects.torqued().filter(joint=OuterRef("joint"), at__gt=OuterRef("signs__at"))
    alone = marks.filter(alone=True).exclude(Exists(later))
    return alone.values_list("joint__vehicle_id", "by__person__name")
