"""What waits for a second pair of eyes: hold points that were reached, finished safety work."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from django.urls import reverse

from builds.steps.pages.job_cards import card_of, done_card
from builds.steps.pages.time_log import eyes_words, may_sign
from builds.today.facts.to_sign import jobs_to_sign
from builds.work.facts.work import Work
from builds.work.models.job import Job
from builds.work.models.states import State
from builds.work.pages import JobCard
from garage.models import Membership
from garage.models.scoped import EDITORS


@dataclass(frozen=True)
class ToSign:
    """A hold point that was reached, or finished safety work; who may sign it.

    `asks` when a value is signed with it, so that one tap is not enough.
    """

    card: JobCard
    url: str
    may_sign: bool
    asks: str = ""


def at_hold_point(job: Job) -> bool:
    return job.state == State.HELD and job.finished_at is not None


def to_sign(me: Membership, members: list[Membership], work: Work) -> tuple[ToSign, ...]:
    """As many queries as `jobs_to_sign`."""
    eyes = [member for member in members if member.role in EDITORS]
    return (*_points(me, eyes, work), *_done(me, eyes, work))


def _points(me: Membership, eyes: list[Membership], work: Work) -> Iterator[ToSign]:
    reached = [work.jobs[pk] for pk in work.order if at_hold_point(work.jobs[pk])]
    for job in reached:
        for point in work.unsigned[job.pk]:
            card = replace(card_of(job, work), title=f"Hold point: {point.what}", note=f"At the end of {job}")
            url = reverse("hold_point_sign", args=[point.pk])
            yield _asked(card, url, me, eyes, work.workers[job.pk], point.asks)


def _done(me: Membership, eyes: list[Membership], work: Work) -> Iterator[ToSign]:
    for job, workers in jobs_to_sign(me.garage, work):
        yield _asked(done_card(job, work.at), reverse("job_sign", args=[job.pk]), me, eyes, workers)


def _asked(
    card: JobCard, url: str, me: Membership, eyes: list[Membership], workers: set[int], asks: str = ""
) -> ToSign:
    waiting = replace(card, kicker=f"waits for {eyes_words(eyes, workers)}")
    return ToSign(waiting, url, may_sign(me, eyes, workers), asks)
