"""What is to be done overnight at events that are on."""

from collections.abc import Iterable
from dataclasses import dataclass

from django.urls import reverse

from builds.plan.engine.ids import id_of
from builds.plan.engine.timed_plan import TimedPlan
from builds.plan.pages.nights import night_words
from builds.steps.pages.job_cards import card_of, offered_to
from builds.work.engine.open_work import Work
from builds.work.pages import JobCard
from garage.clock import clock_words
from garage.facts.entries import nights_ahead
from garage.models import Membership, Night


@dataclass(frozen=True)
class NightToday:
    event: str
    url: str
    words: str
    cards: tuple[JobCard, ...]


def nights_today(me: Membership, work: Work, plan: TimedPlan | None) -> tuple[NightToday, ...]:
    """From when the cars leave until the morning has come."""
    on = (night for night in nights_ahead(me.garage, work.at) if night.event.due_at <= work.at)
    return tuple(_night(night, me, work, plan) for night in on)


def _night(night: Night, me: Membership, work: Work, plan: TimedPlan | None) -> NightToday:
    jobs = (pk for pk in work.order if work.jobs[pk].night_id == night.pk)
    return NightToday(
        night.event.name,
        f"{reverse('event_page', args=[night.event_id])}#night-{night.pk}",
        night_words(night, work.at),
        tuple(offered_to(me, card, work) for card in _cards(jobs, work, plan)),
    )


def _cards(jobs: Iterable[int], work: Work, plan: TimedPlan | None) -> Iterable[JobCard]:
    for pk in jobs:
        placed = plan.placed.get(id_of("job", pk)) if plan else None
        start = plan.clock.moment(placed.start) if plan and placed else None
        lead = clock_words(start, work.at) if start and start > work.at else ""
        yield card_of(work.jobs[pk], work, steps=True, lead=lead)
