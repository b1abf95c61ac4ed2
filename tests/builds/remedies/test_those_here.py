"""The hours at which somebody new would do are tried with those of the garage first, and what falls short says so."""

from dataclasses import replace

import pytest

from builds.plan.facts.outcomes import outcomes
from builds.plan.facts.stored import shown
from builds.remedies.actions import hunts
from builds.remedies.deeds.session import SessionDeed, instead_of
from builds.remedies.engine.changes.presence import Hands
from builds.remedies.engine.hunt import Hunt
from builds.remedies.engine.judges import ByPlan
from builds.remedies.pages.remedies import round_of
from garage.models import DayHours
from tests.builds.plan.plan_kit import enter, job, planned
from tests.builds.remedies.remedy_kit import DAY, TOMORROW, lonely_car
from tests.factories import NOW, MembershipFactory

pytestmark = [pytest.mark.once, pytest.mark.django_db, pytest.mark.usefixtures("now")]


@pytest.fixture
def late(cast):
    """Two jobs of three hours, and one evening of Ines until Heron leaves; Kev works here, and has no hours."""
    car = lonely_car(cast)
    for title in ("Fit the fan", "Fit the hose"):
        job(car, cast, title, likely_minutes=180, high_minutes=180)
    entry = enter(car, NOW + 2 * DAY)
    planned(cast.garage)
    kev = MembershipFactory(garage=cast.garage, person__name="Kev", works=True)
    return entry, kev


def late_car(entry):
    return hunts._late_car(entry, shown(entry.event.garage), NOW)


def tomorrow_evening(car, skill=None):
    begin, end = SessionDeed(0, 18 * 60, 21 * 60, TOMORROW).when.slots(car.clock)
    return Hands(skill, begin, end, 3.0)


def test_those_here_are_tried_at_the_hours_that_somebody_new_would_come(late):
    car = late_car(late[0])
    somebody = tomorrow_evening(car)
    there = list(instead_of(somebody, car))
    assert [(change.begin, change.end) for change in there] == [(somebody.begin, somebody.end)] * 2  # Ines is free too
    assert list(instead_of(tomorrow_evening(car, "Welding"), car)) == []
    hunt = Hunt(car.problem, car.plan, car.vehicle, (), judge=ByPlan(car.vehicle))
    found = hunt.remedy_of((somebody,))
    also = hunts._by_those_here(hunt, (found,), car)
    assert [remedy.changes for remedy in also] == [(change,) for change in there]
    assert all(remedy.rank < found.rank for remedy in also)
    assert hunts._by_those_here(hunt, (found, *also), car) == []  # not tried twice
    assert hunt.remedy_of(()) is None


def test_a_day_off_stays_one(late):
    entry, kev = late
    DayHours.objects.create(member=kev, day=TOMORROW, kind=DayHours.Kind.OFF)
    assert len(list(instead_of(tomorrow_evening(late_car(entry)), late_car(entry)))) == 1


def test_what_the_odds_have_in_time_too_rarely_only_helps(late, cast):
    tried = hunts._try(late_car(late[0]), outcomes(cast.garage, shown(cast.garage), NOW), seconds=0)
    offer = tried.offers[0]
    offers = (replace(offer, in_time=15, runs=20), replace(offer, in_time=16, runs=20), replace(offer, runs=0))
    cards = round_of(replace(tried, offers=offers), cast.owner).cards
    assert [card.enough for card in cards] == [True, True, False]
