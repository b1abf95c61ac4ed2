"""Which wanted work is worth putting off for a late car, where room is short, and what asks more than another."""

import pytest

from builds.planner.plan import Placed, Plan
from builds.planner.problem import Hold, Link
from builds.remedies.engine.changes.defer import Defer, deferrals
from builds.remedies.engine.changes.room import Room, more_room
from tests.builds.remedies.engine.garages import bay, garage, job


def plan(**starts):
    return Plan(tuple(Placed(name, start, start + 8, ("ines",)) for name, start in starts.items()))


def wanted(name, **more):
    return job(name, rank="wanted", vehicle="badger", **more)


def put_off(problem, base):
    return [change.jobs for change in deferrals(problem, base, "heron")]


def test_more_work_put_off_asks_more_and_only_of_its_own_kind():
    one, both, other = Defer(("a",), 9), Defer(("a", "b"), 9), Defer(("c",), 9)
    assert both.asks_more_than(one) and both.asks_more_than(both)
    assert not (one.asks_more_than(both) or both.asks_more_than(other) or both.asks_more_than(Room("bay")))
    assert not one.joins([Room("bay"), other]) and one.joins([Room("bay")])


def test_what_begins_before_the_car_is_due_may_be_put_off():
    problem = garage(job("weld", due=96), wanted("sooner"), wanted("at_once"), wanted("nowhere"))
    assert put_off(problem, plan(weld=100, sooner=95, at_once=96)) == [("sooner",)]
    assert put_off(garage(job("weld", due=None), wanted("sooner")), plan(weld=100, sooner=0)) == []


def test_the_longest_first_then_two_then_all():
    problem = garage(job("weld", due=96), wanted("a", work=4), wanted("b", work=12), wanted("c", work=5, hands=2))
    found = put_off(problem, plan(weld=120, a=0, b=0, c=0))
    assert found == [("b",), ("c",), ("a",), ("b", "c"), ("b", "c", "a")]


@pytest.mark.parametrize("stays", [{"started": True}, {"pinned": 3}, {"rank": "needed"}, {"work": 0}])
def test_what_is_in_hand_or_pinned_or_must_be_done_stays(stays):
    problem = garage(job("weld", due=96), job("other", **{"rank": "wanted", "vehicle": "badger", **stays}))
    assert put_off(problem, plan(weld=120, other=0)) == []


def test_what_must_be_done_keeps_all_that_it_waits_for_and_a_hold_its_ends():
    jobs = (job("weld", due=96), wanted("first"), wanted("second"), wanted("strip"), wanted("wheels"), wanted("free"))
    links = (Link("first", "second", 0), Link("second", "weld", 0))
    holds = (Hold("badger", "bay", "strip", "wheels"),)
    problem = garage(*jobs, links=links, holds=holds, stations=(bay(),))
    base = plan(weld=120, first=0, second=8, strip=0, wheels=20, free=0)
    assert put_off(problem, base) == [("free",)]


def test_room_is_short_where_work_of_the_car_is_done_and_more_is_asked_than_there_is():
    def short(capacity, due=96, uses=True):
        jobs = (job("weld", due=due, uses={"bay": 1} if uses else {}), wanted("polish", uses={"bay": 1}))
        return more_room(garage(*jobs, stations=(bay(capacity),)), plan(weld=120, polish=0), "heron")

    assert short(1) == [Room("bay")]
    assert short(2) == short(1, due=None) == short(1, uses=False) == []
