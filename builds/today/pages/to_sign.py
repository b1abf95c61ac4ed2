"""What waits for a second pair of eyes: hold points that were reached, finished safety work."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from django.urls import reverse

from builds.readings.pages.amiss import amiss_sentences
from builds.steps.pages.job_cards import card_of, done_card
from builds.steps.pages.looks import LookOffer, look_offer
from builds.today.facts.to_sign import WorkToSign, work_to_sign
from builds.work.engine.open_work import Work
from builds.work.pages import JobCard
from garage.models import Membership


@dataclass(frozen=True)
class ToSign:
    """A hold point that was reached, or finished safety work; who may sign it.

    `writes` is the button that writes down another's look, empty where the reader can write none; `asks` when a value
    is signed with it, so that one tap is not enough. `sign_in` leads an owner to where he lets in whoever looks.
    """

    card: JobCard
    url: str
    may_sign: bool
    writes: str
    asks: str = ""
    sign_in: tuple[str, str] | None = None


def to_sign(me: Membership, members: list[Membership], work: Work) -> tuple[ToSign, ...]:
    """As many queries as `work_to_sign`."""
    waiting = work_to_sign(me.garage, work, members)
    return (*_points(me, work, waiting), *_done(me, work, waiting))


def _points(me: Membership, work: Work, waiting: WorkToSign) -> Iterator[ToSign]:
    for job in waiting.stopped:
        for point in work.unsigned[job.pk]:
            offer = look_offer(me, waiting.people, waiting.workers[job.pk])
            note = f"{amiss_sentences(waiting.amiss.get(job.pk, ()), me.garage)} At the end of “{job}”".strip()
            card = replace(card_of(job, work), title=f"Hold point: {point.what}", note=note)
            yield _asked(card, reverse("hold_point_sign", args=[point.pk]), offer, point.asks)


def _done(me: Membership, work: Work, waiting: WorkToSign) -> Iterator[ToSign]:
    for job in waiting.done:
        card = done_card(job, work.at, to_sign=True, amiss=amiss_sentences(waiting.amiss.get(job.pk, ()), me.garage))
        offer = look_offer(me, waiting.people, waiting.workers[job.pk])
        yield _asked(card, reverse("job_sign", args=[job.pk]), offer)


def _asked(card: JobCard, url: str, offer: LookOffer, asks: str = "") -> ToSign:
    return ToSign(replace(card, kicker=f"waits for {offer.waits}"), url, offer.mine, offer.writes, asks, offer.sign_in)
