"""The plan with cures and the weather in it: a cold night moves what follows, so does a reading."""

from datetime import timedelta

import pytest

from builds.cure.models.product import OwnProduct
from builds.plan.actions.follow import follow, make_plan
from builds.plan.facts.problem import build_problem
from builds.plan.facts.stored import read as read_plan
from builds.plan.facts.stored import shown
from builds.shop.actions import shop
from builds.work.models.job import Job
from garage import writes
from garage.models import Garage
from tests.builds.plan.plan_kit import enter, evenings, job, main, planned, starts, worked
from tests.conftest import queries
from tests.factories import NOW, LinkFactory, VehicleFactory

pytestmark = pytest.mark.usefixtures("now")
TODAY = NOW.date()
HOUR, DAY = timedelta(hours=1), timedelta(days=1)
WELD, PRIME, REFIT = "Weld the arm", "Prime the arm", "Refit the arm"


@pytest.fixture
def car(cast):
    return VehicleFactory(garage=cast.garage, name="Heron")


@pytest.fixture
def chain(cast, car):
    """Weld, prime, cure overnight, refit: an hour each, with somebody in morning and evening."""
    evenings(cast.owner)
    evenings(cast.owner, since=6, until=12)
    weld, prime, refit = (job(car, cast, title=title) for title in (WELD, PRIME, REFIT))
    LinkFactory(before=weld, after=prime)
    LinkFactory(
        before=prime,
        after=refit,
        why="the primer cures",
        cure="epoxy-primer",
        cure_stage="handle",
    )
    enter(car, leaves=NOW + 5 * DAY)
    return weld, prime, refit


def days(cast, **given):
    """Low and high in °C: `d0=(10, 20)` is today."""
    rows = {TODAY + int(name[1:]) * DAY: (low * 1000, high * 1000) for name, (low, high) in given.items()}
    shop.set_days(cast.garage, rows)


def read(cast, celsius, humidity=None, at=NOW):
    shop.read(cast.garage, by=cast.owner, at=at, air_mc=celsius * 1000, humidity=humidity)


def refit_at(cast, at=NOW):
    return starts(planned(cast.garage, at))[REFIT][0]


def test_weld_prime_cure_overnight_refit(cast, owner, chain):
    days(cast, d0=(20, 20))
    assert {title: row[:2] for title, row in starts(planned(cast.garage)).items()} == {
        WELD: ("Tue 18:00", "Tue 19:00"),
        PRIME: ("Tue 19:00", "Tue 20:00"),
        REFIT: ("Wed 10:00", "Wed 11:00"),  # 14 h at 20 °C
    }
    assert "The primer cures: Wed 10:00" in main(owner)


@pytest.mark.parametrize(
    ("wednesday", "cured", "starts_at"),
    [
        # Cured at 13:15, 15:50 and 21:46, by adding up the rate of the sheet in steps of 6 s.
        ((16, 20), "Wed 13:15", "Wed 18:00"),
        ((12, 20), "Wed 16:00", "Wed 18:00"),
        ((6, 20), "Wed 22:00", "Thu 06:00"),
    ],
)
def test_a_cold_night_moves_the_refit(cast, chain, wednesday, cured, starts_at):
    days(cast, d0=(20, 20), d1=wednesday, d2=(20, 20))
    plan = planned(cast.garage)
    (cure,) = [link for link in plan.problem.links if link.ready]
    assert plan.clock.words(cure.opens(plan.placed[cure.before].end)) == cured
    assert starts(plan)[REFIT][0] == starts_at


def test_a_heated_night_brings_it_back(cast, chain):
    days(cast, d0=(2, 8))
    assert REFIT not in starts(planned(cast.garage))
    for weekday in range(7):
        shop.heat(cast.garage, weekdays=[weekday], day=None, hours=[(0, 1440)], warm_mc=20_000)
    assert refit_at(cast) == "Wed 10:00"


def test_where_it_never_cures_the_plan_says_why(cast, owner, chain):
    days(cast, d0=(2, 8))
    plan = planned(cast.garage)
    (left,) = plan.unplaced.values()
    assert left.id == f"job-{chain[2].pk}"
    assert "after “Prime the arm”." in left.why
    assert owner.get("/plan/").status_code == 200


def followed(cast):
    """The plan on the wall once a write was counted, and whether it is another than before."""
    before = shown(cast.garage).row
    writes.count(cast.garage.pk, at=NOW)
    follow(Garage.objects.get(pk=cast.garage.pk), at=NOW)
    plan = shown(cast.garage)
    return plan, plan.row != before


def test_a_logged_reading_moves_the_refit_and_the_plan_follows(cast, owner, chain):
    days(cast, d0=(20, 20))
    assert refit_at(cast) == "Wed 10:00"
    read(cast, 12)
    plan, anew = followed(cast)
    assert (anew, starts(plan)[REFIT][0]) == (True, "Wed 18:00")
    assert followed(cast)[1] is False


@pytest.mark.parametrize(
    "act",
    [
        lambda cast: days(cast, d2=(1, 2)),
        lambda cast: shop.hold_at(cast.garage, TODAY, 9_000),
        lambda cast: shop.heat(cast.garage, weekdays=[4], day=None, hours=[(60, 120)], warm_mc=25_000),
        lambda cast: shop.heat(cast.garage, weekdays=[], day=TODAY + DAY, hours=[(60, 120)], warm_mc=25_000),
    ],
)
def test_whatever_is_entered_about_the_weather_has_the_plan_follow(cast, chain, act):
    days(cast, d0=(20, 20))
    planned(cast.garage)
    act(cast)
    assert followed(cast)[1]


def test_weather_that_no_job_asks_for_changes_nothing(cast, car):
    evenings(cast.owner)
    job(car, cast)
    planned(cast.garage)
    read(cast, 3)
    assert not followed(cast)[1]


def test_another_data_sheet_changes_the_job_that_waits(cast, chain):
    days(cast, d0=(20, 20))
    planned(cast.garage)
    OwnProduct.objects.create(
        garage=cast.garage,
        slug="epoxy-primer",
        name="Epoxy primer",
        body={"slug": "epoxy-primer", "name": "Epoxy", "stages": {"handle": {"hours": 30}}},
        changed_at=NOW,
    )
    plan, anew = followed(cast)
    assert (anew, starts(plan)[REFIT][0]) == (True, "Thu 06:00")


def test_a_cure_that_runs_opens_the_refit_as_the_shop_has_it(cast, owner, chain):
    days(cast, d0=(20, 20))
    weld, prime, _ = chain
    weld.delete()
    Job.objects.filter(pk=prime.pk).update(state="done", finished_at=NOW - 2 * HOUR)
    assert refit_at(cast) == "Wed 06:00"  # ready 05:00, before anybody is in
    assert (
        "Waits for “Prime the arm”: the primer cures, ready Wed 05:00; the first session after"
        " that begins Wed 06:00." in main(owner)
    )
    read(cast, 12)
    assert refit_at(cast) > "Wed 06:00"


def test_paint_waits_until_it_is_warm_enough(cast, owner, car):
    evenings(cast.owner, since=6, until=22)
    paint = job(car, cast, title="Paint", needs_mc=15_000)
    days(cast, d0=(4, 16), d1=(4, 18))
    # Half cosines by hand: below 15 °C from 17:14 today, above it from 11:19 to 18:40 tomorrow.
    assert starts(planned(cast.garage))["Paint"][0] == "Wed 11:30"
    view = owner.get(f"/jobs/{paint.pk}/").context["view"].waits.weather
    assert view.asks == "At least 15 °C"
    assert view.against == ()
    assert view.windows[0] == "Wed 11:30–18:30"


def test_where_it_is_never_warm_enough_the_plan_says_what_to_do(cast, owner, car):
    evenings(cast.owner)
    paint = job(car, cast, title="Paint", needs_mc=15_000)
    days(cast, d0=(4, 8))
    (left,) = planned(cast.garage).unplaced.values()
    assert left.why == (
        "The shop is at no time within the plan as warm or dry as it asks for: heat it, or lower what the job needs."
    )
    body = owner.get(f"/jobs/{paint.pk}/").content.decode()
    assert "At no time in the next seven days." in body


def test_wet_air_keeps_the_paint_back_and_heat_lets_it_go(cast, owner, car):
    evenings(cast.owner)
    paint = job(car, cast, title="Paint", needs_mc=10_000, needs_dry=True)
    days(cast, d0=(12, 12))
    assert starts(planned(cast.garage))["Paint"][0] == "Tue 18:00"
    assert "No humidity was read lately" in owner.get(f"/jobs/{paint.pk}/").content.decode()
    read(cast, 12, humidity=90)
    assert "Paint" not in starts(planned(cast.garage))
    weather = owner.get(f"/jobs/{paint.pk}/").context["view"].waits.weather
    assert weather.against == (
        "The air is at 12 °C and the dew point at 10.4 °C.",
        "The air is at 90 % relative humidity.",
    )
    assert "cold steel in warming air stays colder than the air, and sweats" in weather.metal
    assert weather.metal in owner.get(f"/jobs/{paint.pk}/").content.decode()
    shop.heat(cast.garage, weekdays=[3], day=None, hours=[(1080, 1320)], warm_mc=18_000)
    assert starts(planned(cast.garage))["Paint"][0] == "Thu 18:00"
    weather = owner.get(f"/jobs/{paint.pk}/").context["view"].waits.weather
    assert weather.windows == ("Thu 18:00–22:00",)


def test_a_coat_that_the_plan_leaves_too_long_is_sanded_first(cast, owner, car):
    evenings(cast.owner)
    days(cast, d0=(20, 20))
    first = job(car, cast, title="First coat")
    second = job(car, cast, title="Second coat", earliest_at=NOW + 1 * DAY)
    LinkFactory(before=first, after=second, cure="topcoat-2k", cure_stage="recoat_from")
    planned(cast.garage)
    assert "Sand “First coat” first" not in main(owner)
    Job.objects.filter(pk=second.pk).update(earliest_at=NOW + 3 * DAY)
    planned(cast.garage)  # 48 h at 20 °C after Tuesday 19:00
    assert "Sand “First coat” first: its recoat window closes Thu 19:00" in main(owner)


def test_links_that_cure_alike_are_stored_with_one_table(cast, car, chain):
    days(cast, d0=(20, 20))
    for _ in range(5):
        coat, after = job(car, cast), job(car, cast)
        LinkFactory(before=coat, after=after, cure="epoxy-primer", cure_stage="handle")
    row = make_plan(cast.garage, at=NOW)
    assert len(row.problem["ready"]) == 1
    plan = read_plan(row, cast.garage)
    assert plan.problem == build_problem(cast.garage, NOW)[0]
    assert len([link for link in plan.problem.links if link.ready]) == 6


def test_a_job_in_hand_goes_on_whatever_the_weather(cast, car):
    evenings(cast.owner)
    days(cast, d0=(4, 8))
    row = job(car, cast, title="Paint", needs_mc=15_000, state="in_hand")
    worked(row, NOW - HOUR / 2, None, cast.owner)
    assert "Paint" in starts(planned(cast.garage))


def test_the_form_of_a_job_takes_what_it_asks_of_the_weather(owner, cast, car):
    cast.garage.units = "imperial"
    cast.garage.save()
    form = {
        "title": "Paint",
        "vehicle": car.pk,
        "likely": "1 h",
        "hands": 1,
        "weight": 1,
        "needs_mc": "50",
        "needs_dry": "on",
    }
    assert owner.press(f"/cars/{car.pk}/jobs/add/", form).status_code == 303
    row = Job.objects.get()
    assert (row.needs_mc, row.needs_dry) == (10_000, True)
    assert "At least 50 °F, the metal 5.4 °F above" in owner.get(f"/jobs/{row.pk}/").content.decode()
    answer = owner.press(f"/jobs/{row.pk}/edit/", {**form, "needs_mc": "500"})
    assert answer.context["form"].errors["needs_mc"] == ["It must lie between -40 °F and 140 °F."]


def test_as_many_queries_for_thirty_cures_as_for_one(owner, cast, car, chain):
    days(cast, d0=(20, 20))
    planned(cast.garage)
    first = queries(owner, "/plan/")
    for _ in range(30):
        prime, refit = (job(car, cast, title=title, needs_mc=10_000, needs_dry=True) for title in (PRIME, REFIT))
        LinkFactory(before=prime, after=refit, cure="topcoat-2k", cure_stage="handle")
    planned(cast.garage)
    assert queries(owner, "/plan/") == first
