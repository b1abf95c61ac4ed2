"""How a car stands in a plan: ready, late and without a place, and how much of a stretch somebody is in."""

from builds.planner.plan import Placed, Plan, Unplaced
from builds.planner.problem import Person
from builds.remedies.engine.standing import late_wanted, missing_cars, standing, worked_between
from tests.builds.remedies.engine.garages import garage, job


def person(name, *windows):
    return Person(name, (), windows, name=name.capitalize())


def ends(**jobs):
    """One who does them all; where each ends."""
    return Plan(tuple(Placed(name, end - 8, end, ("ines",)) for name, end in jobs.items()))


def test_slots_in_which_somebody_is_in_count_once_and_only_within():
    problem = garage(people=(person("ines", (0, 10), (20, 30)), person("tove", (5, 15))))
    assert worked_between(problem, 0, 100) == 25
    assert [worked_between(problem, since, until) for since, until in [(0, 1), (14, 15), (15, 20), (9, 21)]] == [
        1,
        1,
        0,
        7,
    ]
    assert worked_between(problem, 10, 10) == worked_between(problem, 10, 9) == 0


def test_a_car_is_as_late_as_its_jobs_together_and_on_time_on_the_slot():
    problem = garage(job("weld", due=20), job("fit", due=20), job("polish", rank="wanted", due=20))
    on_time = standing(problem, ends(weld=20, fit=19, polish=40), "heron")
    assert (on_time.ready, on_time.due, on_time.late, on_time.unplaced) == (20, 20, 0, ())
    late = standing(problem, ends(weld=21, fit=23, polish=40), "heron")
    assert (late.ready, late.late) == (23, 4)


def test_what_has_no_place_has_no_end():
    problem = garage(job("weld", due=20), job("fit", due=None))
    plan = Plan((Placed("fit", 0, 8, ("ines",)),), (Unplaced("weld", "Nobody is in."),))
    found = standing(problem, plan, "heron")
    assert (found.ready, found.unplaced, found.late) == (None, ("weld",), 0)
    assert standing(garage(job("polish", rank="wanted")), Plan(()), "heron").ready == 0


def test_late_by_one_slot_is_missing_and_on_the_slot_is_not():
    problem = garage(job("weld", due=20), job("polish", rank="wanted", due=20))
    assert (missing_cars(problem, ends(weld=20, polish=20)), late_wanted(problem, ends(weld=20, polish=20))) == (
        set(),
        set(),
    )
    assert missing_cars(problem, ends(weld=21, polish=20)) == {"heron"}
    assert late_wanted(problem, ends(weld=20, polish=21)) == {"polish"}
    assert (missing_cars(problem, Plan(())), late_wanted(problem, Plan(()))) == ({"heron"}, {"polish"})
