"""Whose turn it is in the plan at once and in the search: events ahead, lost ones, cars without one."""

from dataclasses import replace

import pytest

from builds.planner.plan import Plan
from builds.planner.problem import Link, Vehicle
from builds.planner.search import plan
from tests.benchmarks.planner.fleets import made_fleet
from tests.builds.planner.judge import breaches
from tests.builds.planner.makers import HERON, MOTH, job, person, problem, spans

WAGTAIL = Vehicle("wagtail", 1, "Wagtail")
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
