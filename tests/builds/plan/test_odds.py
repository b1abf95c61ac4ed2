"""The odds of the plan on the wall, in sentences, for whoever may look."""

from datetime import timedelta

import pytest

from builds.plan.actions import odds as odds_action
from builds.plan.actions.follow import make_plan
from tests.conftest import queries
from tests.factories import (
    NOW,
    EntryFactory,
    EventFactory,
    JobFactory,
    LinkFactory,
    MemberHoursFactory,
    VehicleFactory,
)


@pytest.fixture
def heron(cast, now):
    for weekday in range(7):
        MemberHoursFactory(member=cast.owner, weekday=weekday)
    car = VehicleFactory(garage=cast.garage, name="Heron")
    event = EventFactory(garage=cast.garage, gates_at=NOW + timedelta(days=2))
    EntryFactory(event=event, vehicle=car)
    return car


def plan(cast):
    make_plan(cast.garage, at=NOW)


def test_short_work_is_ready_in_every_run(viewer, cast, heron):
    JobFactory(vehicle=heron, title="Fit the horn", rank="needed")
    plan(cast)
    page = viewer.get("/plan/odds/").content.decode()
    assert "Makes it: in time 1,000 times out of 1,000, and 8 times out of 10 ready by " in page
    assert "; there is time for " in page and " more work." in page
    assert "What more a car can take is reckoned for that car alone: it may be paid for by the others." in page
    assert "“Fit the horn”</a>: Held Heron up" in page and " 1,000 times out of 1,000." in page


def test_the_picture_says_in_words_on_which_day_it_was_ready(viewer, cast, heron):
    JobFactory(vehicle=heron, rank="needed")
    plan(cast)
    page = viewer.get("/plan/odds/").content.decode()
    (car,) = viewer.get("/plan/odds/").context["view"].cars
    assert car.picture.said.startswith("Ready ") and "1,000 times" in car.picture.said
    assert f'aria-label="{car.picture.said}"' in page and "<rect" in page
    assert sum(bar.in_time > 0 for bar in car.picture.bars) == 1
    assert car.picture.leaves_x <= car.picture.width


def test_work_that_fights_back_is_ready_in_some(owner, cast, heron):
    JobFactory(vehicle=heron, low_minutes=60, likely_minutes=420, high_minutes=900)
    plan(cast)
    (car,) = owner.get("/plan/odds/").context["view"].cars
    assert " out of 1,000" in car.outlook
    assert "all of" not in car.outlook and "none of" not in car.outlook
    assert car.band.endswith(" % as far as so many can tell.")


def test_a_reload_runs_nothing_and_new_figures_run_again(owner, cast, heron, monkeypatch):
    job = JobFactory(vehicle=heron, low_minutes=60, likely_minutes=120, high_minutes=300)
    plan(cast)
    asked = []
    real = odds_action.simulate
    monkeypatch.setattr(odds_action, "simulate", lambda *a, **k: asked.append(1) or real(*a, **k))
    owner.get("/plan/odds/")
    owner.get("/plan/odds/")
    assert asked == [1]
    job.high_minutes = 301
    job.save()
    owner.get("/plan/odds/")
    assert asked == [1, 1]


def test_without_a_plan_it_says_so(owner, cast, heron):
    words = " ".join(owner.get("/plan/odds/").content.decode().split())
    assert "Nothing is planned yet." in words


def test_the_plan_page_loads_them_after_itself_and_links_to_them(owner, cast, heron):
    JobFactory(vehicle=heron)
    plan(cast)
    page = owner.get("/plan/").content.decode()
    assert 'hx-get="/plan/odds/"' in page and 'href="/plan/odds/"' in page


def test_as_many_queries_for_three_as_for_one(owner, cast, heron):
    JobFactory(vehicle=heron)
    plan(cast)
    one = queries(owner, "/plan/odds/")
    for _ in range(3):
        car = VehicleFactory(garage=cast.garage)
        JobFactory(vehicle=car)
        EntryFactory(event__garage=cast.garage, vehicle=car)
    plan(cast)
    assert queries(owner, "/plan/odds/") == one


def test_loading_them_wipes_no_message_and_redraws_no_board(owner, cast, heron):
    JobFactory(vehicle=heron)
    plan(cast)
    piece = owner.get("/plan/odds/", headers={"HX-Request": "true"}).content.decode()
    whole = owner.get("/plan/odds/", headers={"HX-Request": "true", "HX-Target": "main"}).content.decode()
    for mark in ('id="status"', 'id="alert"', 'id="key-board"', "<title>"):
        assert mark not in piece
        assert mark in whole


def test_work_on_another_car_that_holds_one_up_names_that_car(viewer, cast, heron):
    badger = VehicleFactory(garage=cast.garage, name="Badger")
    weld = JobFactory(vehicle=badger, title="Weld the hanger", rank="needed")
    LinkFactory(before=weld, after=JobFactory(vehicle=heron, title="Fit the horn", rank="needed"))
    plan(cast)
    page = " ".join(viewer.get("/plan/odds/").content.decode().split())
    assert "“Weld the hanger”</a> on Badger: Held" in page
    assert "“Fit the horn”</a>: Held" in page
