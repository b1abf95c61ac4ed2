"""Parts that are not there yet and that a car waits for, by the day on which something is to be done about them."""

from dataclasses import dataclass

from django.urls import reverse

from builds.needs.facts.wants import Wants
from builds.needs.pages.by_day import BEING_FOUND
from builds.needs.pages.needs import NeedLine, need_line
from builds.plan.facts.last_days import LastDays
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
    """What is too late first; `more` than are shown; `being_found` says that some days are still worked out."""

    parts: tuple[PartToCome, ...]
    more: int
    being_found: str


def parts_to_come(work: Work, wants: Wants, kept: LastDays) -> PartsToCome:
    """No query."""
    garage, today = work.garage, work.times.shop.today
    lines = [
        (need_line(need, today, wants.standing[need.pk], garage.currency, kept.days.get(need.job_id)), need.job)
        for need in wants.needs
    ]
    dated = [(line.by, line, job) for line, job in lines if line.by]
    dated.sort(key=lambda row: (not row[0].late, row[0].act_on))
    parts = [PartToCome(line, job, f"{reverse('job_page', args=[job.pk])}#need-{line.pk}") for _, line, job in dated]
    being_found = BEING_FOUND if kept.yet_to_find(wants) else ""
    return PartsToCome(tuple(parts[:MOST]), max(0, len(parts) - MOST), being_found)
