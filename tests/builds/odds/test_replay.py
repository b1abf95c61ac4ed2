"""A plan gone through with what its jobs really took: what moves, what waits, what catches up."""

import pytest

from builds.odds.hours import NEVER
from builds.odds.replay import replay
from builds.planner.plan import Placed, Plan, Unplaced
from builds.planner.problem import Hold, Link, Station
from builds.planner.search import plan
from tests.builds.planner.data import FLEETS, fleet
from tests.builds.planner.makers import job, person, problem

EVENINGS = ((0, 4), (20, 28))


def placed(*rows):
    return Plan(tuple(Placed(*row) for row in rows))


@pytest.mark.parametrize("path", FLEETS, ids=lambda path: path.stem)
def test_no_job_of_a_fleet_is_later_than_planned_when_each_takes_what_was_planned(path):
    fleet_problem = fleet(path)
    made = plan(fleet_problem)
    went = replay(fleet_problem, made, {})
    assert set(went) == {row.id for row in made.placed}
    later = [row.id for row in made.placed if went[row.id] > (row.start, row.end)]
    assert later == []


def test_what_overruns_moves_what_follows_on_the_same_person():
    two = problem(job("weld"), job("fit"))
    went = replay(two, placed(("weld", 0, 2, ("ines",)), ("fit", 2, 4, ("ines",))), {"weld": 50})
    assert went["weld"] == pytest.approx((0, 50 / 15))
    assert went["fit"] == pytest.approx((50 / 15, 80 / 15))


def test_a_gap_in_the_plan_is_closed():
    gap = problem(job("weld"), job("fit"))
    went = replay(gap, placed(("weld", 3, 5, ("ines",)), ("fit", 9, 11, ("ines",))), {})
    assert went == {"weld": (0, 2), "fit": (2, 4)}


def test_people_keep_their_order_even_where_the_first_waits():
    linked = problem(job("prime", hands=0), job("coat"), job("sort"), links=(Link("prime", "coat", 4),))
    made = placed(("prime", 0, 2), ("coat", 6, 8, ("ines",)), ("sort", 8, 10, ("ines",)))
    went = replay(linked, made, {"prime": 90})
    assert went["coat"] == (10, 12)
    assert went["sort"] == (12, 14)


def test_an_overrun_hides_in_a_cure():
    linked = problem(job("prime"), job("wire"), job("coat"), links=(Link("prime", "coat", 12, why="cure"),))
    made = placed(("prime", 0, 2, ("ines",)), ("wire", 2, 4, ("ines",)), ("coat", 14, 16, ("ines",)))
    assert replay(linked, made, {"wire": 180})["coat"] == (14, 16)
    assert replay(linked, made, {"wire": 181})["coat"][0] == pytest.approx(14 + 1 / 15)


def test_a_cure_is_read_from_its_table_at_the_slot_after_the_end():
    ready = tuple(10 if slot <= 2 else max(30, slot) for slot in range(41))
    linked = problem(job("prime"), job("coat"), links=(Link("prime", "coat", 0, ready),))
    made = placed(("prime", 0, 2, ("ines",)), ("coat", 10, 12, ("ines",)))
    assert replay(linked, made, {"prime": 16})["coat"] == (10, 12)
    assert replay(linked, made, {"prime": 31})["coat"] == (30, 32)


def test_an_overrun_past_the_evening_goes_on_the_next():
    hours = problem(job("weld", 4), people=(person("ines", windows=EVENINGS),))
    went = replay(hours, placed(("weld", 0, 4, ("ines",))), {"weld": 75})
    assert went == {"weld": (0, 21)}


def test_a_sitting_that_overruns_the_evening_is_seen_through():
    hours = problem(job("paint", 4, splits=False), people=(person("ines", windows=EVENINGS),))
    went = replay(hours, placed(("paint", 0, 4, ("ines",))), {"paint": 75})
    assert went == {"paint": (0, 5)}


def test_what_finds_no_hours_before_the_horizon_never_ends_nor_what_waits_for_it():
    hours = problem(job("weld", 4), job("fit"), people=(person("ines", windows=EVENINGS),))
    made = placed(("weld", 0, 4, ("ines",)), ("fit", 20, 22, ("ines",)))
    went = replay(hours, made, {"weld": 500})
    assert went["weld"] == (0, NEVER)
    assert went["fit"] == (NEVER, NEVER)


def test_a_station_for_one_takes_cars_in_turn():
    people = (person("ines"), person("otto"))
    bay = problem(job("a", uses={"bay": 1}), job("b", uses={"bay": 1}, vehicle="moth"), people=people)
    made = placed(("a", 0, 2, ("ines",)), ("b", 2, 4, ("otto",)))
    assert replay(bay, made, {"a": 60})["b"] == (4, 6)


def test_a_station_for_two_gives_the_place_that_comes_free_first():
    people = tuple(person(name) for name in ("ines", "otto", "ada"))
    bay = problem(
        *(job(name, uses={"bay": 1}) for name in "abc"),
        people=people,
        stations=(Station("bay", 2),),
    )
    made = placed(("a", 0, 2, ("ines",)), ("b", 0, 2, ("otto",)), ("c", 2, 4, ("ada",)))
    assert replay(bay, made, {"a": 120})["c"] == (2, 4)
    assert replay(bay, made, {"a": 120, "b": 60})["c"] == (4, 6)


def test_a_job_of_two_units_waits_for_two_places():
    people = tuple(person(name) for name in ("ines", "otto", "ada"))
    bay = problem(
        job("a", uses={"bay": 1}),
        job("b", uses={"bay": 1}),
        job("c", uses={"bay": 2}),
        people=people,
        stations=(Station("bay", 2),),
    )
    made = placed(("a", 0, 2, ("ines",)), ("b", 0, 2, ("otto",)), ("c", 2, 4, ("ada",)))
    assert replay(bay, made, {"a": 60})["c"] == (4, 6)


def test_a_car_that_cannot_be_moved_keeps_its_station_until_its_last_job_is_over():
    people = (person("ines"), person("otto"))
    held = problem(
        job("strip", uses={"bay": 1}),
        job("refit", uses={"bay": 1}),
        job("other", uses={"bay": 1}, vehicle="moth"),
        people=people,
        stations=(Station("bay", 2),),
        links=(Link("strip", "refit", 3),),
        holds=(Hold("heron", "bay", "strip", "refit", 2),),
    )
    made = placed(("strip", 0, 2, ("ines",)), ("refit", 5, 7, ("ines",)), ("other", 7, 9, ("otto",)))
    assert replay(held, made, {"strip": 60})["other"] == (9, 11)
    first = placed(("other", 0, 2, ("otto",)), ("strip", 2, 4, ("ines",)), ("refit", 7, 9, ("ines",)))
    assert replay(held, first, {"other": 60})["strip"] == (4, 6)


def test_a_stripped_car_in_a_bay_for_two_leaves_the_other_place_to_others():
    people = tuple(person(name) for name in ("ines", "otto"))
    held = problem(
        job("strip", uses={"bay": 1}),
        job("refit", uses={"bay": 1}),
        *(job(name, uses={"bay": 1}, vehicle="moth") for name in ("wash", "polish")),
        job("level", uses={"bay": 1}, vehicle="tern"),
        people=(*people, person("ada")),
        vehicles=(),
        stations=(Station("bay", 2),),
        links=(Link("strip", "refit", 3),),
        holds=(Hold("heron", "bay", "strip", "refit"),),
    )
    made = placed(
        ("strip", 0, 2, ("ines",)),
        ("wash", 0, 2, ("otto",)),
        ("polish", 2, 4, ("otto",)),
        ("refit", 5, 7, ("ines",)),
        ("level", 7, 9, ("ada",)),
    )
    assert replay(held, made, {"strip": 90})["polish"] == (2, 4)
    assert replay(held, made, {"wash": 90, "polish": 60})["level"] == (7, 9)
    assert replay(held, made, {"polish": 150})["level"] == (7, 9)
    assert replay(held, made, {"polish": 150, "refit": 60})["level"] == (9, 11)


def test_a_car_leaves_the_place_it_stands_in_before_it_stands_in_another():
    two = problem(
        job("grind", uses={"bay": 1}),
        job("weigh", uses={"floor": 1}),
        job("wash", uses={"floor": 1}, vehicle="moth"),
        people=tuple(person(name) for name in ("ines", "otto", "ada")),
        stations=(Station("bay", 1, stands=True), Station("floor", 2, stands=True)),
    )
    made = placed(("grind", 0, 2, ("ines",)), ("wash", 0, 2, ("ada",)), ("weigh", 2, 4, ("otto",)))
    assert replay(two, made, {"grind": 75})["weigh"] == (5, 7)
    assert replay(two, made, {"wash": 75})["weigh"] == (2, 4)


def test_a_pinned_start_holds_and_one_that_is_missed_is_made_up_as_soon_as_possible():
    pinned = problem(job("weld"), job("align", pinned=6))
    made = placed(("weld", 0, 2, ("ines",)), ("align", 6, 8, ("ines",)))
    assert replay(pinned, made, {"weld": 15})["align"] == (6, 8)
    assert replay(pinned, made, {"weld": 105})["align"] == (7, 9)


def test_a_milestone_takes_no_time_whatever_is_said_of_it():
    stone = problem(job("parts there", 0, 0, earliest=5), job("fit"))
    made = placed(("parts there", 5, 5), ("fit", 0, 2, ("ines",)))
    assert replay(stone, made, {"parts there": 60})["parts there"] == (5, 5)


def test_milestones_at_one_moment_go_by_their_links():
    stones = problem(job("then", 0, 0), job("first", 0, 0, earliest=5), links=(Link("first", "then"),))
    went = replay(stones, placed(("then", 7, 7), ("first", 7, 7)), {})
    assert went == {"first": (5, 5), "then": (5, 5)}


def test_a_job_without_a_place_stays_without_one():
    made = Plan((Placed("a", 0, 2, ("ines",)),), (Unplaced("b", "No time."),))
    assert set(replay(problem(job("a"), job("b")), made, {"b": 15})) == {"a"}


def test_a_plan_that_does_not_hold_is_refused_with_its_fault():
    clash = placed(("a", 0, 2, ("ines",)), ("b", 1, 3, ("ines",)))
    with pytest.raises(ValueError, match="ines is on a and b at once"):
        replay(problem(job("a"), job("b")), clash, {})
