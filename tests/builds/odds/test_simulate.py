"""Many runs of one plan: what they count, when they stop, what they share."""

import math
from dataclasses import replace
from itertools import islice

import pytest

from builds.odds.answer import wilson
from builds.odds.simulate import runs, simulate
from builds.planner.plan import Placed, Plan, Unplaced
from builds.planner.problem import Link, Station
from builds.planner.search import plan
from tests.builds.planner.data import FLEETS, fleet
from tests.builds.planner.makers import job, person, problem

BOTH = {"weld": (15, 30, 60), "fit": (15, 30, 60)}
IN_TURN = Plan((Placed("weld", 0, 2, ("ines",)), Placed("fit", 2, 4, ("ines",))))


def pair(due=4, **keys):
    return problem(job("weld", due=due), job("fit", due=due), **keys)


def figures_of(problem, low=0.7, high=1.9):
    return {row.id: tuple(row.work * problem.slot_minutes * times for times in (low, 1, high)) for row in problem.jobs}


def test_the_odds_of_a_car_count_the_runs_with_all_its_work_done_by_its_due_slot():
    odds = simulate(pair(), IN_TURN, BOTH, runs=400)
    car = odds.vehicles["heron"]
    assert (odds.runs, odds.asked, car.runs) == (400, 400, 400)
    assert car.in_time == sum(moment <= 4 for moment in car.moments)
    assert 0 < car.in_time < 400
    assert car.share == car.in_time / 400
    assert car.band == wilson(car.in_time, 400)
    assert odds.jobs["fit"].late == 400 - car.in_time
    assert odds.jobs["weld"].late_share == 0


def test_the_mean_is_that_of_the_figures():
    car = simulate(pair(), IN_TURN, BOTH, runs=4000).vehicles["heron"]
    # Two jobs of (15, 30, 60): 32.5 minutes each in the mean, deviation 8.3 each.
    mean = math.fsum(car.moments) / 4000 * 15
    assert mean == pytest.approx(65, abs=4 * 11.8 / math.sqrt(4000))


def test_the_slot_ready_by_is_the_first_that_enough_runs_made():
    car = simulate(pair(), IN_TURN, BOTH, runs=400).vehicles["heron"]
    for share in (0.1, 0.5, 0.8, 1):
        slot = car.ready_by(share)
        assert sum(moment <= slot for moment in car.moments) >= share * 400
        assert sum(moment <= slot - 1 for moment in car.moments) < share * 400
    assert car.median == car.ready_by(0.5) <= car.ready_by()


def test_wanted_jobs_and_jobs_without_a_due_slot_do_not_make_a_car_late():
    jobs = (job("weld", due=2), job("fit", due=0, rank="wanted"), job("wire", due=None))
    turns = (("weld", 0), ("wire", 2), ("fit", 4))
    made = Plan(tuple(Placed(name, start, start + 2, ("ines",)) for name, start in turns))
    odds = simulate(problem(*jobs), made, {}, runs=5)
    assert odds.vehicles["heron"].in_time == 5
    assert odds.vehicles["heron"].ready_by() == 4  # the wiring must be done all the same
    assert odds.jobs["fit"].late == 5
    assert odds.jobs["wire"].late is None


def test_a_car_with_nothing_due_has_no_odds_and_one_with_nothing_to_do_is_left_out():
    odds = simulate(pair(due=None), IN_TURN, BOTH, runs=20)
    car = odds.vehicles["heron"]
    assert (car.in_time, car.share, car.band) == (None, None, None)
    assert car.median is not None
    assert "moth" not in odds.vehicles


def test_a_car_with_a_job_that_has_no_place_is_never_ready():
    made = Plan(IN_TURN.placed[:1], (Unplaced("fit", "No time."),))
    odds = simulate(pair(), made, BOTH, runs=20)
    car = odds.vehicles["heron"]
    assert (car.in_time, car.ready_by(), car.held_by) == (0, None, ())
    assert (odds.jobs["fit"].late, odds.jobs["fit"].held_up) == (20, 0)


def test_a_car_that_passes_the_horizon_is_not_ready_within_the_plan():
    odds = simulate(pair(slots=4), IN_TURN, {"weld": (60, 60, 60)}, runs=10)
    assert odds.vehicles["heron"].ready_by() is None
    assert odds.vehicles["heron"].in_time == 0


def test_a_job_holds_its_car_up_when_the_last_job_waited_for_it():
    people = (person("ines"), person("otto"))
    three = problem(job("weld", due=9), job("fit", due=9), job("wire", due=9), people=people)
    made = Plan((*IN_TURN.placed, Placed("wire", 0, 2, ("otto",))))
    odds = simulate(three, made, {"wire": (15, 30, 240)}, runs=500)
    wire, fit = odds.jobs["wire"].held_up, odds.jobs["fit"].held_up
    assert 0 < wire < 500 and wire + fit == 500
    assert odds.jobs["weld"].held_up == fit
    by_often = sorted([("wire", wire), ("fit", fit), ("weld", fit)], key=lambda row: -row[1])
    assert sorted(odds.vehicles["heron"].held_by) == sorted(by_often)
    counts = [count for _, count in odds.vehicles["heron"].held_by]
    assert counts == sorted(counts, reverse=True)


def test_the_chain_goes_back_through_waits_cures_and_people():
    ready = tuple(end + 6 for end in range(41))
    links = (Link("strip", "prime", 5), Link("prime", "coat", 0, ready))
    spans = {"strip": (0, 2), "prime": (7, 9), "coat": (15, 17), "fit": (17, 19)}
    made = Plan(tuple(Placed(name, *span, ("ines",)) for name, span in spans.items()))
    odds = simulate(problem(*(job(name) for name in spans), links=links), made, {}, runs=1)
    assert {name: odds.jobs[name].held_up for name in spans} == dict.fromkeys(spans, 1)


def test_the_chain_goes_back_through_a_place_that_came_free():
    people = tuple(person(name) for name in ("ines", "otto", "ada"))
    bay = problem(
        *(job(name, due=9, uses={"bay": 1}) for name in "abc"),
        people=people,
        stations=(Station("bay", 2),),
    )
    rows = (("a", 0, 2, ("ines",)), ("b", 0, 2, ("otto",)), ("c", 2, 4, ("ada",)))
    made = Plan(tuple(Placed(*row) for row in rows))
    odds = simulate(bay, made, {"a": (45, 45, 45), "b": (60, 60, 60)}, runs=1)
    assert [odds.jobs[name].held_up for name in "abc"] == [1, 0, 1]


def test_another_cars_job_is_named_on_the_chain_but_holds_its_own_car_up_only():
    two = problem(job("other", vehicle="moth", rank="wanted"), job("fit", due=9))
    made = Plan((Placed("other", 0, 2, ("ines",)), Placed("fit", 2, 4, ("ines",))))
    odds = simulate(two, made, {}, runs=3)
    assert set(odds.vehicles["heron"].held_by) == {("fit", 3), ("other", 3)}
    assert odds.jobs["other"].held_up == 0


def test_the_same_seed_gives_the_same_answer_and_another_seed_another():
    def odds(seed):
        return simulate(pair(), IN_TURN, BOTH, runs=100, seed=seed)

    assert odds(1) == odds(1)
    assert odds(1).vehicles["heron"].moments != odds(2).vehicles["heron"].moments


def test_the_luck_of_a_job_is_the_same_in_another_plan():
    other = Plan((Placed("fit", 0, 2, ("ines",)), Placed("weld", 2, 4, ("ines",))))
    first = simulate(pair(), IN_TURN, BOTH, runs=50).vehicles["heron"].moments
    then = simulate(pair(), other, BOTH, runs=50).vehicles["heron"].moments
    assert first == pytest.approx(then)


def test_it_stops_when_told_and_says_how_many_runs_it_has():
    told = []
    odds = simulate(
        pair(),
        IN_TURN,
        BOTH,
        runs=1000,
        stop=lambda: len(told) >= 3,
        progress=lambda done, asked: told.append((done, asked)),
    )
    assert told == [(10, 1000), (20, 1000), (30, 1000)]
    assert (odds.runs, odds.asked) == (30, 1000)
    assert odds.vehicles["heron"].in_time <= odds.vehicles["heron"].runs == 30
    assert odds == replace(simulate(pair(), IN_TURN, BOTH, runs=30), asked=1000)


def test_stopped_before_the_first_run_it_knows_nothing_and_says_so():
    odds = simulate(pair(), IN_TURN, BOTH, stop=lambda: True)
    car = odds.vehicles["heron"]
    assert odds.runs == car.runs == 0
    assert (car.share, car.band, car.median) == (None, (0, 1), None)
    assert odds.jobs["fit"].late_share is odds.jobs["fit"].held_up_share is None


def test_the_last_word_on_progress_is_that_all_runs_are_done():
    told = []
    simulate(pair(), IN_TURN, BOTH, runs=250, progress=lambda *row: told.append(row))
    assert told[-1] == (250, 250)
    assert len(told) <= 126


def test_an_answer_can_be_shown_early_and_refined():
    shown = [tally.odds() for tally in islice(runs(pair(), IN_TURN, BOTH), 40)]
    assert [odds.runs for odds in shown] == list(range(1, 41))
    assert shown[9] == simulate(pair(), IN_TURN, BOTH, runs=10)
    assert shown[39] == simulate(pair(), IN_TURN, BOTH, runs=40)


@pytest.mark.parametrize("path", FLEETS[:3], ids=lambda path: path.stem)
def test_a_fleet_with_room_to_spare_is_more_likely_in_time_than_one_without(path):
    made_fleet = fleet(path)
    made = plan(made_fleet)
    calm = simulate(made_fleet, made, figures_of(made_fleet, 0.3, 1.0), runs=40)
    rough = simulate(made_fleet, made, figures_of(made_fleet, 1.0, 4.0), runs=40)
    for name, car in calm.vehicles.items():
        assert (car.in_time or 0) >= (rough.vehicles[name].in_time or 0)
    assert any(car.moments < rough.vehicles[name].moments for name, car in calm.vehicles.items())


@pytest.mark.parametrize("figures", [(30, 15, 60), (-5, 15, 60), (15, 15, math.nan)])
def test_figures_out_of_order_are_refused(figures):
    with pytest.raises(ValueError, match="three figures"):
        simulate(pair(), IN_TURN, {"weld": figures}, runs=1)


def test_fewer_than_no_runs_are_refused():
    with pytest.raises(ValueError, match="runs"):
        simulate(pair(), IN_TURN, BOTH, runs=-1)
