"""Cures in the list and on the strip: over in the minute that every page says, and named by what they are."""

from datetime import timedelta
from io import StringIO

import pytest
from django.core.management import call_command

from builds.today.facts.asked import Asked
from builds.today.pages.card_sheet import card_sheet_rows
from builds.work.models.states import State
from tests.builds.plan.plan_kit import evenings, job, main, planned, text
from tests.factories import NOW, LinkFactory, VehicleFactory
from tests.pages import words

pytestmark = [pytest.mark.django_db, pytest.mark.usefixtures("now")]
MINUTE, HOUR, DAY = timedelta(minutes=1), timedelta(hours=1), timedelta(days=1)


@pytest.fixture
def car(cast):
    evenings(cast.owner)
    return VehicleFactory(garage=cast.garage, name="Heron")


def test_a_cure_that_runs_is_over_in_the_same_minute_as_today_has_it(cast, owner, car):
    primed = job(car, cast, "Prime the arm", state=State.DONE, finished_at=NOW - 65 * MINUTE)
    LinkFactory(before=primed, after=job(car, cast, "Refit the arm"), wait_minutes=14 * 60, why="the primer cures")
    planned(cast.garage)
    said = main(owner)
    assert "15:55 cures Prime the arm Ready Wed 05:55 Heron" in said
    assert "The primer cures: Wed 05:55" in said
    assert "ready Wed 05:55" in words(text(owner, "/"))


def test_a_cure_is_over_in_the_same_minute_in_the_plan_on_paper_and_wherever_else_it_is_said(cast, owner, car):
    """It ends between two quarters of an hour, in which the planner counts."""
    primed = job(car, cast, "Prime the arm", state=State.DONE, finished_at=NOW - 65 * MINUTE)
    refit = job(car, cast, "Refit the arm")
    LinkFactory(before=primed, after=refit, wait_minutes=14 * 60, why="the primer cures")
    out = StringIO()
    call_command("plan", stdout=out, no_color=True)
    (card,) = card_sheet_rows(cast.garage, NOW, Asked(job=refit)).hands[0].cards
    said = {
        "command": out.getvalue(),
        "paper": " ".join((*card.facts, *card.blocks)),
        **{path: words(text(owner, path)) for path in ("/", "/plan/", f"/cars/{car.pk}/", f"/jobs/{refit.pk}/")},
    }
    for where, sentences in said.items():
        assert "05:55" in sentences, where
        assert "ready Wed 06:00" not in sentences, where


def test_a_cure_that_began_on_another_day_says_on_which(cast, owner, car):
    primed = job(car, cast, "Prime the arm", state=State.DONE, finished_at=NOW - DAY)
    LinkFactory(before=primed, after=job(car, cast, "Refit the arm"), wait_minutes=36 * 60)
    planned(cast.garage)
    assert "Mon 17:00 cures Prime the arm Ready Wed 05:00" in main(owner)


@pytest.mark.parametrize(
    ("state", "over"),
    [({"state": State.DONE, "finished_at": NOW - HOUR}, "Thu 1 Apr 16:00"), ({}, "Thu 1 Apr 19:00")],
)
def test_a_plain_wait_that_outlasts_the_plan_wants_no_warmth(cast, owner, car, state, over):
    primed = job(car, cast, "Prime the arm", **state)
    LinkFactory(before=primed, after=job(car, cast, "Refit the arm"), wait_minutes=30 * 24 * 60)
    planned(cast.garage)
    said = main(owner)
    assert f"Ready {over}" in said
    assert "warmer" not in said
