"""No plan has somebody's hands in a car whose engine runs, or sparks near open fuel; and it says so in words."""

from datetime import timedelta
from types import SimpleNamespace

import pytest

from builds.plan.facts.basis import basis_of
from builds.plan.facts.problem import build_problem
from builds.plan.facts.rows import fetch
from builds.remedies.deeds.room import RoomDeed
from builds.remedies.engine.changes.room import more_room
from builds.steps.actions import links
from builds.work.models.job import Job
from builds.work.models.link import Link
from garage.models import Membership
from tests.builds.events.night_kit import make_fair
from tests.builds.plan.plan_kit import enter, evenings, job, main, planned, starts, worked
from tests.factories import NOW, MembershipFactory, VehicleFactory

pytestmark = pytest.mark.usefixtures("now")


@pytest.fixture
def wren(cast):
    """Two are in, on every evening."""
    for member in (cast.owner, cast.helper):
        evenings(member)
    return VehicleFactory(garage=cast.garage, name="Wren")


def both(wren, cast, *, first="wheel_off", then="engine_run", **more):
    """“Wheels off” by rank before “Warm it up”, an hour each."""
    job(wren, cast, "Wheels off", kinds=[first], rank="safety")
    return job(wren, cast, "Warm it up", kinds=[then], rank="wanted", **more)


def reason(plan, row):
    return plan.reasons[f"job-{row.pk}"].sentence


def test_whoever_runs_the_engine_has_the_car_to_himself(cast, wren):
    warm = both(wren, cast)
    plan = planned(cast.garage)
    assert starts(plan)["Wheels off"][:2] == ("Tue 18:00", "Tue 19:00")
    assert starts(plan)["Warm it up"][:2] == ("Tue 19:00", "Tue 20:00")
    assert reason(plan, warm) == (
        "The engine of Wren stays off for “Wheels off” until Tue 19:00, so “Warm it up” waits."
    )


def test_everybody_else_waits_for_the_engine_and_is_told_until_when(cast, wren, owner):
    warm = both(wren, cast)
    Job.objects.filter(pk=warm.pk).update(rank="safety")
    Job.objects.exclude(pk=warm.pk).update(rank="wanted")
    plan = planned(cast.garage)
    assert starts(plan)["Warm it up"][0] == "Tue 18:00"
    wheels = Job.objects.get(title="Wheels off")
    assert reason(plan, wheels) == "The engine of Wren runs for “Warm it up” until Tue 19:00, so “Wheels off” waits."
    assert "The engine of Wren runs for “Warm it up” until Tue 19:00." in main(owner)


def test_the_chain_of_a_car_says_it_in_the_same_words(cast, wren):
    warm = both(wren, cast)
    chain = planned(cast.garage).chain(f"job-{warm.pk}")
    assert chain[0].sentence.startswith("The engine of Wren stays off for “Wheels off”")


@pytest.mark.parametrize(("first", "then"), [("fuel_line", "hot_work"), ("chassis_weld", "fuel_line")])
def test_sparks_come_first_and_where_that_is_cut_they_are_still_kept_from_open_fuel(cast, wren, first, then):
    warm = both(wren, cast, first=first, then=then)
    sparks = "Wheels off" if first == "chassis_weld" else "Warm it up"
    assert starts(planned(cast.garage))[sparks][0] == "Tue 18:00"
    for link in Link.objects.all():
        links.cut(link, because="the tank is out of the car", by=cast.owner, at=NOW)
    plan = planned(cast.garage)
    assert starts(plan)["Warm it up"][0] == "Tue 19:00"
    how = "stays closed" if first == "chassis_weld" else "is open"
    assert reason(plan, warm) == (f"The fuel of Wren {how} for “Wheels off” until Tue 19:00, so “Warm it up” waits.")


@pytest.fixture
def hoses(cast, heron):
    """Five hours of open fuel on Heron: no evening is long enough."""
    return job(
        heron,
        cast,
        "Renew the fuel hoses",
        kinds=["fuel_line"],
        rank="safety",
        low_minutes=300,
        likely_minutes=300,
        high_minutes=300,
    )


def test_sparks_on_any_car_wait_until_open_fuel_is_closed_and_fuel_jobs_go_on_side_by_side(cast, wren, hoses):
    more = {"rank": "wanted", "earliest_at": NOW + timedelta(hours=12)}
    weld = job(wren, cast, "Weld the arm", kinds=["part_weld"], **more)
    job(wren, cast, "Swap the filter", kinds=["fuel_line"], rank="safety")
    plan = planned(cast.garage)
    assert starts(plan)["Swap the filter"][0] == starts(plan)["Renew the fuel hoses"][0] == "Tue 18:00"
    assert starts(plan)["Renew the fuel hoses"][1] == starts(plan)["Weld the arm"][0] == "Wed 19:00"
    assert reason(plan, weld) == (
        "The fuel of Heron is open for “Renew the fuel hoses” until Wed 19:00, so “Weld the arm” waits."
    )


@pytest.mark.parametrize("state", ["waiting", "held"])
def test_fuel_that_was_left_open_is_closed_before_any_spark(cast, wren, hoses, owner, state):
    """Also where the sparks are more urgent, and one alone is in."""
    Membership.objects.filter(pk=cast.helper.pk).update(works=False)
    weld = job(wren, cast, "Weld the arm", kinds=["part_weld"], rank="safety")
    Job.objects.filter(pk=hoses.pk).update(rank="wanted", state=state)
    worked(hoses, NOW - timedelta(hours=2), NOW, cast.owner)
    plan = planned(cast.garage)
    assert starts(plan)["Renew the fuel hoses"][0] == "Tue 18:00"
    assert starts(plan)["Weld the arm"][0] == starts(plan)["Renew the fuel hoses"][1]
    waits = f"“Weld the arm” waits for “Renew the fuel hoses”, done {starts(plan)['Weld the arm'][0]}"
    said = f"{waits}: no sparks near open fuel."
    assert reason(plan, weld) == said
    assert said.partition(", done")[0].partition("waits")[2] in main(owner)
    Job.objects.filter(pk=hoses.pk).update(state="done")
    assert starts(planned(cast.garage))["Weld the arm"][0] == "Tue 18:00"


@pytest.mark.parametrize(
    ("title", "kinds"), [("Petrol drips from the tank union", []), ("Owed: Fuel pump", ["part_pulled", "fuel_line"])]
)
@pytest.mark.parametrize("same", [True, False])
def test_what_is_found_open_is_closed_before_any_spark(cast, wren, heron, title, kinds, same):
    """Though nobody has begun it, and the sparks are more urgent; on the same car the order of work has it so."""
    Membership.objects.filter(pk=cast.helper.pk).update(works=False)
    job(wren, cast, "Weld the arm", kinds=["hot_work" if same else "part_weld"], rank="safety")
    drip = job(wren if same else heron, cast, title, systems=["fuel"], kinds=kinds, rank="wanted")
    plan = planned(cast.garage)
    assert starts(plan)[title][:2] == ("Tue 18:00", starts(plan)["Weld the arm"][0])
    assert not plan.answer.unplaced
    before = basis_of(fetch(cast.garage, NOW))
    Job.objects.filter(pk=drip.pk).update(title="Fit the hose", kinds=["fuel_line"])
    assert basis_of(fetch(cast.garage, NOW)) != before
    if not same:
        assert starts(planned(cast.garage))["Weld the arm"][0] == "Tue 18:00"


def test_a_spark_that_what_was_left_open_waits_for_has_no_place_and_is_told_why(cast, wren, hoses):
    weld = job(hoses.vehicle, cast, "Weld the bracket", kinds=["part_weld"], rank="safety")
    Link.objects.create(before=weld, after=hoses)
    Job.objects.filter(pk=hoses.pk).update(state="waiting")
    assert {row.id: row.why for row in planned(cast.garage).answer.unplaced} == {
        f"job-{weld.pk}": "The fuel of Heron is open since “Renew the fuel hoses” was begun, which waits for this: "
        "cut what makes it wait, with the reason, and have that done first.",
        f"job-{hoses.pk}": "It waits for “Weld the bracket”, which has no place in the plan.",
    }


@pytest.fixture
def heron(cast):
    return VehicleFactory(garage=cast.garage, name="Heron")


def test_who_welds_has_the_car_to_himself_and_a_weld_at_the_bench_shares_it(cast, wren):
    weld = both(wren, cast, first="spring_damper", then="hot_work")
    job(wren, cast, "Weld the arm", kinds=["part_weld"], rank="safety")
    plan = planned(cast.garage)
    assert starts(plan)["Wheels off"][0] == starts(plan)["Weld the arm"][0] == "Tue 18:00"
    assert starts(plan)["Warm it up"][0] == "Tue 19:00"
    assert reason(plan, weld) == "Wren is worked on for “Weld the arm” until Tue 19:00, so “Warm it up” waits."
    Job.objects.filter(pk=weld.pk).update(rank="safety")
    Job.objects.exclude(pk=weld.pk).update(rank="wanted")
    plan, wheels = planned(cast.garage), Job.objects.get(title="Wheels off")
    assert starts(plan)["Warm it up"][0] == "Tue 18:00"
    assert reason(plan, wheels) == (
        "Wren has sparks flying on it for “Warm it up” until Tue 19:00, so “Wheels off” waits."
    )


def test_only_cars_whose_engine_is_run_beside_other_work_have_a_station_of_their_own(cast, wren):
    both(wren, cast)
    job(VehicleFactory(garage=cast.garage, name="Heron"), cast, "Run it alone", kinds=["driven"])
    problem, _ = build_problem(cast.garage, NOW)
    (engine,) = problem.stations
    assert (engine.id, engine.name) == (f"engine-{wren.pk}", "the engine of Wren")
    assert (engine.capacity, engine.windows, engine.stands) == (2, None, False)
    assert sorted(units for row in problem.jobs for units in row.uses.values()) == [1, 2]


def test_as_many_share_it_as_work_there(cast, wren):
    MembershipFactory(garage=cast.garage)
    both(wren, cast)
    for number in range(4):
        job(wren, cast, f"Job {number}")
    job(wren, cast, "Let it harden", hands=0)
    problem, _ = build_problem(cast.garage, NOW)
    works = Membership.objects.in_garage(cast.garage).filter(works=True).count()
    assert [station.capacity for station in problem.stations] == [works]
    assert sum(bool(row.uses) for row in problem.jobs) == 6


def test_two_in_the_paddock_are_kept_apart_too(cast):
    fair = make_fair(cast)
    fair.event.people.add(cast.helper)
    fair.overnight()
    fair.overnight(job(fair.heron, cast, "Warm it up", kinds=["engine_run"]))
    assert sorted(row[0] for row in starts(planned(cast.garage)).values()) == ["Tue 18:00", "Tue 19:00"]


def test_no_room_is_offered_in_an_engine(cast, wren):
    enter(wren)
    both(wren, cast)
    plan = planned(cast.garage)
    car = SimpleNamespace(problem=plan.problem, plan=plan.answer, vehicle=f"car-{wren.pk}")
    assert [change.station for change in more_room(car.problem, car.plan, car.vehicle)] == [f"engine-{wren.pk}"]
    assert RoomDeed.offers(car) == []


def test_a_trial_sees_that_a_job_runs_the_engine_now(cast, wren):
    warm = both(wren, cast)
    before = basis_of(fetch(cast.garage, NOW)).jobs
    Job.objects.filter(pk=warm.pk).update(kinds=["paint"])
    after = basis_of(fetch(cast.garage, NOW)).jobs
    assert {row for row in before if before[row] != after[row]} == {f"job-{warm.pk}"}


@pytest.fixture
def line_and_tab(cast, wren):
    """Opens the fuel of Wren and makes sparks; put down."""
    row = job(wren, cast, "New line and its tab", kinds=["fuel_line", "part_weld"], rank="safety", state="held")
    worked(row, NOW - timedelta(hours=2), NOW - timedelta(hours=1), cast.owner)
    return row


def test_open_fuel_is_closed_first_also_before_what_opened_it_elsewhere_and_makes_sparks(cast, hoses, line_and_tab):
    """The sparks ended when that was put down, so they keep nobody from the hoses."""
    Job.objects.filter(pk=hoses.pk).update(state="waiting")
    plan = planned(cast.garage)
    assert starts(plan)["Renew the fuel hoses"][0] == "Tue 18:00"
    assert starts(plan)["New line and its tab"][0] == starts(plan)["Renew the fuel hoses"][1]


def test_two_that_are_open_and_make_sparks_have_no_place_and_the_rest_is_planned(cast, wren, line_and_tab):
    other = job(wren, cast, "Filler neck", kinds=["fuel_line", "part_weld"], state="waiting")
    job(wren, cast, "Fit the fan")
    plan = planned(cast.garage)
    assert list(starts(plan)) == ["Fit the fan"]
    assert {row.id: row.why for row in plan.answer.unplaced} == {
        f"job-{row.pk}": f"The fuel of Wren is open since “{begun}” was begun, and each of the two waits for the "
        "other: no sparks near open fuel. Make two jobs of one of them."
        for row, begun in ((line_and_tab, other), (other, line_and_tab))
    }


def test_two_men_are_not_at_one_corner_at_once(cast, wren):
    """By whatever name it goes; at another corner, or where only the end is said, they are."""
    shocks = job(wren, cast, "N/S rear shock leaks - new pair", systems=["suspension"], rank="safety")
    tyre = job(wren, cast, "LR tyre has a nail", systems=["wheels"])
    job(wren, cast, "O/S front hub", systems=["wheels"])
    plan = planned(cast.garage)
    assert starts(plan)[shocks.title][:2] == ("Tue 18:00", "Tue 19:00")
    assert starts(plan)["O/S front hub"][0] == "Tue 18:00" and starts(plan)[tyre.title][0] == "Tue 19:00"
    said = "The rear nearside corner of Wren is worked on for “N/S rear shock leaks - new pair” until Tue 19:00"
    assert reason(plan, tyre) == f"{said}, so “LR tyre has a nail” waits."
