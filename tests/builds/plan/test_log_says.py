"""What finished jobs say of the figures, and counting with it only when the owner wants that."""

from datetime import timedelta

import pytest

from builds.plan.facts.figures import figures_of
from builds.plan.facts.log_factors import factors_that_count, log_factors
from builds.work.facts.work import load_work
from builds.work.models.span import Span
from tests.conftest import queries
from tests.factories import NOW, JobFactory, VehicleFactory


def finished(car, cast, minutes, *, systems=("brakes",), likely=60):
    job = JobFactory(
        vehicle=car,
        systems=list(systems),
        low_minutes=likely,
        likely_minutes=likely,
        high_minutes=likely,
        state="done",
        finished_at=NOW,
    )
    since = NOW - timedelta(minutes=minutes)
    Span.objects.create(job=job, state="in_hand", from_at=since, until_at=NOW, by=cast.owner)
    return job


@pytest.fixture
def car(cast):
    return VehicleFactory(garage=cast.garage)


def test_jobs_that_took_twice_as_long_say_so_more_firmly_the_more_there_are(cast, car):
    finished(car, cast, 120)
    one = log_factors(cast.garage)["brakes"].times
    for _ in range(15):
        finished(car, cast, 120)
    many = log_factors(cast.garage)["brakes"]
    assert one == pytest.approx(2 ** (1 / 5)) and many.times == pytest.approx(2 ** (16 / 20))
    assert many.jobs == 16


def test_the_page_says_it_in_a_sentence(viewer, cast, car):
    for _ in range(8):
        finished(car, cast, 120)
    page = viewer.get("/plan/log/").content.decode()
    assert "Your brakes jobs take 1.6 times what you write down (8 jobs)." in page
    assert "The odds take the figures as they are written." in page


def test_nothing_counts_until_the_owner_says_so(owner, cast, car):
    finished(car, cast, 120)
    job = JobFactory(vehicle=car, systems=["brakes"])
    assert factors_that_count(cast.garage) == {}
    owner.press("/plan/log/count/", {"count": "yes"})
    cast.garage.refresh_from_db()
    found = factors_that_count(cast.garage)
    times = found["brakes"].times
    figures = figures_of(job, load_work(cast.garage, NOW), found)
    assert times > 1
    assert figures == pytest.approx(
        tuple(times * each for each in (job.low_minutes, job.likely_minutes, job.high_minutes))
    )
    owner.press("/plan/log/count/", {"count": "no"})
    cast.garage.refresh_from_db()
    assert factors_that_count(cast.garage) == {}


def test_what_is_said_to_be_left_by_hand_is_not_stretched(owner, cast, car):
    finished(car, cast, 120)
    job = JobFactory(vehicle=car, systems=["brakes"], left_minutes=30)
    found = log_factors(cast.garage)
    work = load_work(cast.garage, NOW)
    assert figures_of(job, work, found) == figures_of(job, work, {})


def test_a_helper_cannot_switch_it(helper, cast):
    assert helper.press("/plan/log/count/", {"count": "yes"}).status_code == 403
    cast.garage.refresh_from_db()
    assert not cast.garage.log_counts


def test_another_garages_jobs_say_nothing_here(cast):
    finished(VehicleFactory(garage=cast.stranger.garage), cast, 300)
    assert log_factors(cast.garage) == {}


def test_jobs_without_time_or_without_a_figure_say_nothing(cast, car):
    JobFactory(vehicle=car, systems=["brakes"], state="done", finished_at=NOW)
    assert log_factors(cast.garage) == {}


def test_one_job_or_thirty_take_the_same_queries(owner, cast, car):
    finished(car, cast, 120)
    one = queries(owner, "/plan/log/")
    for _ in range(29):
        finished(car, cast, 90, systems=("engine",))
    assert queries(owner, "/plan/log/") == one
