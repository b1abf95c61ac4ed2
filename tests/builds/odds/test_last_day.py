"""Until when a part may come, found by planning again with its job begun later."""

from dataclasses import replace

import pytest

from builds.odds.in_time import in_time
from builds.odds.last_day import last_day
from builds.planner.problem import Link
from builds.planner.search import plan
from tests.builds.planner.makers import job, person, problem

DAYS = tuple(range(0, 40, 10))  # four days of ten slots


def last(made, name="hubs", opens=0, days=DAYS):
    return last_day(made, plan(made), name, opens, days)


def test_alone_it_is_the_last_day_from_which_the_work_still_ends_in_time():
    assert last(problem(job("hubs", 4, due=34))) == 30
    assert last(problem(job("hubs", 4, due=33))) == 20
    assert last(problem(job("hubs", 4, due=14))) == 10


def test_it_is_the_day_itself_and_not_the_one_after():
    made = problem(job("hubs", 6, due=28), job("bleed", 3, due=28), links=(Link("hubs", "bleed", 2),))
    day = last(made)
    for comes, makes_it in ((day, True), (day + 10, False)):
        moved = replace(made, jobs=tuple(replace(row, earliest=comes if row.id == "hubs" else 0) for row in made.jobs))
        assert in_time(moved, plan(moved, tries=16), "heron") is makes_it
    assert day == 10


def test_hours_in_which_somebody_is_in_count_and_not_the_days_between():
    evenings = person("ines", windows=((6, 10), (16, 20), (26, 30)))
    assert last(problem(job("hubs", 4, due=30), people=(evenings,))) == 20
    assert last(problem(job("hubs", 5, due=30), people=(evenings,))) == 10


def test_work_of_the_same_person_that_is_due_as_well_is_done_before_it_comes():
    made = problem(job("hubs", 4, due=20), job("weld", 12, due=20))
    assert last(made) == 10
    assert last(problem(job("hubs", 4, due=20), job("weld", 16, due=20))) == 10
    assert last(problem(job("hubs", 4, due=20), job("weld", 17, due=20))) is None


def test_a_day_on_which_it_is_expected_too_late_hides_no_earlier_one():
    late = problem(job("hubs", 4, due=24, earliest=30))
    assert last(late) == 20
    assert last(late, opens=21) is None


def test_it_says_nothing_of_a_car_that_is_late_whenever_it_comes():
    assert last(problem(job("hubs", 4, due=30), job("weld", 31, due=30))) is None
    assert last(problem(job("hubs", 41, due=30))) is None


def test_nor_of_what_no_car_waits_for():
    assert last(problem(job("hubs", 4))) is None
    assert last(problem(job("flaps", 1, due=34, rank="wanted"), job("weld", 4, due=34)), "flaps") is None
    assert last(problem(job("hubs", 4, due=-1))) is None
    assert last(problem(job("hubs", 4, due=30)), "no such job") is None


def test_wanted_work_that_needed_work_waits_for_has_a_day():
    made = problem(job("paint", 4, rank="wanted", due=34), job("refit", 8, due=34), links=(Link("paint", "refit"),))
    assert last(made, "paint") == 20


def test_another_car_has_days_of_its_own():
    made = problem(job("hubs", 4, due=12), job("fan", 4, due=34, vehicle="moth"))
    assert (last(made), last(made, "fan")) == (0, 30)


@pytest.mark.parametrize("pinned, day", [(12, 10), (9, 0)])
def test_a_pinned_start_is_the_latest_it_may_have(pinned, day):
    assert last(problem(job("hubs", 4, due=34, pinned=pinned))) == day


def test_a_job_in_hand_can_be_put_down_until_it_comes():
    made = problem(job("hubs", 4, due=34, started=True, crew=("ines",)))
    assert last(made) == 30
