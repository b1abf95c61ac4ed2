"""Whose turn it is in the plan at once and in the search: events ahead, lost ones, cars without one."""

from dataclasses import replace

import pytest

from builds.planner.plan import Plan
from builds.planner.problem import Hold, Link, Vehicle
from builds.planner.search import plan
from tests.benchmarks.planner.fleets import made_fleet
from tests.builds.planner.judge import breaches
from tests.builds.planner.makers import HERON, MOTH, PLACES, job, person, problem, spans

WAGTAIL, BADGER = Vehicle("wagtail", 1, "Wagtail"), Vehicle("badger", 0.1, "Badger")
CARS = (HERON, MOTH, WAGTAIL)


def at_once(made) -> Plan:
    return plan(made)


def searched(made) -> Plan:
    return plan(made, tries=300)


BOTH = pytest.mark.parametrize("planned", (at_once, searched))


@BOTH
def test_safety_work_of_a_car_without_an_event_waits_for_a_car_with_one(planned):
    made = problem(
        job("tidy", 4, vehicle="moth", rank="safety"),
        job("pads", 4, due=4),
        job("decals", 2, rank="wanted", due=8),
    )
    assert spans(planned(made)) == {"pads": (0, 4), "decals": (4, 6), "tidy": (6, 10)}


@BOTH
def test_a_car_whose_event_is_lost_stays_ahead_of_one_without(planned):
    made = problem(
        job("tidy", 4, vehicle="moth", rank="safety"),
        job("hub", 4, earliest=2, due=4),
        job("trim", 2, due=2),
    )
    answer = spans(planned(made))
    assert (answer["trim"], answer["hub"], answer["tidy"]) == ((0, 2), (2, 6), (6, 10))


@BOTH
def test_a_car_whose_event_is_lost_lets_go_first_whoever_can_make_it(planned):
    made = problem(
        job("hub", 6, rank="safety", due=3),
        job("refit", 2, rank="safety", due=3),
        job("pads", 6, vehicle="wagtail", due=6),
        job("tidy", 4, vehicle="moth", rank="safety"),
        links=(Link("hub", "refit"),),
        vehicles=CARS,
    )
    assert spans(planned(made)) == {"pads": (0, 6), "hub": (6, 12), "refit": (12, 14), "tidy": (14, 18)}


@BOTH
def test_what_an_event_waits_for_goes_with_it_whichever_car_it_is_on(planned):
    made = problem(
        job("tidy", 4, vehicle="moth", rank="safety"),
        job("lend", 2, vehicle="moth", rank="wanted"),
        job("pads", 2, due=4),
        links=(Link("lend", "pads"),),
    )
    assert spans(planned(made)) == {"lend": (0, 2), "pads": (2, 4), "tidy": (4, 8)}


def test_a_lost_event_moves_nothing_of_a_car_that_makes_its_own():
    jobs = [job(f"m{k}", 3, vehicle="wagtail", rank="safety", due=9) for k in range(3)]
    late = [job(f"h{k}", 4, rank="safety", due=5) for k in range(3)]
    people = (person("ines", windows=((0, 9), (12, 40))),)
    alone = spans(plan(problem(*jobs, people=people, vehicles=CARS)))
    both = spans(plan(problem(*late, *jobs, people=people, vehicles=CARS)))
    assert {name: both[name] for name in alone} == alone


@pytest.mark.parametrize("seed", (8, 45, 57, 81, 91, 127))
def test_one_more_pair_of_hands_makes_no_car_late(seed):
    """Garages that had more cars late in the plan at once, with an order by rank alone or by one more rule."""
    made = made_fleet(60, seed, 0.8)
    helped = replace(made, people=(*made.people, replace(made.people[0], id="more")))
    assert plan(helped).score[:4] <= plan(made).score[:4]


def test_one_car_gives_way_where_all_would_miss_their_events():
    jobs = [job(f"h{k}", 5, due=8) for k in range(2)]
    jobs += [job(f"w{k}", 2, vehicle="wagtail", due=9) for k in range(2)]
    jobs += [job(f"m{k}", 2, vehicle="moth", due=10) for k in range(2)]
    made = problem(*jobs, vehicles=CARS, people=(person("ines"), person("tove", windows=((0, 3),))))
    answer = plan(made)
    assert not breaches(made, answer)
    assert answer.score[0] == HERON.weight


def stripped(*jobs, **more):
    """Badger, without an event, stands stripped in the bay until it is put together again."""
    began = job("began", 0, vehicle="badger", hands=0, rank="wanted", pinned=0)
    refit = job("refit", 6, vehicle="badger", rank="safety", uses={"bay": 1})
    keys = {"stations": PLACES, "holds": (Hold("badger", "bay", "began", "refit"),), "vehicles": (BADGER, *CARS)}
    return problem(began, refit, *jobs, **keys | more)


@BOTH
def test_a_car_that_stands_stripped_without_an_event_waits_for_one_that_has_one(planned):
    answer = spans(planned(stripped(job("pads", 6, due=6))))
    assert (answer["pads"], answer["refit"]) == ((0, 6), (6, 12))


@BOTH
def test_it_is_put_together_first_where_it_is_in_the_way_of_one_that_has_an_event(planned):
    answer = spans(planned(stripped(job("pads", 6, due=12, uses={"bay": 1}), job("wash", 2, vehicle="moth"))))
    assert (answer["refit"], answer["pads"], answer["wash"]) == ((0, 6), (6, 12), (12, 14))


@BOTH
def test_it_is_no_more_urgent_than_what_it_is_in_the_way_of(planned):
    answer = spans(planned(stripped(job("pads", 4, due=4), job("weigh", 2, due=12, uses={"bay": 1}))))
    assert (answer["pads"], answer["refit"], answer["weigh"]) == ((0, 4), (4, 10), (10, 12))
