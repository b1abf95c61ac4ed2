"""What a pasted list would write down, line for line; and a car's list as one that can be pasted."""

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass

from builds.jobs.engine import PastedJob, written_out
from builds.work.engine.ranks import rank_for
from builds.work.models.job import MEASURE_AGAIN, Job, JobQuerySet
from garage.engine.systems import SYSTEMS
from garage.engine.words import work_words
from garage.models import Garage, Vehicle


@dataclass(frozen=True)
class PastedRow:
    """`there` when the car has an open job of this title, so that it is not written down again."""

    title: str
    length: str
    rank: str
    touches: str
    there: bool


@dataclass(frozen=True)
class OtherList:
    """Another car and how many open jobs could be copied from it."""

    car: Vehicle
    count: int


def preview(jobs: Iterable[PastedJob], vehicle: Vehicle) -> list[PastedRow]:
    there = titles_on(vehicle)
    return [_row(job, job.title.casefold() in there) for job in jobs]


def _row(job: PastedJob, there: bool) -> PastedRow:
    touches = ", ".join(SYSTEMS[slug].label for slug in job.systems)
    return PastedRow(
        job.title,
        f"{work_words(job.minutes)}{', a guess' if job.guessed_length else ''}",
        job.rank or rank_for(job.systems) or Job.Rank.NEEDED,
        f"{touches}{', by its words' if job.guessed_systems else ''}" if touches else "",
        there,
    )


def titles_on(vehicle: Vehicle) -> set[str]:
    return {title.casefold() for title in Job.objects.on(vehicle).open().values_list("title", flat=True)}


def copied(vehicle: Vehicle) -> str:
    """Its open jobs as lines, without what comes of itself."""
    return "\n".join(
        written_out(job.title, job.likely_minutes, job.systems, "" if job.lowered_because else job.rank)
        for job in _to_copy(Job.objects.on(vehicle))
    )


def others(vehicle: Vehicle, garage: Garage) -> list[OtherList]:
    """Cars whose list could be copied; two queries."""
    counts = Counter(_to_copy(Job.objects.in_garage(garage)).values_list("vehicle_id", flat=True))
    cars = Vehicle.objects.in_garage(garage).kept().exclude(pk=vehicle.pk)
    return [OtherList(car, counts[car.pk]) for car in cars if counts[car.pk]]


def _to_copy(jobs: JobQuerySet) -> JobQuerySet:
    return jobs.open().exclude(recipe=MEASURE_AGAIN).filter(owed=None).order_by("pk")
