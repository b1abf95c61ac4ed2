"""Parts that are not there yet and that a car waits for, by the day on which something is to be done about them."""

from dataclasses import dataclass
from datetime import date

from django.urls import reverse

from builds.needs.facts.wants import Wants
from builds.needs.pages.needs import NeedLine, need_line
from builds.work.engine.open_work import Work
from builds.work.models.job import Job

MOST = 6


@dataclass(frozen=True)
class PartToCome:
    line: NeedLine
    job: Job
    url: str


@dataclass(frozen=True)
class PartsToCome:
    """What is too late first; `more` than are shown."""

    parts: tuple[PartToCome, ...]
    more: int


def parts_to_come(work: Work, wants: Wants, last_days: dict[int, date]) -> PartsToCome:
    """`last_days` by job (pk): until when its parts may come. No query."""
    garage, today = work.garage, work.times.shop.today
    lines = [
        (need_line(need, today, wants.standing[need.pk], garage.currency, last_days.get(need.job_id)), need.job)
        for need in wants.needs
    ]
    dated = [(line.by, line, job) for line, job in lines if line.by]
    dated.sort(key=lambda row: (not row[0].late, row[0].act_on))
    parts = [PartToCome(line, job, f"{reverse('job_page', args=[job.pk])}#need-{line.pk}") for _, line, job in dated]
    return PartsToCome(tuple(parts[:MOST]), max(0, len(parts) - MOST))
