"""How a joint stands after marks, signatures, work that opened it and a first session."""

from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from itertools import product

import pytest

from builds.joints.engine.joints import OPENERS, Marked, off_figure, opens, state_of, why_off
from builds.readings.engine.kinds_of_work import KINDS
from builds.readings.engine.kinds_touch import TOUCHED_BY
from builds.verdict.engine.records import JointFact
from builds.work.engine.car_work import CarWork
from garage.engine.gear import Judged

MARKED_AT = datetime(2027, 3, 2, 18, 0, tzinfo=UTC)
HOUR = timedelta(hours=1)
RAN_OUT = Judged("out", None, "Ran out.")
SIGNED, UNSIGNED = Marked(MARKED_AT, True), Marked(MARKED_AT, False)


def opened(hours, title="Strip the corner"):
    """Work whose hands left so many hours after the mark; None while it is in hand."""
    ended = None if hours is None else MARKED_AT + hours * HOUR
    return CarWork(title, frozenset(), frozenset(), ended)


def test_a_joint_that_nobody_marked_is_loose():
    for safety in (True, False):
        found = state_of(safety, None)
        assert (found.state, found.words) == ("loose", "Nobody has marked it yet.")


@pytest.mark.parametrize(
    ("safety", "mark", "state"),
    [(True, SIGNED, "stands"), (True, UNSIGNED, "unsigned"), (False, UNSIGNED, "stands")],
)
def test_a_safety_joint_stands_only_when_a_second_person_signed_it(safety, mark, state):
    assert state_of(safety, mark).state == state


def test_work_that_ended_after_the_mark_took_it_away():
    found = state_of(True, SIGNED, [opened(-5), opened(1)])
    assert found.state == "loose"
    assert found.words == "Opened by “Strip the corner” on 2 Mar."


def test_work_in_hand_has_the_joint_loose_though_it_was_marked_meanwhile():
    found = state_of(True, SIGNED, [opened(None)])
    assert (found.state, found.words) == ("loose", "“Strip the corner” is in hand.")


def test_work_that_ended_at_the_moment_of_the_mark_ended_before_it():
    assert state_of(True, SIGNED, [opened(0)]).state == "stands"


def test_the_first_session_makes_it_due_again_and_a_new_mark_ends_that():
    run = ran(MARKED_AT + HOUR)
    assert state_of(True, SIGNED, [], [run]).state == "due"
    assert state_of(True, Marked(run.ended + HOUR, True), [], [run]).state == "stands"
    assert state_of(True, SIGNED, [], [ran(MARKED_AT - HOUR)]).state == "stands"
    assert state_of(True, SIGNED, [], [ran(MARKED_AT)]).state == "stands", "marked in that very moment is after it"


def ran(at, *, unsaid=False):
    return CarWork("Kiln Lane", frozenset(), frozenset({"first_run"}), at, words="It ran.", unsaid=unsaid)


def test_what_nobody_said_of_an_event_is_asked_and_what_somebody_said_goes_before():
    asked = state_of(True, SIGNED, [], [ran(MARKED_AT + HOUR, unsaid=True)])
    assert (asked.state, asked.words) == ("asked", "It ran.")
    both = [ran(MARKED_AT + HOUR, unsaid=True), ran(MARKED_AT + 2 * HOUR)]
    assert state_of(True, SIGNED, [], both).state == "due"


ORDER = ["loose", "unsigned", "off", "due", "asked", "stands"]


def test_what_is_worse_comes_first():
    for safety, mark, work, run in product(
        (True, False),
        (None, SIGNED, UNSIGNED, replace(SIGNED, off="Too loose."), replace(UNSIGNED, off="Too loose.")),
        ([], [opened(1)], [opened(None)]),
        ([], [ran(MARKED_AT + HOUR)]),
    ):
        alone = [
            state_of(safety, mark).state,
            state_of(safety, mark, work).state,
            state_of(safety, mark, [], run).state,
            state_of(safety, mark and replace(mark, off="")).state,
        ]
        found = state_of(safety, mark, work, run).state
        assert ORDER.index(found) == min(ORDER.index(each) for each in alone)


def test_every_opener_is_a_known_kind_of_work_once():
    assert set(OPENERS) <= KINDS.keys()
    assert len(set(OPENERS)) == len(OPENERS)


@pytest.mark.parametrize(
    ("torque", "figure", "off"),
    [
        (99_000, 110_000, False),  # exactly a tenth below
        (121_000, 110_000, False),
        (98_999, 110_000, True),
        (121_001, 110_000, True),
        (50_000, None, False),
        # The wrong unit on the wrench: 110 lbf·ft are 149.14 N·m (topic of units, 1.3558179 N·m).
        (149_140, 110_000, True),
    ],
)
def test_more_than_a_tenth_off_the_makers_figure_is_off(torque, figure, off):
    assert off_figure(torque, figure) is off


RAN_OUT = Judged("out", date(2027, 3, 1), "Ran out on 1 March 2027, by its label.")


@pytest.mark.parametrize(("safety", "mark", "runs", "state"), [
    (True, Marked(MARKED_AT, True, RAN_OUT), [], "wrench"),
    (False, Marked(MARKED_AT, True, RAN_OUT), [], "stands"),
    (True, Marked(MARKED_AT, False, RAN_OUT), [], "unsigned"),
    (True, Marked(MARKED_AT, True, RAN_OUT), [ran(MARKED_AT + HOUR)], "due"),
    (True, Marked(MARKED_AT, True, RAN_OUT), [ran(MARKED_AT + HOUR, unsaid=True)], "wrench"),
])  # fmt: skip
def test_torqued_with_what_was_out_of_its_date(safety, mark, runs, state):
    found = state_of(safety, mark, [], runs)
    assert found.state == state
    assert (found.words == RAN_OUT.sentence) == (state == "wrench")


def seen(hours):
    """What somebody saw so many hours after the mark."""
    words = "Wheel torque was read out of its limits."
    return CarWork("Wheel torque", frozenset(), frozenset(), MARKED_AT + hours * HOUR, words=words, seen=True)


def test_a_mark_that_somebody_saw_to_be_untrue_holds_no_more_until_there_is_a_new_one():
    found = state_of(True, SIGNED, [seen(1)])
    assert (found.state, found.words) == ("void", "Wheel torque was read out of its limits.")
    assert state_of(True, SIGNED, [seen(-1)]).state == "stands"
    assert state_of(True, Marked(MARKED_AT + 2 * HOUR, False), [seen(1)]).state == "unsigned", "and somebody else looks"
    assert state_of(True, SIGNED, [seen(1), opened(2)]).state == "loose", "what was opened comes first"


def test_a_mark_that_is_not_at_its_figure_does_not_stand():
    words = why_off(60_000, 110_000, "no wrench.", "metric")
    assert words == "It was brought to 60 N·m, and its figure is 110 N·m: no wrench."
    found = state_of(True, Marked(MARKED_AT, True, off=words))
    assert (found.state, found.words) == ("off", words)
    unseen = state_of(True, Marked(MARKED_AT, False, off=words))
    assert (unseen.state, unseen.words) == ("unsigned", f"Nobody else has looked at it. {words}")
    assert "lbf·ft" in why_off(60_000, 110_000, "", "imperial")
    assert why_off(105_000, 110_000, "", "metric") == why_off(None, 110_000, "", "metric") == ""


def test_whatever_voids_the_wheel_torque_opens_the_wheel_nuts():
    nuts = JointFact(1, "Wheel nuts", "stands", opened_by=("wheel_off",), systems=("wheels",))
    for slug, kind in KINDS.items():
        system = TOUCHED_BY.get(slug, ("body",))[0]
        work = CarWork("Work", frozenset({system}), frozenset({slug}), None)
        assert opens(nuts, work) == ("wheel_torque" in kind.voids and slug != "first_run"), slug
    assert not opens(nuts, CarWork("Camber", frozenset(), frozenset({"camber_front"}), None, words="Out.", seen=True))
    bolts = replace(nuts, opened_by=("joint_opened",))
    assert not opens(bolts, CarWork("Work", frozenset({"brakes"}), frozenset({"hydraulics_opened"}), None))
