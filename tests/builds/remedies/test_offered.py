"""What it would take is offered below 8 times out of 10, on every page by the same rule, and judged as it says."""

import re

import pytest

from builds.remedies.deeds.session import SessionDeed
from builds.remedies.pages.known import read_seconds
from garage.models import DayHours
from tests.builds.plan.plan_kit import enter, job, outlook_of, planned, text
from tests.builds.remedies.remedy_kit import DAY, HOUR, TOMORROW, address, apply, codes, lonely_car, said_on
from tests.factories import NOW

pytestmark = [pytest.mark.once, pytest.mark.django_db, pytest.mark.usefixtures("now")]


@pytest.fixture
def car(cast):
    return lonely_car(cast)


def one_evening(cast, car, leaves=NOW + 2 * DAY, **figures):
    """Ines has four hours before the car leaves; odds are found as the page of them is looked at."""
    job(car, cast, "Fit the fan", **figures)
    entry = enter(car, leaves)
    planned(cast.garage)
    cast.client("owner").get("/plan/odds/")
    return entry


@pytest.fixture
def touch_and_go(cast, car):
    return one_evening(cast, car, low_minutes=150, likely_minutes=210, high_minutes=420)


def pages(entry):
    return ("/", "/plan/", f"/cars/{entry.vehicle_id}/", f"/events/{entry.event_id}/")


def offered(owner, entry):
    return {f'href="{address(entry)}"' in text(owner, page) for page in pages(entry)}


def test_in_time_by_the_plan_and_below_8_of_10_runs(owner, touch_and_go):
    outlook = outlook_of(owner)
    assert outlook.outcome.in_time and outlook.sentence.startswith("Touch and go")
    assert offered(owner, touch_and_go) == {True}
    assert "What would help" in said_on(owner, address(touch_and_go))


def test_from_8_of_10_runs_on_nothing_is_asked(owner, cast, car):
    entry = one_evening(cast, car, low_minutes=60, likely_minutes=90, high_minutes=120)
    assert outlook_of(owner).makes_it
    assert offered(owner, entry) == {False}
    assert "What would help" not in said_on(owner, address(entry))


def test_late_by_the_plan_before_the_odds_are_found(owner, cast, car):
    job(car, cast, "Fit the fan", likely_minutes=360, high_minutes=360)
    entry = enter(car, NOW + 2 * DAY)
    planned(cast.garage)
    assert offered(owner, entry) == {True}


def test_a_car_that_should_have_left_is_past_it(owner, cast, car):
    entry = one_evening(cast, car, leaves=NOW - HOUR / 4, likely_minutes=60)
    assert "it should have left" in outlook_of(owner).sentence
    assert offered(owner, entry) == {False}
    assert "What would help" not in said_on(owner, address(entry))


def test_what_makes_it_likelier_is_judged_by_the_odds_and_says_so(owner, touch_and_go):
    said = said_on(owner, address(touch_and_go, "?whole"))
    assert "times with each, least trouble first" in said
    runs = int(re.search(r"the work was gone through (\d+) times", said)[1])
    assert 20 <= runs <= 100
    told = re.findall(
        rf"Heron is then in time (\d+) times out of {runs}; as things are, (\d+) times out of {runs}", said
    )
    assert told
    assert all(int(then) >= 0.8 * runs > int(now) for then, now in told)
    code = next(code for code in codes(owner, touch_and_go) if code.startswith("session"))
    apply(owner, touch_and_go, code)
    assert DayHours.objects.exists()
    owner.get("/plan/odds/")
    assert outlook_of(owner).makes_it
    assert offered(owner, touch_and_go) == {False}


def test_what_is_not_enough_is_told_as_the_nearest_so_far(owner, cast, car):
    entry = one_evening(cast, car, likely_minutes=900, high_minutes=900)
    said = said_on(owner, address(entry))
    assert "Not enough, but nearest of what was tried so far:" in said or "Not enough, but nearest of all:" in said
    assert "still too late." in said
    assert "Heron is then ready" in said[said.index("Not enough") :]


class TestTenSeconds:
    def more(self, owner, entry, query):
        return owner.get(address(entry, f"more/?{query}"), headers={"HX-Request": "true"}).content.decode()

    def test_after_ten_seconds_somebody_says_whether_to_go_on(self, owner, touch_and_go, monkeypatch):
        monkeypatch.setattr("builds.remedies.actions.hunts.A_ROUND", 0)
        assert "hx-trigger" in self.more(owner, touch_and_go, "known=1&spent=20")
        body = self.more(owner, touch_and_go, "known=1&spent=100")
        assert "hx-trigger" not in body[body.index('id="remedy-more"') :]
        assert re.search(r"1\d seconds are over: 2 changes tried so far", body)
        assert "Go on" in body

    @pytest.mark.parametrize("spent", ["", "-5", "x", "٣", "99999999"])
    def test_what_is_no_time_counts_as_none(self, owner, touch_and_go, spent):
        assert "seconds are over" not in self.more(owner, touch_and_go, f"known=1&spent={spent}")

    @pytest.mark.parametrize(
        ("asked", "seconds"), [(None, None), ("", 10), ("9", 10), ("11", 11), ("60", 60), ("61", 60), ("x", 10)]
    )
    def test_before_a_page_is_shown_it_tries_as_long_as_asked(self, asked, seconds):
        assert read_seconds(asked) == seconds


def test_a_session_that_the_plan_needs_not_makes_a_car_likelier(owner, cast, touch_and_go):
    odds = said_on(owner, address(touch_and_go, f"odds/?do={SessionDeed(cast.owner.pk, 600, 1320, TOMORROW).code}"))
    assert "Ready in time 400 times out of 400" in odds
