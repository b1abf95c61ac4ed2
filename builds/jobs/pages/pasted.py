"""What a pasted list would write down, line for line; and a car's list as one that can be pasted."""

from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace

from django.urls import reverse
from django.utils.http import urlencode

from builds.jobs.engine.pasted import PastedJob, PastedList, written_out
from builds.jobs.facts import likely_there, there_already
from builds.jobs.pages.by_words import by_words_sentences
from builds.readings.engine.kinds_touch import touched
from builds.steps.engine.part_said import part_said
from builds.steps.facts.by_words import ToldByWords, told_each
from builds.work.engine.again import TAKEN_AGAIN
from builds.work.engine.cure_unsaid import UNSAID, cure_unsaid
from builds.work.engine.ranks import rank_for
from builds.work.models.job import Job, JobQuerySet
from garage.engine.systems import SYSTEMS
from garage.engine.words import listed_in_words, work_words
from garage.models import Garage, Vehicle


@dataclass(frozen=True)
class PastedLine:
    """`there` says that the car has an open job that is called so or does just that: it is not written down again.
    `like` is the title of one that is likely the same work.

    `asks` is what somebody has to know of it before it is saved, `understood` what else was taken from its words, a
    sentence a piece. `whole` when all of it was said: its length, and what it touches.
    """

    title: str
    length: str
    rank: str
    touches: str
    there: str
    like: str
    whole: bool
    asks: tuple[str, ...]
    understood: tuple[str, ...]


@dataclass(frozen=True)
class OtherList:
    """Another car and how many open jobs could be copied from it."""

    car: Vehicle
    count: int


def first_list(car: Vehicle) -> str:
    """The address of a car's first list, which leads on to the plan."""
    return f"{reverse('job_paste', args=[car.pk])}?{urlencode({'next': reverse('plan_page')})}"


def preview(pasted: PastedList, vehicle: Vehicle) -> list[PastedLine]:
    there, like = there_already(vehicle, pasted), likely_there(vehicle, pasted)
    told = told_each(vehicle.garage_id, (replace(job.said, touches=()) for job in pasted.jobs))
    return [
        _line(
            job,
            pasted,
            words,
            there=_there(job, there.get(job.title.casefold()), vehicle),
            like=str(like.get(job.title.casefold(), "")),
        )
        for job, words in zip(pasted.jobs, told, strict=True)
    ]


def parts_named(lines: Iterable[PastedLine]) -> str:
    """`fuel filter, N/S rear shock (2)`: the parts that the words of these lines ask for; empty where none does."""
    said = filter(None, (part_said(line.title) for line in lines))
    return ", ".join(f"{part.name} ({part.many})" if part.many > 1 else part.name for part in said)


def left_out(pasted: PastedList) -> str:
    """What of the list is no job, in sentences."""
    told = {"Left out, ticked as done": pasted.done, "Taken as a heading": pasted.headings}
    named = {why: listed_in_words([f"“{title}”" for title in titles]) for why, titles in told.items() if titles}
    return " ".join(f"{why}: {titles}." for why, titles in named.items())


def _line(job: PastedJob, pasted: PastedList, told: ToldByWords, *, there: str, like: str) -> PastedLine:
    touches = ", ".join(SYSTEMS[slug].label for slug in job.systems)
    only_measured = bool(job.said.measures) and not touches
    asks = () if there else tuple(_asks(job, pasted))
    return PastedLine(
        job.title,
        _length_words(job),
        job.rank or rank_for(touched(job.systems, job.said.kinds)) or Job.Rank.NEEDED,
        "only measured" if only_measured else touches and f"{touches}{', by its words' if job.guessed_systems else ''}",
        there,
        like,
        not (there or job.guessed_length or asks) and bool(touches or only_measured),
        asks,
        () if there else tuple(by_words_sentences(told)),
    )


def _there(job: PastedJob, there: Job | None, vehicle: Vehicle) -> str:
    if there is None:
        return ""
    called = "" if there.title.casefold() == job.title.casefold() else f" as “{there}”"
    return f"is on {vehicle} already{called}, and stays as it is"


def _length_words(job: PastedJob) -> str:
    """`2 h to 3 h, likely 2 h 30`; `1 h, a guess`."""
    if job.between:
        least, most = map(work_words, job.between)
        return f"{least} to {most}, likely {work_words(job.minutes)}"
    return f"{work_words(job.minutes)}{', a guess' if job.guessed_length else ''}"


def _asks(job: PastedJob, pasted: PastedList) -> Iterator[str]:
    if before := pasted.before(job):
        wait = f", {work_words(before.cures)} after it ends" if before.cures else ""
        yield f"It waits for “{before.title}”{wait}."
    if job.raised:
        yield "Wanted is not kept: nobody has said what it touches, so that it is needed."
    if job.who:
        yield f"“{job.who}” is kept as a note: the plan says who does it."
    if cure_unsaid(job.said.kinds, [(job.cures, "")]):
        yield f"{UNSAID}: write it at the end of the line, such as “cures 16 h”."
    if pasted.cures_last(job):
        yield f"The car waits for “{job.cure}”: “{job.curing}” comes after it, and takes nobody's time."


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
    return jobs.open().exclude(recipe__in=TAKEN_AGAIN).filter(owed=None).order_by("pk")
