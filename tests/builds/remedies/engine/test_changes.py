"""What each change does to a problem, what it asks of whom, and what it never does."""

import pytest

from builds.planner.plan import Placed, Plan
from builds.planner.problem import Link, Person
from builds.remedies.engine.changes.defer import Defer
from builds.remedies.engine.changes.presence import ExtraSession, Hands
from builds.remedies.engine.changes.room import Room
from builds.remedies.engine.changes.sooner import Sooner
from builds.remedies.engine.changes.stay_home import StayHome
from tests.builds.remedies.engine.garages import bay, garage, job


def test_wanted_work_waits_until_the_car_has_left():
    problem = garage(job("polish", rank="wanted"), job("fit"))
    change = Defer(("polish",), 192)
    assert [row.earliest for row in change.apply(problem).jobs] == [192, 0]
    assert change.effort == 0.5


@pytest.mark.parametrize("rank", ["safety", "needed"])
def test_what_must_be_done_is_never_put_off(rank):
    problem = garage(job("brakes", rank=rank))
    with pytest.raises(ValueError, match="it is not put off"):
        Defer(("brakes",), 192).apply(problem)


def test_a_session_joins_the_hours_there_are():
    problem = garage(job("fit"))
    change = ExtraSession("ines", 40, 72, 8.0)
    assert change.apply(problem).people[0].windows[0] == (40, 86)
    assert change.effort == 8


def test_somebody_new_is_there_for_the_session_alone():
    problem = garage(job("fit"))
    change = Hands("align", 72, 86, 3.5)
    new = change.apply(problem).people[-1]
    assert (new.skills, new.windows) == (("align",), ((72, 86),))
    assert change.effort == 2 + 1.5 * 3.5


def test_a_part_and_a_heater_let_work_begin_sooner_and_change_nothing_else():
    problem = garage(
        job("prime"),
        job("fit", earliest=100, waits_for="the part fan", rank="safety"),
        links=(Link("prime", "fit", 96, why="it cures"),),
    )
    sooner = job("fit", 1, rank="wanted", earliest=4)
    change = Sooner("part", 3.0, (sooner,), (Link("prime", "fit", 10),))
    after = change.apply(problem)
    assert (after.jobs[1].earliest, after.jobs[1].rank, after.jobs[1].work) == (4, "safety", 8)
    assert after.jobs[1].waits_for is None
    assert (after.links[0].wait, after.links[0].why) == (10, "it cures")


def test_room_for_one_more_and_a_car_that_stays_at_home():
    problem = garage(job("fit"), job("trim", vehicle="badger"), stations=(bay(),))
    assert Room("bay").apply(problem).stations[0].capacity == 2
    change = StayHome("badger", None, 0.1, 2)
    after = change.apply(problem)
    assert [row.due for row in after.jobs] == [192, None]
    assert [car.weight for car in after.vehicles] == [3, 0.1]
    assert change.effort == 24


def test_less_of_a_session_is_what_is_used_then_halves_then_half_hours():
    change = ExtraSession("ines", 72, 86, 3.5)
    used = Plan((Placed("fit", 75, 79, ("ines",)), Placed("trim", 0, 4, ("ines",))))
    spans = [(less.begin, less.end, less.hours) for less in change.smaller(used)]
    assert spans == [
        (74, 80, 1.5),
        (78, 86, 2.0),
        (72, 78, 1.5),
        (72, 84, 3.0),
        (74, 86, 3.0),
    ]


def test_nobody_comes_for_less_than_an_hour():
    change = ExtraSession("ines", 72, 76, 1.0)
    assert list(change.smaller(Plan((Placed("fit", 72, 74, ("ines",)),)))) == []


def test_of_slots_as_long_as_a_session_there_is_no_less():
    assert list(ExtraSession("ines", 3, 4, 3.0).smaller(Plan((Placed("fit", 3, 4, ("ines",)),)))) == []


def test_less_work_put_off_is_all_but_one():
    assert list(Defer(("a",), 9).smaller(Plan(()))) == []
    assert list(Defer(("a", "b"), 9).smaller(Plan(()))) == [Defer(("a",), 9), Defer(("b",), 9)]


def test_a_person_always_there_stays_so():
    problem = garage(job("fit"), people=(Person("ines"),))
    assert ExtraSession("ines", 0, 4, 1.0).apply(problem).people[0].windows == ((0, problem.slots),)


FAN = Sooner("part", 3.0, (job("fit"),))
HEATER = Sooner("heat", 2.0, (job("trim"),), (Link("prime", "fit"),))


@pytest.mark.parametrize(
    ("change", "other", "joins"),
    [
        (Defer(("wax",), 9), Defer(("polish",), 9), False),
        (Defer(("wax",), 9), Room("bay"), True),
        (FAN, HEATER, False),  # both let the same job begin sooner
        (FAN, Sooner("heat", 2.0, (job("trim"),)), True),
        (Room("bay"), Room("bay"), False),
        (Room("bay"), Room("ramp"), True),
        (ExtraSession("ines", 0, 8, 2.0), ExtraSession("ines", 8, 16, 2.0), True),
    ],
)
def test_what_adds_nothing_to_the_other_is_not_tried_with_it(change, other, joins):
    assert change.joins((other,)) is joins
    assert other.joins((change,)) is joins


def test_more_work_put_off_tells_nothing_new_once_less_of_it_does():
    one, two = Defer(("wax",), 9), Defer(("polish", "wax"), 9)
    assert two.asks_more_than(one)
    assert not one.asks_more_than(two)
    assert not Room("bay").asks_more_than(one)


def test_only_work_put_off_is_late_without_being_news():
    assert Defer(("wax", "polish"), 9).puts_off() == {"wax", "polish"}
    assert not Room("bay").puts_off()


def test_a_car_at_home_gives_its_own_date_up_and_no_other():
    home = StayHome("badger", None, 0.1, 1)
    assert home.gives_up("badger")
    assert not home.gives_up("heron")
    assert not Room("bay").gives_up("badger")
