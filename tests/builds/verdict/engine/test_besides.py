"""How many there are of what is said beside the verdict, and what rests on somebody's word."""

from dataclasses import replace
from datetime import UTC, datetime, timedelta

import pytest

from builds.verdict.engine import CheckFact, Facts, HoldFact, JobFact, JointFact, ReadingFact, verdict
from builds.verdict.engine.on_word import on_word

AT = datetime(2027, 3, 2, 17, tzinfo=UTC)
SECOND = timedelta(seconds=1)


@pytest.mark.parametrize(("many", "said"), [
    (0, ""),
    (1, "1 item of its scrutineering list was left out."),
    (2, "2 items of its scrutineering list were left out."),
])  # fmt: skip
def test_how_many_items_were_left_out(many, said):
    checks = tuple(CheckFact(1, f"Item {number}", "left_out") for number in range(many))
    assert verdict(Facts(9, AT, "driveable", checks=checks)).besides == said


@pytest.mark.parametrize(("many", "said"), [
    (0, "Open safety job: “Weld”"),
    (1, "Open safety job: “Weld” (1 hold point on the way)"),
    (2, "Open safety job: “Weld” (2 hold points on the way)"),
])  # fmt: skip
def test_how_many_hold_points_are_on_the_way(many, said):
    job = JobFact(1, "Weld", "safety", "open", ("steering",))
    holds = tuple(HoldFact(1, f"Point {number}") for number in range(many))
    reasons = verdict(Facts(9, AT, "driveable", (job,), holds)).reasons
    assert said in [reason.sentence for reason in reasons]


@pytest.mark.parametrize(("many", "said"), [
    (0, ""),
    (1, "1 safety job was finished as having opened nothing."),
    (2, "2 safety jobs were finished as having opened nothing."),
])  # fmt: skip
def test_how_much_rests_on_somebodys_word(many, said):
    told = {"rank": "safety", "state": "signed", "systems": ("wheels",), "ended": AT}
    told["nothing_because"] = "only looked"
    jobs = tuple(JobFact(id=number, title=f"Job {number}", **told) for number in range(many))
    reading = ReadingFact("wheel_torque", "Wheel torque", "stands", since=AT)
    found = verdict(Facts(9, AT, "driveable", jobs, readings=(reading,)))
    assert (found.besides, len(found.on_word)) == (said, many)


def test_of_work_of_which_nobody_said_what_it_touches_it_says_job():
    told = {"rank": "needed", "state": "done", "ended": AT, "nothing_because": "only looked", "unsaid": True}
    reading = ReadingFact("wheel_torque", "Wheel torque", "stands", since=AT)
    found = verdict(Facts(9, AT, "driveable", (JobFact(1, "Bremsen", **told),), readings=(reading,)))
    assert found.besides == "1 job was finished as having opened nothing."


NUTS = JointFact(1, "Wheel nuts", "stands", systems=("wheels",), since=AT)
TOE = ReadingFact("toe_front", "Front toe", "stands", since=AT)


@pytest.mark.parametrize(("systems", "joint", "reading", "rests"), [
    (("wheels",), NUTS, TOE, "Wheel nuts and Front toe"),
    ((), NUTS, TOE, "Wheel nuts and Front toe"),  # of which nobody said what it touches
    (("restraint",), NUTS, TOE, ""),
    (("wheels",), replace(NUTS, since=AT + SECOND), TOE, "Front toe"),
    (("wheels",), replace(NUTS, state="loose"), replace(TOE, since=AT + SECOND), ""),
    (("wheels",), NUTS, replace(TOE, state="void"), "Wheel nuts"),
    (("wheels",), replace(NUTS, since=None), replace(TOE, since=None), ""),
])  # fmt: skip
def test_what_rests_on_it_is_what_was_there_when_it_ended_and_such_work_mostly_spoils(systems, joint, reading, rests):
    told = {"rank": "safety", "state": "signed", "systems": systems, "ended": AT, "nothing_because": "only looked."}
    facts = Facts(9, AT, "driveable", (JobFact(id=1, title="Hubs", **told),), joints=(joint,), readings=(reading,))
    words = f"“Hubs” is said to have opened nothing: only looked. Older than that: {rests}."
    assert on_word(facts) == ((words,) if rests else ())


TURNED = replace(NUTS, name="Tie rod nut", opened_by=("steering_arm",), systems=("steering",))


@pytest.mark.parametrize(
    ("joint", "rests"),
    [
        (TURNED, "Tie rod nut"),
        (replace(TURNED, state="loose"), ""),
        (replace(TURNED, since=AT + SECOND), ""),
        (replace(TURNED, opened_by=("seat_or_belt_moved",)), ""),
        (replace(NUTS, opened_by=("pin_out",)), "Wheel nuts"),  # of a system that was taken off the work
    ],
)
def test_of_work_that_opened_less_rests_what_that_would_have_opened(joint, rests):
    told = {"rank": "safety", "state": "signed", "systems": ("steering",), "kinds": ("rack_moved",), "ended": AT}
    told |= {"nothing_because": "only cleaned", "not_opened": ("steering_arm",), "not_touched": ("wheels",)}
    (words,) = on_word(Facts(9, AT, "driveable", (JobFact(1, "Arm", **told),), joints=(joint,))) or ("",)
    assert words.endswith(f"Older than that: {rests}." if rests else "")
    assert bool(words) == bool(rests)


def test_of_many_the_first_are_named():
    told = {"rank": "safety", "state": "signed", "systems": ("wheels",), "ended": AT, "nothing_because": "only looked"}
    for many, named in ((3, "J0, J1 and J2"), (4, "J0, J1 and 2 more")):
        joints = tuple(replace(NUTS, id=number, name=f"J{number}") for number in range(many))
        (words,) = on_word(Facts(9, AT, "driveable", (JobFact(id=1, title="Hubs", **told),), joints=joints))
        assert words.endswith(f"Older than that: {named}.")


SEEN = {"rank": "safety", "state": "dropped", "systems": ("wheels",), "ended": AT, "fault": True}
SEEN |= {"dropped_because": "no such thing.", "dropped_by": "Ines"}
TICK = CheckFact(1, "Studs", "stands", systems=("wheels",), since=AT)


@pytest.mark.parametrize(("told", "older", "rests"), [
    ({}, {"joints": (NUTS,)}, "Wheel nuts"),
    ({}, {"checks": (TICK,)}, "Studs"),
    ({"systems": (), "rank": "needed", "unsaid": True}, {"readings": (TOE,)}, "Front toe"),
    ({"worked": True, "whole_because": "it is all there"}, {"joints": (NUTS,)}, "Wheel nuts"),
    ({}, {"joints": (replace(NUTS, since=AT + SECOND),), "checks": (replace(TICK, since=AT + SECOND),)}, ""),
    ({"systems": ("body",), "rank": "needed", "names_nothing": True}, {"joints": (NUTS,)}, "Wheel nuts"),
    ({"fault": False}, {"joints": (NUTS,)}, ""),  # a plan that is given up
    ({"systems": ("body",), "rank": "needed"}, {"joints": (NUTS,)}, ""),
    ({"state": "signed"}, {"joints": (NUTS,)}, ""),
])  # fmt: skip
def test_what_was_seen_and_dropped_undone_is_named_until_it_is_looked_at_again(told, older, rests):
    job = JobFact(id=1, title="Wash the mats", was_called="Nuts missing", **{**SEEN, **told})
    found = verdict(Facts(9, AT, "driveable", (job,), **older))
    called = "“Wash the mats” (was “Nuts missing”)"
    said = f"{called} was dropped without being done: no such thing (Ines). Older than that: {rests}."
    assert found.dropped == ((said,) if rests else ())
    assert found.sentence.endswith("dropped without being done") == bool(rests)


def test_what_was_seen_and_may_be_anything_wants_a_second_pair_of_eyes():
    job = JobFact(1, "It clonks", "needed", "done", worked=True, fault=True, unsaid=True)
    reasons = verdict(Facts(9, AT, "driveable", (job,))).reasons
    assert [reason.sentence for reason in reasons] == ["“It clonks” is done, but nobody has signed it."]
    assert not verdict(Facts(9, AT, "driveable", (replace(job, unsaid=False, systems=("body",)),))).reasons


def test_what_was_seen_and_ranks_lower_says_why():
    job = JobFact(1, "It rubs", "wanted", "open", ("body",), fault=True, lowered_because="only the carpet")
    found = verdict(Facts(9, AT, "driveable", (job,)))
    assert found.lowered == ("“It rubs” ranks wanted, not needed: only the carpet",)
    assert "ranked lower" not in found.sentence


def test_the_same_facts_are_judged_once_whenever_it_is_asked():
    facts = Facts(9, AT, "stands", (JobFact(1, "Weld", "safety", "open", ("steering",)),))
    now, later = verdict(facts), verdict(replace(facts, at=AT + SECOND))
    assert (now.at, later.at) == (AT, AT + SECOND)
    assert now.reasons is later.reasons
    assert verdict(replace(facts, standing="driveable")).reasons != now.reasons
