"""Many runs of one plan: what they count, when they stop, what they share."""

import math
from dataclasses import replace
from itertools import islice
from random import Random

import pytest

from builds.odds.answer import wilson
from builds.odds.estimates import BetaPert
from builds.odds.simulate import runs, simulate
from builds.planner.problem import Link, Station
from tests.builds.planner.data import FLEETS, fleet
from tests.builds.planner.makers import job, person, problem

RANDOM = Random(3)
BOTH = {"weld": (15, 30, 60), "fit": (15, 30, 60)}


def pair(due=4, **keys):
    return problem(job("weld", due=due), job("fit", due=due), **keys)


def figures_of(problem, low=0.7, high=1.9):
    return {row.id: tuple(row.work * problem.slot_minutes * times for times in (low, 1, high)) for row in problem.jobs}


def test_the_odds_of_a_car_count_the_runs_with_all_its_work_done_by_its_due_slot():
    odds = simulate(pair(), BOTH, runs=400)
    car = odds.vehicles["heron"]
    assert (odds.runs, odds.asked, car.runs) == (400, 400, 400)
    assert car.in_time == sum(moment <= 4 for moment in car.moments)
    assert 0 < car.in_time < 400
    assert car.share == car.in_time / 400
    assert car.band == wilson(car.in_time, 400)


def test_the_mean_is_that_of_the_figures():
    car = simulate(pair(), BOTH, runs=4000).vehicles["heron"]
    # Two jobs of (15, 30, 60) minutes in whole slots of 15: 2, 3 or 4 of them, the mean of
    # which is taken from 100,000 draws apart; the deviation of two is below 1.0.
    draws = [max(1, math.ceil(BetaPert(15, 30, 60).sample(RANDOM) / 15)) for _ in range(100_000)]
    expected = 2 * math.fsum(draws) / len(draws)
    assert math.fsum(car.moments) / 4000 == pytest.approx(expected, abs=4 * 1.0 / math.sqrt(4000))


def test_the_slot_ready_by_is_the_first_that_enough_runs_made():
    car = simulate(pair(), BOTH, runs=400).vehicles["heron"]
    for share in (0.1, 0.5, 0.8, 1):
        slot = car.ready_by(share)
        assert sum(moment <= slot for moment in car.moments) >= share * 400
        assert sum(moment <= slot - 1 for moment in car.moments) < share * 400


def test_wanted_jobs_and_jobs_without_a_due_slot_do_not_make_a_car_late():
    jobs = (job("weld", due=2), job("fit", due=0, rank="wanted"), job("wire", due=None))
    odds = simulate(problem(*jobs), {}, runs=5)
    assert odds.vehicles["heron"].in_time == 5
    assert odds.vehicles["heron"].ready_by() == 4  # the wiring must be done all the same


def test_a_car_with_nothing_due_has_no_odds_and_one_with_nothing_to_do_is_left_out():
    odds = simulate(pair(due=None), BOTH, runs=20)
    car = odds.vehicles["heron"]
    assert (car.in_time, car.share, car.band) == (None, None, None)
    assert car.ready_by() is not None
    assert "moth" not in odds.vehicles


def test_a_car_with_a_job_that_nobody_can_do_is_never_ready():
    odds = simulate(problem(job("weld", due=4), job("fit", due=4, skill="fly")), BOTH, runs=20)
    car = odds.vehicles["heron"]
    assert (car.in_time, car.ready_by()) == (0, None)


def test_a_car_that_passes_the_horizon_is_not_ready_within_the_plan():
    odds = simulate(pair(slots=4), {"weld": (60, 60, 60)}, runs=10)
    assert odds.vehicles["heron"].ready_by() is None
    assert odds.vehicles["heron"].in_time == 0


def held_up(odds, car="heron"):
    return {row.job: row.held_up for row in odds.vehicles[car].held_by}


def test_a_job_holds_its_car_up_when_the_last_job_waited_for_it():
    people = (person("ines", "weld"), person("otto", "wire"))
    jobs = (job("weld", due=9, skill="weld"), job("fit", due=9, skill="weld"), job("wire", due=9, skill="wire"))
    three = problem(*jobs, people=people, links=(Link("weld", "fit"),))
    odds = simulate(three, {"wire": (15, 30, 240)}, runs=500)
    held = held_up(odds)
    assert 0 < held["wire"] < 500 and held["wire"] + held["fit"] == 500
    assert held["weld"] == held["fit"]
    counts = [row.held_up for row in odds.vehicles["heron"].held_by]
    assert counts == sorted(counts, reverse=True)


def test_the_chain_goes_back_through_waits_cures_and_people():
    ready = tuple(end + 6 for end in range(41))
    links = (Link("strip", "prime", 5), Link("prime", "coat", 0, ready))
    odds = simulate(problem(*(job(name) for name in ("strip", "prime", "coat")), links=links), {}, runs=1)
    assert held_up(odds) == {"strip": 1, "prime": 1, "coat": 1}
    odds = simulate(problem(job("strip"), job("fit")), {}, runs=1)
    assert held_up(odds) == {"strip": 1, "fit": 1}


def test_the_chain_goes_back_through_a_place_that_came_free():
    people = tuple(person(name) for name in ("ines", "otto", "ada"))
    bay = problem(
        *(job(name, due=9, uses={"bay": 1}) for name in "abc"),
        people=people,
        stations=(Station("bay", 2),),
    )
    odds = simulate(bay, {"a": (45, 45, 45), "b": (75, 75, 75)}, runs=1)
    assert held_up(odds) == {"a": 1, "c": 1} or held_up(odds) == {"b": 1}


def test_another_cars_job_is_named_on_the_chain():
    two = problem(job("other", vehicle="moth", started=True), job("fit", due=9))
    odds = simulate(two, {}, runs=3)
    assert held_up(odds) == {"fit": 3, "other": 3}


def test_the_same_seed_gives_the_same_answer_and_another_seed_another():
    def odds(seed):
        return simulate(pair(), BOTH, runs=100, seed=seed)

    assert odds(1) == odds(1)
    assert odds(1).vehicles["heron"].moments != odds(2).vehicles["heron"].moments


def test_the_luck_of_a_job_is_the_same_in_another_problem():
    first = simulate(pair(), BOTH, runs=50).vehicles["heron"].moments
    then = simulate(problem(job("fit", due=4), job("weld", due=4)), BOTH, runs=50).vehicles["heron"].moments
    assert first == then


def test_it_stops_when_told_and_says_how_many_runs_it_has():
    told = []
    odds = simulate(
        pair(),
        BOTH,
        runs=1000,
        stop=lambda: len(told) >= 3,
        progress=lambda done, asked: told.append((done, asked)),
    )
    assert told == [(10, 1000), (20, 1000), (30, 1000)]
    assert (odds.runs, odds.asked) == (30, 1000)
    assert odds.vehicles["heron"].in_time <= odds.vehicles["heron"].runs == 30
    assert odds == replace(simulate(pair(), BOTH, runs=30), asked=1000)


def test_stopped_before_the_first_run_it_knows_nothing_and_says_so():
    odds = simulate(pair(), BOTH, stop=lambda: True)
    car = odds.vehicles["heron"]
    assert odds.runs == car.runs == 0
    assert (car.share, car.band, car.ready_by()) == (None, (0, 1), None)


def test_the_last_word_on_progress_is_that_all_runs_are_done():
    told = []
    simulate(pair(), BOTH, runs=250, progress=lambda *row: told.append(row))
    assert told[-1] == (250, 250)
    assert len(told) <= 126


def test_an_answer_can_be_shown_early_and_refined():
    shown = [tally.odds() for tally in islice(runs(pair(), BOTH), 40)]
    assert [odds.runs for odds in shown] == list(range(1, 41))
    assert shown[9] == simulate(pair(), BOTH, runs=10)
    assert shown[39] == simulate(pair(), BOTH, runs=40)


@pytest.mark.parametrize("path", FLEETS[:3], ids=lambda path: path.stem)
def test_a_fleet_with_room_to_spare_is_more_likely_in_time_than_one_without(path):
    made_fleet = fleet(path)
    calm = simulate(made_fleet, figures_of(made_fleet, 0.3, 1.0), runs=15)
    rough = simulate(made_fleet, figures_of(made_fleet, 1.0, 4.0), runs=15)
    for name, car in calm.vehicles.items():
        assert (car.in_time or 0) >= (rough.vehicles[name].in_time or 0)
    assert any(car.moments < rough.vehicles[name].moments for name, car in calm.vehicles.items())


@pytest.mark.parametrize("figures", [(30, 15, 60), (-5, 15, 60), (15, 15, math.nan)])
def test_figures_out_of_order_are_refused(figures):
    with pytest.raises(ValueError, match="three figures"):
        simulate(pair(), {"weld": figures}, runs=1)


def test_fewer_than_no_runs_are_refused():
    with pytest.raises(ValueError, match="runs"):
        simulate(pair(), BOTH, runs=-1)


def test_a_factor_that_all_share_moves_all_lengths_of_a_run_at_once():
    """It spreads the sum of many jobs, which luck of their own leaves narrow."""
    many = problem(*(job(f"job {k}") for k in range(8)), slots=200)
    estimates = {f"job {k}": (60.0, 75.0, 90.0) for k in range(8)}
    alone = simulate(many, estimates, runs=60).vehicles["heron"].moments
    together = simulate(many, estimates, runs=60, shared=0.5).vehicles["heron"].moments
    assert together[-1] - together[0] > 3 * (alone[-1] - alone[0])
    assert alone == simulate(many, estimates, runs=60, shared=0).vehicles["heron"].moments


@pytest.mark.parametrize("shared", [-0.1, math.nan, math.inf])
def test_a_deviation_that_is_none_is_refused(shared):
    with pytest.raises(ValueError, match="deviation"):
        simulate(pair(), BOTH, runs=1, shared=shared)
