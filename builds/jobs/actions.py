"""A list of jobs written down; a job finished with what goes with it: its readings, and the parts that went on."""

from collections.abc import Collection, Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from django.db import transaction

from builds.jobs.engine.pasted import PastedJob, PastedList
from builds.jobs.facts import likely_there, there_already
from builds.needs.actions import needs
from builds.needs.facts.at_hand import AtHand
from builds.readings.actions import amiss, readings
from builds.readings.actions.readings import Measured
from builds.recipes.actions.wanted import DAYS_TO_COME
from builds.recipes.engine.meet import joined_note
from builds.shelf.actions import shelf
from builds.steps.actions import jobs, links, steps
from builds.steps.engine.part_said import part_said
from builds.steps.facts.by_words import told_each
from builds.work.engine.again import TAKEN_AGAIN
from builds.work.engine.work_left import around
from builds.work.models.hold_point import HoldPoint
from builds.work.models.job import MOST_MINUTES, NOTE_MOST, Job
from builds.work.models.need import Need
from garage.actions.refused import Refused
from garage.models import Membership, Vehicle
from parts.actions.places import car_place


@dataclass(frozen=True)
class Finish:
    """What came with a finish: readings, parts on the shelf's books, and what was never on them."""

    readings: tuple[Measured, ...] = ()
    parts: tuple[AtHand, ...] = ()
    besides: tuple[Need, ...] = ()


NOTHING = Finish()


@transaction.atomic
def write_list(
    vehicle: Vehicle,
    pasted: PastedList,
    *,
    by: Membership,
    at: datetime,
    wants: bool = False,
    once: Collection[str] = (),
) -> list[Job]:
    """The jobs of a list that the car has not got yet, each after the line that it waits for. Raises Refused.

    What cures and no line waits for the car itself waits for. With `wants` the parts that they name are
    wanted for them. `once` are titles of those that somebody said are done by the job that is likely the same work.
    """
    said = {title.casefold() for title in once}
    like = {title: job for title, job in likely_there(vehicle, pasted).items() if title in said}
    for title, job in like.items():
        _does_for(job, next(line.title for line in pasted.jobs if line.title.casefold() == title))
    there = there_already(vehicle, pasted) | like
    new = [job for job in pasted.jobs if job.title.casefold() not in there]
    told = [
        {
            **words.fields,
            "title": job.title,
            "work": _work(job),
            "rank": job.rank,
            "note": job.note,
        }
        for job, words in zip(new, told_each(vehicle.garage_id, (job.said for job in new)), strict=True)
    ]
    curing = [job for job in new if pasted.cures_last(job) and job.curing.casefold() not in there]
    told += [
        {"title": job.curing, "work": (0, 0, 0), "hands": 0, "rank": job.rank, "systems": ["paint"], "note": job.cure}
        for job in curing
    ]
    written = jobs.add_several(vehicle, told, by=by, at=at)
    for job in written if wants else ():
        if said := part_said(job.title):
            needs.add(job, at=at, what=said.name, quantity=said.many, lead_days=DAYS_TO_COME)
    rows = there | {job.title.casefold(): job for job in written}
    for job in new:
        if before := pasted.before(job):
            ahead, waiting = rows[before.title.casefold()], rows[job.title.casefold()]
            links.add(ahead, waiting, wait_minutes=before.cures, why=before.cure)
    for job in curing:
        coat, cured = rows[job.title.casefold()], rows[job.curing.casefold()]
        links.add(coat, cured, wait_minutes=job.cures, why=job.cure)
    return written


def _does_for(job: Job, title: str) -> None:
    job.note = joined_note(job.note, "", f"It does for “{title}” too.")[:NOTE_MOST]
    job.save(update_fields=["note"])


def _work(job: PastedJob) -> tuple[int, int, int]:
    if job.between is None:
        return around(job.minutes, MOST_MINUTES)
    least, most = job.between
    return least, job.minutes, most


@transaction.atomic
def finish(
    job: Job,
    *,
    by: Membership,
    at: datetime,
    moment: datetime | None = None,
    kinds: Collection[str] | None = None,
    because: str = "",
    came: Finish = NOTHING,
    then: Job | None = None,
) -> tuple[list[HoldPoint], list[str]]:
    """Finish the work with all that came with it and start what is done `then`, or none of it. Raises Refused.

    Its unsigned hold points, and what was put down for the next job, in sentences.
    What the readings found out of order is to be mended in a job of its own, opened behind it.
    The job that measures again ends by itself with the last of its readings, and stays open until then;
    one that gives a car back what it is owed ends with the part that goes on.
    """
    told = {"moment": moment, "kinds": kinds, "because": because}
    taken = readings.take_many(job.vehicle, came.readings, by=by, at=at, follow=False)
    points = _finish(job, by=by, at=at, told=told, came=came)
    amiss.follow(job.vehicle, taken, by=by, at=at)
    return points, [] if then is None else _start(then, by=by, at=at)


def _start(then: Job, *, by: Membership, at: datetime) -> list[str]:
    try:
        return steps.start(then, by=by, at=at)
    except Refused as refused:
        raise Refused(str(refused), "then") from refused


def _finish(
    job: Job,
    *,
    by: Membership,
    at: datetime,
    told: Mapping[str, Any],
    came: Finish,
) -> list[HoldPoint]:
    was = job.finished_at
    _fit(job, came, by=by, at=at, told=told)
    job.refresh_from_db()
    if (job.recipe in TAKEN_AGAIN and came.readings) or job.finished_at != was:
        return list(HoldPoint.objects.filter(job=job).unsigned())
    return steps.finish(job, by=by, at=at, **told)


def _fit(job: Job, came: Finish, *, by: Membership, at: datetime, told: Mapping[str, Any]) -> None:
    car = car_place(job.vehicle) if came.parts else None
    for ready in came.parts:
        for place, quantity in ready.places:
            shelf.carry(ready.part, "fit", quantity, place, car, by=by, at=at, job=job, told=told)
    for need in came.besides:
        needs.got(need, by=by, at=at)
