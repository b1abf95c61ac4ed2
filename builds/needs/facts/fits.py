"""How parts answer what the jobs want them to fit."""

from dataclasses import dataclass

from django.db.models import Q

from builds.work.models.job import Job
from builds.work.models.need import Need
from builds.work.models.states import OPEN_STATES
from garage.engine.systems import SAFETY_SYSTEMS
from garage.models import Garage, Vehicle
from parts.engine.fit import DOES_NOT, FitVerdict, Interface, fits_all, read_all, words
from parts.facts.shelf import PartRow, found, likely_words, rows_of
from parts.models import Part

MOST_LOOKED_AT, MOST_SHOWN = 300, 30


@dataclass(frozen=True)
class JobFit:
    """How a part answers one job's want of it."""

    job: Job
    asked: str
    verdict: FitVerdict


@dataclass(frozen=True)
class Offered:
    """What was looked for and found, what fits first; `refused` (pks) does not, and lives hang."""

    words: str
    rows: list[PartRow]
    refused: frozenset[int]


def wants_of_need(need: Need) -> tuple[Interface, ...]:
    return read_all(need.fit)


def fit_words(need: Need) -> str:
    """What a need must fit, as it can be typed; empty when nobody said."""
    return ", ".join(words(want) for want in wants_of_need(need))


def answer_of(need: Need, part: Part) -> FitVerdict | None:
    """How a part answers a need, None when nobody said what it must fit."""
    return fits_all(wants_of_need(need), read_all(part.interfaces)) if need.fit else None


def worst_answer(part: Part, job: Job | None, car: Vehicle | None) -> JobFit | None:
    """How a part answers the job's needs of it and those of every open job on the car.

    The worst of them, None when none says what it must fit; one query. Whether a need was got
    already or another job is named does not matter: a thread is as it is.
    """
    asked = Q(job=job) | Q(job__vehicle=car, job__state__in=OPEN_STATES)
    answers = [
        JobFit(need.job, fit_words(need), answer)
        for need in Need.objects.filter(asked, part=part).with_ends()
        if (answer := answer_of(need, part))
    ]
    return max(answers, key=lambda each: each.verdict.rank, default=None)


def is_safety(job: Job, part: Part) -> bool:
    """Whether the job or the part touches what somebody's life hangs on."""
    return job.rank == Job.Rank.SAFETY or not SAFETY_SYSTEMS.isdisjoint([*job.systems, *part.systems])


def job_fits(part: Part) -> tuple[JobFit, ...]:
    """How it answers each open job that wants it and says what it must fit; one query."""
    rows = Need.objects.in_garage(part.garage_id).open().filter(part=part).with_ends()
    return tuple(JobFit(need.job, fit_words(need), answer) for need in rows if (answer := answer_of(need, part)))


def offered(need: Need, garage: Garage, text: str | None) -> Offered:
    """Parts that may be what is needed; `text` None looks by its own words and by what must fit."""
    asked, wants = fit_words(need), wants_of_need(need)
    likely = likely_words(garage, need.what) if text is None else text
    parts = found(garage, likely)
    if text is None and asked:
        parts = parts | found(garage, asked)
    rows = rows_of(parts[:MOST_LOOKED_AT], garage, wants)
    rows.sort(key=lambda row: row.fit.rank if row.fit else 0)
    refused = frozenset(
        row.part.pk for row in rows if row.fit and row.fit.state == DOES_NOT and is_safety(need.job, row.part)
    )
    return Offered(likely, rows[:MOST_SHOWN], refused)
