"""How much more work a car can take, found by planning again."""

from builds.odds.room import MORE, more_work
from builds.planner.problem import Link
from builds.planner.search import plan
from tests.builds.planner.makers import job, person, problem


def room(made, car="heron"):
    return more_work(made, plan(made), car)


def test_alone_it_is_the_hours_that_are_left():
    assert room(problem(job("weld", 4, due=10))) == 6
    assert room(problem(job("weld", 10, due=10))) == 0


def test_one_slot_more_would_be_late():
    hours = person("ines", windows=((0, 4), (20, 24)))
    made = problem(job("weld", 2, due=22), people=(hours,))
    assert room(made) == 4
    longer = problem(job("weld", 2, due=22), job(MORE, 5, due=22), people=(hours,), links=(Link("weld", MORE),))
    assert max(row.end for row in plan(longer).placed) > 22


def test_hours_of_people_who_are_not_needed_do_not_count():
    """One person more, at the same time, gives one more job at the end not one slot more."""
    alone = problem(job("weld", 4, due=10))
    two = problem(job("weld", 4, due=10), people=(person("ines"), person("otto")))
    assert room(two) == room(alone) == 6


def test_what_another_car_needs_first_is_counted():
    made = problem(job("weld", 4, due=10), job("fit", 3, due=20, vehicle="moth"))
    assert room(made) == 6
    assert room(made, "moth") == 13


def test_a_car_that_is_late_as_it_is_can_take_nothing_and_one_with_nothing_due_has_no_bound():
    assert room(problem(job("weld", 12, due=10))) is None
    assert room(problem(job("weld", 4, due=10), job("fit", skill="fly"))) is None
    assert room(problem(job("weld", 4))) is None
    assert room(problem(job("weld", 4, due=10)), "moth") is None
