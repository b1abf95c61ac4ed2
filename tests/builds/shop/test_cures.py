"""Cures: clocks that the weather moves, recoat windows that close, coats sanded first."""

import re
from datetime import timedelta

import pytest

from builds.cure.models.shop import TemperatureReading
from builds.shop.actions import cures
from builds.shop.actions.shop import hold_at
from builds.shop.pages.cures import running_cures
from builds.work.facts.work import load_work
from builds.work.models.job import Job
from builds.work.models.link import Link
from garage.actions.refused import Refused
from tests.conftest import queries
from tests.factories import NOW, JobFactory, LinkFactory, VehicleFactory

pytestmark = pytest.mark.usefixtures("now")
HOUR = timedelta(hours=1)


@pytest.fixture
def car(cast):
    return VehicleFactory(garage=cast.garage, name="Heron")


@pytest.fixture
def at_20(cast):
    hold_at(cast.garage, (NOW - timedelta(days=30)).date(), 20_000)


def coated(car, hours_ago=3, stage="recoat_from", cure="epoxy-primer", **more):
    """A finished coat, and the one that waits for it."""
    primed = JobFactory(vehicle=car, title="Prime the arm", state="done", finished_at=NOW - hours_ago * HOUR)
    after = JobFactory(vehicle=car, title="Paint the arm")
    why = "the primer cures"
    LinkFactory(before=primed, after=after, cure=cure, cure_stage=stage, why=why, **more)
    return primed, after


def clocks(cast, at=NOW):
    return running_cures(load_work(cast.garage, at))


def read(cast, celsius, hours_ago=0):
    TemperatureReading.objects.create(
        garage=cast.garage, at=NOW - hours_ago * HOUR, air_mc=celsius * 1000, by=cast.owner
    )


def test_a_clock_says_what_cures_how_far_and_until_when(cast, car, at_20):
    primed, after = coated(car)
    (clock,) = clocks(cast)
    assert (clock.job, clock.follower, clock.product, clock.stage) == (
        primed,
        after,
        "Epoxy primer, two-pack",
        "ready for the next coat",
    )
    assert clock.ready_at == NOW + 5 * HOUR  # 8 h at 20 °C
    assert (clock.progress, clock.percent) == (pytest.approx(3 / 8), 37)
    assert clock.sentence == "The next coat goes on without sanding until Tue 9 Mar 14:00."
    assert not clock.sand


def test_the_clock_is_on_today_the_car_and_both_jobs(owner, car, at_20):
    primed, after = coated(car)
    for path in ("/", f"/cars/{car.pk}/", f"/jobs/{primed.pk}/", f"/jobs/{after.pk}/", "/shop/"):
        body = owner.get(path).content.decode()
        assert "ready 22:00" in body, path
        assert re.search(r'<progress\s+value="37"\s+max="100"', body), path


def test_a_job_waits_until_it_has_cured(owner, cast, car, at_20, clock):
    _, after = coated(car)
    answer = owner.press(f"/jobs/{after.pk}/start/", follow=True)
    assert "The primer cures: ready 22:00." in answer.content.decode()
    after.refresh_from_db()
    assert after.state == "open"
    clock.forward(hours=5)
    assert owner.press(f"/jobs/{after.pk}/start/").status_code == 303
    after.refresh_from_db()
    assert after.state == "in_hand"


def test_a_logged_temperature_moves_the_clock(owner, cast, car, at_20):
    coated(car)
    (before,) = clocks(cast)
    owner.press("/shop/read/", {"air_mc": "12"})
    (colder,) = clocks(cast)
    assert colder.ready_at > before.ready_at + HOUR
    assert colder.progress < before.progress
    TemperatureReading.objects.all().delete()
    owner.press("/shop/read/", {"air_mc": "26"})
    (warmer,) = clocks(cast)
    assert warmer.ready_at < before.ready_at


def test_too_cold_is_said_and_not_a_time(owner, cast, car):
    hold_at(cast.garage, (NOW - timedelta(days=30)).date(), 4_000)
    _, after = coated(car)
    (clock,) = clocks(cast)
    assert (clock.ready_at, clock.progress) == (None, 0)
    assert "Too cold to cure" in clock.sentence
    assert "It was too cold to cure for 3 h so far" in clock.sentence
    for path in ("/", f"/cars/{car.pk}/", f"/jobs/{after.pk}/", "/plan/"):
        assert owner.get(path).status_code == 200
    assert "ready when it is warmer" in owner.get("/").content.decode()
    answer = owner.press(f"/jobs/{after.pk}/start/", follow=True)
    assert "The primer cures: ready when it is warmer." in answer.content.decode()


def test_a_plain_wait_has_a_clock_too(cast, car):
    coated(car, stage="", cure="", wait_minutes=600)
    (clock,) = clocks(cast)
    assert (clock.product, clock.ready_at, clock.progress) == ("", NOW + 7 * HOUR, 0.3)
    assert clock.sentence == ""


def test_a_product_that_is_gone_leaves_the_wait_it_came_with(cast, car):
    coated(car, cure="own-recipe-lacquer", wait_minutes=600)
    (clock,) = clocks(cast)
    assert clock.ready_at == NOW + 7 * HOUR


def test_a_window_that_closes_soon_warns_with_its_date_though_the_coat_is_ready(cast, car, at_20):
    coated(car, hours_ago=168 - 30)
    (clock,) = clocks(cast)
    assert clock.sentence == "The next coat goes on without sanding until Wed 23:00."
    assert (clock.progress, clock.sand) == (1, False)
    Job.objects.update(finished_at=NOW - 60 * HOUR)
    assert clocks(cast) == []


def test_a_closed_window_offers_the_sanding_in_one_tap(helper, cast, car, at_20):
    primed, after = coated(car, hours_ago=170)
    (clock,) = clocks(cast)
    assert clock.sentence == ("The recoat window has closed: sand first, then coat; it closed 15:00.")
    assert (clock.card.stripe, clock.card.ready) == ("dashed", "sand first")
    assert "Write down the sanding" in helper.get("/").content.decode()
    answer = helper.press(f"/jobs/{after.pk}/sand/", {"next": "/"})
    assert (answer.status_code, answer["Location"]) == (303, "/")
    sanding = Job.objects.get(title="Sand before: Paint the arm")
    assert (sanding.vehicle, sanding.rank, sanding.made_by) == (car, "needed", cast.helper)
    assert set(Link.objects.values_list("before", "after", "cure_stage")) == {
        (primed.pk, sanding.pk, "handle"),
        (sanding.pk, after.pk, ""),
    }
    assert clocks(cast) == []  # 14 h until it can be handled are over


def test_sanding_waits_until_the_coat_is_hard_enough(cast, car, at_20):
    _, after = coated(car, hours_ago=10)
    sanding = cures.sand_first(after, by=cast.owner, at=NOW)
    (clock,) = clocks(cast)
    assert (clock.follower, clock.ready_at) == (sanding, NOW + 4 * HOUR)


def test_sanding_for_a_safety_job_is_no_safety_job_to_sign(cast, car, at_20):
    _, after = coated(car, hours_ago=170)
    after.rank = "safety"
    after.save()
    assert cures.sand_first(after, by=cast.owner, at=NOW).rank == "needed"


def test_sanding_twice_is_refused_with_the_reason(cast, car, at_20):
    _, after = coated(car, hours_ago=170)
    cures.sand_first(after, by=cast.owner, at=NOW)
    with pytest.raises(Refused, match=r"^No coat under Paint the arm waits to be sanded\.$"):
        cures.sand_first(after, by=cast.owner, at=NOW)


def test_bonded_glass_is_never_computed(owner, car):
    bond, release = JobFactory(vehicle=car, title="Bond"), JobFactory(vehicle=car, title="Release")
    path, data = f"/jobs/{release.pk}/links/add/", {"way": "before", "other": bond.pk}
    answer = owner.press(path, {**data, "cure": "screen-adhesive"})
    assert answer.status_code == 422
    assert answer.context["form"].errors["wait_minutes"] == [
        "Screen adhesive, bonded glass is never computed: enter the maker's time for the"
        " temperature and humidity you have."
    ]
    answer = owner.press(path, {**data, "cure": "screen-adhesive", "wait_minutes": "72 h"})
    assert answer.status_code == 303
    link = Link.objects.get()
    assert (link.wait_minutes, link.cure, link.cure_stage) == (72 * 60, "screen-adhesive", "")
    body = owner.get(f"/jobs/{release.pk}/").content.decode()
    assert "Screen adhesive, bonded glass: the maker&#x27;s time" in body and "then 3 d" in body
    assert "Do not drive on a fresh bonded screen before the maker&#x27;s time." in body
    assert "is below the 23 °C of the maker&#x27;s chart" in body


def test_a_cure_is_chosen_by_product_and_stage_instead_of_a_wait(owner, car):
    prime, paint = JobFactory(vehicle=car), JobFactory(vehicle=car)
    path = f"/jobs/{paint.pk}/links/add/"
    data = {"way": "before", "other": prime.pk, "cure": "epoxy-primer:recoat_from"}
    answer = owner.press(path, {**data, "wait_minutes": "16 h"})
    assert answer.context["form"].errors["wait_minutes"] == ["The time of this cure is computed: leave this empty."]
    owner.press(path, data)
    link = Link.objects.get()
    assert (link.cure, link.cure_stage, link.wait_minutes) == ("epoxy-primer", "recoat_from", 0)
    body = owner.get(f"/jobs/{paint.pk}/").content.decode()
    assert "until Epoxy primer, two-pack is ready for the next coat" in body


@pytest.mark.parametrize("cure", ["epoxy-primer", "epoxy-primer:recoat_to", "tar:full", ":full"])
def test_no_other_cure_can_be_sent(owner, car, cure):
    prime, paint = JobFactory(vehicle=car), JobFactory(vehicle=car)
    data = {"way": "before", "other": prime.pk, "cure": cure}
    answer = owner.press(f"/jobs/{paint.pk}/links/add/", data)
    assert answer.status_code == 422 and "cure" in answer.context["form"].errors


def test_an_unchanged_cure_keeps_the_guess_it_came_with(owner, car):
    coated(car, wait_minutes=960)
    link = Link.objects.get()
    form = owner.get(f"/links/{link.pk}/").context["form"]
    assert (form["wait_minutes"].value(), form["cure"].value()) == (
        None,
        "epoxy-primer:recoat_from",
    )
    owner.press(f"/links/{link.pk}/", {"cure": "epoxy-primer:recoat_from", "why": "it cures"})
    link.refresh_from_db()
    assert (link.wait_minutes, link.why) == (960, "it cures")
    owner.press(f"/links/{link.pk}/", {"cure": "", "wait_minutes": "20 h"})
    link.refresh_from_db()
    assert (link.wait_minutes, link.cure, link.cure_stage) == (1200, "", "")


def test_who_may_sand(cast, car, at_20):
    _, after = coated(car, hours_ago=170)
    for who, status in {"viewer": 403, "stranger": 404, "nobody": 302}.items():
        assert cast.client(who).press(f"/jobs/{after.pk}/sand/").status_code == status
    assert not Job.objects.filter(title__startswith="Sand").exists()


def test_as_many_queries_for_thirty_cures_as_for_one(owner, cast, car, at_20):
    _, after = coated(car)
    paths = ["/", f"/cars/{car.pk}/", f"/jobs/{after.pk}/", "/shop/"]
    first = [queries(owner, path) for path in paths]
    for hours in range(1, 31):
        signed, _ = coated(car, hours_ago=hours / 8)
        Job.objects.filter(pk=signed.pk).update(state="signed", signed_by=cast.helper, signed_at=NOW)
        read(cast, 18, hours_ago=hours)
    assert [queries(owner, path) for path in paths] == first
