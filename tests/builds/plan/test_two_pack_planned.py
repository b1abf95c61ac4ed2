"""Nobody else is planned into the shop while two-pack paint is sprayed, nor until the air has cleared."""

import pytest

from builds.odds.course import Course
from builds.plan.facts.problem import build_problem
from builds.work.models.job import Job
from garage.models import Membership
from tests.builds.events.night_kit import make_fair
from tests.builds.plan.plan_kit import evenings, job, planned, starts
from tests.factories import NOW, JobStationFactory, StationFactory, VehicleFactory
from tests.pages import words

pytestmark = pytest.mark.usefixtures("now")


@pytest.fixture
def wren(cast):
    """Two are in, on every evening."""
    for member in (cast.owner, cast.helper):
        evenings(member)
    return VehicleFactory(garage=cast.garage, name="Wren")


def reason(plan, row):
    return plan.reasons[f"job-{row.pk}"].sentence


@pytest.fixture
def spray(wren, cast):
    return job(wren, cast, "Paint the arm", kinds=["two_pack"], rank="safety")


@pytest.fixture
def heron(cast):
    return VehicleFactory(garage=cast.garage, name="Heron")


def test_nobody_else_works_in_the_shop_while_two_pack_paint_is_sprayed(cast, spray, heron):
    other = job(heron, cast, "Fit the fan", rank="wanted")
    plan = planned(cast.garage)
    assert starts(plan)["Fit the fan"][0] == "Tue 19:30"
    assert reason(plan, other) == (
        "The shop has two-pack paint in the air for “Paint the arm” until Tue 19:30, so “Fit the fan” waits."
    )
    (shop,) = plan.problem.stations
    assert (shop.name, shop.capacity, shop.windows, shop.stands) == ("the shop", 2, None, False)


def test_spraying_waits_until_the_shop_is_empty(cast, spray, heron):
    job(heron, cast, "Fit the fan", rank="safety")
    Job.objects.filter(pk=spray.pk).update(rank="wanted")
    plan = planned(cast.garage)
    assert starts(plan)["Paint the arm"][0] == "Tue 19:00"
    assert reason(plan, spray) == ("The shop is worked in for “Fit the fan” until Tue 19:00, so “Paint the arm” waits.")


def test_whoever_sprays_alone_is_out_too_until_the_air_has_cleared_and_every_run_of_the_odds_waits(cast, spray, heron):
    Membership.objects.filter(pk=cast.helper.pk).update(works=False)
    job(heron, cast, "Fit the fan", rank="needed")
    problem, _ = build_problem(cast.garage, NOW)
    assert {one.title: one.clears for one in problem.jobs} == {"Paint the arm": 2, "Fit the fan": 0}
    (shop,) = problem.stations
    assert shop.capacity == 2, "so that not every job has all of it, where one person works"
    assert starts(planned(cast.garage))["Fit the fan"][0] == "Tue 19:30"
    (end, over), _ = Course(problem).run([5, 4])
    assert over - end == 2 + 4


def test_what_hardens_by_itself_or_is_done_on_the_driveway_goes_on_beside_it(cast, spray, heron):
    job(heron, cast, "Let it harden", hands=0, rank="wanted")
    driveway = StationFactory(garage=cast.garage, slug="driveway", name="Yard")
    JobStationFactory(job=job(heron, cast, "Bleed it", rank="wanted"), station=driveway)
    plan = planned(cast.garage)
    assert {row[0] for name, row in starts(plan).items() if name != "Let it harden"} == {"Tue 18:00"}
    assert [station.id for station in plan.problem.stations] == [f"station-{driveway.pk}"]


def test_who_is_in_the_paddock_breathes_other_air(cast, spray):
    fair = make_fair(cast)
    fair.event.people.add(cast.helper)
    fair.overnight()
    assert not any(station.id.startswith("shop-") for station in build_problem(cast.garage, NOW)[0].stations)


def test_what_is_typed_as_two_pack_is_planned_alone_in_the_shop_and_in_one_go(cast, wren, heron, owner):
    job(heron, cast, "Fit the fan", rank="safety", likely_minutes=120, high_minutes=180)
    typed = {"title": "Spray the bonnet with 2K lacquer", "likely": "3", "splits": "on", "systems": ["paint"]}
    owner.press(f"/cars/{wren.pk}/jobs/add/", {**typed, "vehicle": wren.pk, "hands": "1", "weight": "1"})
    placed = starts(planned(cast.garage))
    assert placed["Fit the fan"][:2] == ("Tue 18:00", "Tue 20:00")
    assert placed["Spray the bonnet with 2K lacquer"][:2] == ("Wed 18:00", "Wed 21:00")
    coat = Job.objects.get(title__startswith="Spray")
    page = words(owner.get(f"/jobs/{coat.pk}/").content.decode())
    assert coat.splits and "In one go yes" in page and "everyone else out" in page
