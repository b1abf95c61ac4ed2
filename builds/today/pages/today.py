"""All that the page of today shows, in a fixed number of queries."""

from collections import defaultdict
from dataclasses import dataclass
from datetime import datetime, time, timedelta
from zoneinfo import ZoneInfo

from builds.cars.facts import Fleet
from builds.needs.facts.wants import wants_of
from builds.plan.engine.timed_plan import TimedPlan
from builds.plan.facts.last_days import kept_beside
from builds.plan.facts.stored import shown_to
from builds.plan.pages.entered_cars import MOST_CARS, more_cars_words
from builds.shop.pages.cures import CureClock, running_cures
from builds.steps.pages.job_cards import card_of, offered_to
from builds.today.facts.evening import evening_of, night_after, tonight
from builds.today.facts.to_sign import at_hold_point
from builds.today.pages.first_steps import FirstStep, first_steps
from builds.today.pages.message import EveningJob, message_of
from builds.today.pages.news import News, news_since
from builds.today.pages.next_events import NextEvent, next_events
from builds.today.pages.nights import NightToday, nights_today
from builds.today.pages.offers import OfferToday, offers_today
from builds.today.pages.parts_to_come import PartsToCome, parts_to_come
from builds.today.pages.people import PersonToday, people_today
from builds.today.pages.ticks import TickToday, ticks_today
from builds.today.pages.to_sign import ToSign, to_sign
from builds.today.pages.visits import VisitSaid, visits_said
from builds.travel.facts import told_to, troubles_of
from builds.verdict.engine import verdict
from builds.work.engine.open_work import Work
from builds.work.facts.room_now import room_in
from builds.work.facts.work import load_work
from builds.work.models.job import Job
from builds.work.models.states import State
from builds.work.pages import JobCard
from garage.access import refuse_presence
from garage.facts.entries import kept_ahead
from garage.facts.presence import members_from
from garage.models import Entry, Membership

MOST_ENTRIES = 12


@dataclass(frozen=True)
class Today:
    """`first_steps` only while the garage has no job; minutes of work `left` by car (pk); `ahead` all entries to come.

    Whoever does not see who is in (`sees_hours`) sees those who have work; `stops` is what is to stop at once.
    """

    sees_hours: bool
    stops: tuple[str, ...]
    heading: str
    lead: str
    people: tuple[PersonToday, ...]
    to_sign: tuple[ToSign, ...]
    visits: tuple[VisitSaid, ...]
    offers: tuple[OfferToday, ...]
    ticks: tuple[TickToday, ...]
    curing: tuple[CureClock, ...]
    held: tuple[JobCard, ...]
    changes: News
    entries: tuple[NextEvent, ...]
    troubles: tuple[str, ...]
    nights: tuple[NightToday, ...]
    first_steps: tuple[FirstStep, ...]
    left: dict[int, int]
    to_come: PartsToCome
    message: tuple[str, ...]
    ahead: list[Entry]

    @property
    def there(self) -> list[PersonToday]:
        """Me, whoever is in, and whoever has something in hand; without hours, whoever has work."""
        if not self.sees_hours:
            return [person for person in self.people if person.in_hand or person.next]
        return [person for person in self.people if person.is_me or person.is_in or person.in_hand]

    @property
    def away(self) -> list[PersonToday]:
        there = self.there
        return [person for person in self.people if person not in there] if self.sees_hours else []

    @property
    def cars_ahead(self) -> list[tuple[NextEvent, list[NextEvent]]]:
        """A car that is entered twice is one row: its first event, and those after it."""
        by_car: dict[str, list[NextEvent]] = {}
        for entry in self.entries:
            by_car.setdefault(entry.car_url, []).append(entry)
        return [(first, later) for first, *later in by_car.values()]

    @property
    def first_cars(self) -> list[tuple[NextEvent, list[NextEvent]]]:
        return self.cars_ahead[:MOST_CARS]

    @property
    def more_cars(self) -> list[tuple[NextEvent, list[NextEvent]]]:
        return self.cars_ahead[MOST_CARS:]

    @property
    def more_cars_words(self) -> str:
        return more_cars_words(first.outlook for first, _ in self.more_cars)

    @property
    def step_now(self) -> FirstStep | None:
        """The first of the steps that is still to be taken."""
        return next((step for step in self.first_steps if not step.done), None)

    @property
    def has_cars(self) -> bool:
        return bool(self.first_steps and self.first_steps[0].done)


def load_today(me: Membership, fleet: Fleet) -> Today:
    garage, at, zone = me.garage, fleet.at, ZoneInfo(me.garage.time_zone)
    work, members, plan = load_work(garage, at), members_from(garage, at), shown_to(me)
    room = room_in(garage, work)
    people, stops = people_today(me, members, work, plan, room), tuple(room.stops().values())
    yesterday = at.astimezone(zone).date() - timedelta(days=1)
    ahead = kept_ahead(garage, at)
    entries = ahead[:MOST_ENTRIES]
    evening = evening_of(garage, at)
    waiting = to_sign(me, members, work)
    next_ones = next_events(fleet, entries, plan, work)
    sees_hours = refuse_presence(me) is None
    return Today(
        sees_hours=sees_hours,
        stops=stops,
        heading=heading(at.astimezone(zone)),
        lead=_lead(people) if sees_hours else "",
        people=tuple(people),
        to_sign=waiting,
        offers=offers_today(me),
        ticks=ticks_today(me),
        visits=visits_said(me, members, at, at.astimezone(zone).date()),
        curing=tuple(running_cures(work)),
        held=_held(me, work),
        changes=news_since(datetime.combine(yesterday, time(), zone), garage, work, members),
        entries=next_ones,
        troubles=_troubles(me, fleet, entries, members),
        nights=nights_today(me, work, plan),
        first_steps=() if work.jobs or waiting else first_steps(me, members, entries),
        left=_left(work),
        to_come=parts_to_come(work, wants_of(work, ahead), kept_beside(plan)),
        ahead=ahead,
        message=message_of(
            garage.name,
            evening,
            tuple(people),
            next_ones,
            _evenings(work, plan, night_after(evening, zone)),
            stops=stops,
        ),
    )


def _evenings(work: Work, plan: TimedPlan | None, night: datetime) -> dict[int, list[EveningJob]]:
    """By person (pk) what this evening has for him, in its order."""
    evenings: dict[int, list[EveningJob]] = defaultdict(list)
    for turn in tonight(work, plan, night):
        job = work.jobs[turn.job]
        for person in turn.people:
            evenings[person].append(EveningJob(job.title, job.vehicle.name, job.rank == Job.Rank.SAFETY))
    return evenings


def heading(local: datetime) -> str:
    part = "morning" if local.hour < 12 else "afternoon" if local.hour < 17 else "evening"
    return f"{local:%A} {part}"


def _lead(people: list[PersonToday]) -> str:
    there = [f"{person.name} {person.tonight}" for person in people if person.is_in]
    return f"{', '.join(there)}." if there else "Nobody is in today."


def _left(work: Work) -> dict[int, int]:
    left: dict[int, int] = defaultdict(int)
    for pk, job in work.jobs.items():
        left[job.vehicle_id] += work.left(pk)
    return left


def _troubles(me: Membership, fleet: Fleet, entries: list[Entry], members: list[Membership]) -> tuple[str, ...]:
    """What stands against going to these events. No query."""
    asked = {pk for entry in entries for pk in (entry.vehicle_id, entry.tow_id) if entry.travels}
    verdicts = {pk: verdict(fleet.facts[pk]) for pk in asked if pk in fleet.facts}
    return tuple(trouble.sentence for trouble in told_to(me, troubles_of(entries, verdicts, members, fleet.at)))


def _held(me: Membership, work: Work) -> tuple[JobCard, ...]:
    """Jobs on hold that do not wait for a signature."""
    on_hold = [work.jobs[pk] for pk in work.order if work.jobs[pk].state == State.HELD]
    return tuple(offered_to(me, card_of(job, work, steps=True), work) for job in on_hold if not at_hold_point(job))
