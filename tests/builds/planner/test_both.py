"""Two searches at once: the better plan of both, in the time of one; one alone where no core is free."""

from dataclasses import replace
from types import SimpleNamespace

import pytest

from builds.planner import both
from builds.planner.again import worth
from builds.planner.check import faults
from builds.planner.search import plan
from tests.builds.planner.data import FLEETS, fleet


@pytest.fixture
def made():
    return fleet(FLEETS[0])


@pytest.fixture
def started(monkeypatch):
    """The processes that are begun."""
    seen, context = [], both.get_context("spawn")

    def process(**more):
        seen.append(context.Process(**more))
        return seen[-1]

    monkeypatch.setattr(both, "get_context", lambda method: SimpleNamespace(Pipe=context.Pipe, Process=process))
    return seen


def test_the_other_search_has_its_say_and_is_gone_afterwards(made, monkeypatch, started):
    monkeypatch.setattr(both, "is_core_free", lambda: True)
    answer = both.plan_on_both(made, seconds=4)
    assert not faults(made, answer)
    (other,) = started
    assert not other.is_alive()
    assert answer.tried > 0


@pytest.mark.parametrize(("better", "tried"), [("mine", 8), ("found", 8), ("gone", 5)])
def test_the_better_of_both(made, monkeypatch, better, tried):
    good, bad = plan(made, tries=300), plan(made)
    assert worth(made, good) < worth(made, bad)
    mine = replace(bad if better == "found" else good, tried=5, seconds=2.0)
    found = None if better == "gone" else replace(good if better == "found" else bad, tried=3, seconds=1.0)
    monkeypatch.setattr(both, "is_core_free", lambda: True)
    monkeypatch.setattr(both, "plan", lambda *_, **__: mine)
    monkeypatch.setattr(both, "_found", lambda ours: found)
    monkeypatch.setattr(both, "_search", print)
    answer = both.plan_on_both(made, seconds=2)
    assert (answer.placed, answer.tried, answer.seconds) == (good.placed, tried, 2.0)


@pytest.mark.parametrize(("seconds", "free"), [(0.9, True), (2, False)])
def test_one_alone(made, monkeypatch, started, seconds, free):
    monkeypatch.setattr(both, "is_core_free", lambda: free)
    monkeypatch.setattr(both, "plan", lambda *_, **__: "alone")
    assert both.plan_on_both(made, seconds=seconds) == "alone"
    assert started == []


@pytest.mark.parametrize(("load", "free"), [(0.9, True), (1.0, False)])
def test_a_core_is_free_where_fewer_are_asked_for_than_there_are(monkeypatch, load, free):
    monkeypatch.setattr(both.os, "getloadavg", lambda: (load, 9.0, 9.0))
    monkeypatch.setattr(both.os, "cpu_count", lambda: 2)
    assert both.is_core_free() is free


@pytest.mark.parametrize("error", [AttributeError, OSError])
def test_no_core_is_free_where_nobody_can_tell(monkeypatch, error):
    def untold():
        raise error

    monkeypatch.setattr(both.os, "getloadavg", untold)
    assert not both.is_core_free()
