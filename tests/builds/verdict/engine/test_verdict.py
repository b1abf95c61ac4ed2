"""The verdict: each reason alone, in pairs, none; and no way to fit past an unfinished joint."""

from dataclasses import replace
from datetime import UTC, datetime
from itertools import combinations

import pytest

from builds.verdict.engine import Facts, HoldFact, JobFact, Severity, StripFact, verdict

AT = datetime(2027, 3, 2, 17, tzinfo=UTC)
STEERING = ("steering",)


def job(number: int = 1, **more) -> JobFact:
    return JobFact(**{"id": number, "title": f"Job {number}", "rank": "wanted", "state": "open", **more})


def car(*jobs: JobFact, **more) -> Facts:
    return Facts(**{"vehicle": 9, "at": AT, "standing": "driveable", "jobs": jobs, **more})


# What is the case, its severity, its sentence; each alone makes exactly one reason.
ALONE = {
    "safety in hand": (
        car(job(rank="safety", state="in_hand", systems=STEERING, worked=True)),
        Severity.LOOSE,
        "“Job 1” is in hand: take its joints as loose.",
    ),
    "safety put down": (
        car(job(rank="safety", state="waiting", systems=STEERING, worked=True)),
        Severity.LOOSE,
        "“Job 1” was put down half done: take its joints as loose.",
    ),
    "safety held half done": (
        car(job(rank="safety", state="held", systems=STEERING, worked=True)),
        Severity.LOOSE,
        "“Job 1” is held half done: take its joints as loose.",
    ),
    "safety done, and stopped at its hold point": (
        car(job(rank="safety", state="held", systems=STEERING, worked=True, ended=AT)),
        Severity.LOOSE,
        "“Job 1” is done, and waits for a second pair of eyes: take its joints as loose.",
    ),
    "safety reopened": (
        car(job(rank="safety", state="open", systems=STEERING, worked=True)),
        Severity.LOOSE,
        "“Job 1” was begun and stands open again: take its joints as loose.",
    ),
    "safety begun and dropped": (
        car(job(rank="safety", state="dropped", systems=STEERING, worked=True)),
        Severity.LOOSE,
        "“Job 1” was begun and dropped: nobody signed that the car is whole again.",
    ),
    "lowered to wanted, but in hand": (
        car(job(state="in_hand", systems=STEERING, lowered_because="only the cover")),
        Severity.LOOSE,
        "“Job 1” is in hand: take its joints as loose.",
    ),
    "wanted, half done, with something off the car": (
        car(job(state="waiting", systems=("gearbox",), worked=True, apart=True)),
        Severity.NEEDED,
        "“Job 1” was begun and is not finished: something of it is off the car.",
    ),
    "stripped on a station": (
        car(
            job(1, state="signed", worked=True),
            job(2, title="Wheels on"),
            strips=(StripFact(1, 2, "Bay"),),
        ),
        Severity.STRIPPED,
        "Stripped in Bay. It stays there until “Wheels on” is done.",
    ),
    "stripped, the end dropped": (
        car(
            job(1, state="signed", worked=True),
            job(2, title="Wheels on", state="dropped"),
            strips=(StripFact(1, 2, "Bay"),),
        ),
        Severity.STRIPPED,
        "Stripped in Bay. It stays there until “Wheels on” is done, which was dropped.",
    ),
    "hold point on finished work": (
        car(job(state="signed", worked=True), holds=(HoldFact(1, "Weld looked at"),)),
        Severity.HOLD_POINT,
        "Hold point not signed on “Job 1”: Weld looked at",
    ),
    "done, not signed": (
        car(job(state="done", rank="safety", systems=("brakes",), worked=True)),
        Severity.UNSIGNED,
        "“Job 1” is done, but nobody has signed it.",
    ),
    "safety by hand, not signed": (
        car(job(state="done", rank="safety", systems=("engine",))),
        Severity.UNSIGNED,
        "“Job 1” is done, but nobody has signed it.",
    ),
    "open safety": (
        car(job(rank="safety", systems=STEERING)),
        Severity.SAFETY,
        "Open safety job: “Job 1”",
    ),
    "open safety held before it was begun": (
        car(job(rank="safety", state="held", systems=STEERING)),
        Severity.SAFETY,
        "Open safety job: “Job 1”",
    ),
    "open safety with hold points ahead": (
        car(
            job(rank="safety", systems=STEERING),
            holds=(HoldFact(1, "Weld looked at"), HoldFact(1, "Crack test")),
        ),
        Severity.SAFETY,
        "Open safety job: “Job 1” (2 hold points on the way)",
    ),
    "ranked low without a reason": (
        car(job(rank="wanted", systems=STEERING, lowered_because="  ")),
        Severity.SAFETY,
        "Open safety job: “Job 1”",
    ),
    "open needed": (car(job(rank="needed")), Severity.NEEDED, "Open needed job: “Job 1”"),
    "needed in hand": (
        car(job(rank="needed", state="in_hand")),
        Severity.NEEDED,
        "Open needed job: “Job 1”",
    ),
    "hold point ahead on wanted work": (
        car(job(), holds=(HoldFact(1, "Gap measured"),)),
        Severity.HOLD_AHEAD,
        "Hold point ahead on “Job 1”: Gap measured",
    ),
    "on stands": (car(standing="stands"), Severity.STANDING, "The car is on stands."),
    "rolling": (car(standing="rolling"), Severity.STANDING, "The car is rolling, not driveable."),
}
NOTHING = {
    "nothing recorded against it": car(),
    "open wanted": car(job()),
    "wanted, and nobody has begun to take it off": car(job(systems=("gearbox",), apart=True)),
    "wanted in hand, no safety system": car(job(state="in_hand", systems=("paint",), worked=True)),
    "needed done": car(job(rank="needed", state="done", systems=("engine",), worked=True)),
    "done, looked at by its recipe's hold points": car(
        job(state="done", rank="safety", systems=STEERING, worked=True, covered=True)
    ),
    "safety signed": car(job(rank="safety", state="signed", systems=STEERING, worked=True)),
    "safety dropped before it was begun": car(job(rank="safety", state="dropped")),
    "engine work begun and dropped": car(job(state="dropped", systems=("engine",), worked=True)),
    "strip not begun": car(job(1), job(2), strips=(StripFact(1, 2, "Bay"),)),
    "strip over": car(job(1, state="done"), job(2, state="done"), strips=(StripFact(1, 2, "Bay"),)),
}


@pytest.mark.parametrize("case", ALONE)
def test_each_reason_alone(case):
    facts, severity, sentence = ALONE[case]
    found = verdict(facts)
    assert [(each.severity, each.sentence) for each in found.reasons] == [(severity, sentence)]
    assert (found.state, found.sentence) == (
        "not_fit",
        "Not fit to run: 1 thing stands in the way",
    )
    assert found.at == AT
    assert found.do_not_drive == (severity <= Severity.FAULT)
    (reason,) = found.reasons
    assert reason.clears.endswith(".")
    assert (reason.kind, reason.ref) == (
        ("vehicle", 9) if severity is Severity.STANDING else ("job", facts.jobs[-1].id)
    )


@pytest.mark.parametrize("case", NOTHING)
def test_what_is_no_reason(case):
    found = verdict(NOTHING[case])
    assert (found.state, found.sentence, found.reasons) == ("fit", "Fit to run", ())
    assert not found.do_not_drive


def shifted(facts: Facts, by: int) -> Facts:
    return replace(
        facts,
        jobs=tuple(replace(each, id=each.id + by) for each in facts.jobs),
        holds=tuple(replace(each, job=each.job + by) for each in facts.holds),
        strips=tuple(replace(each, first=each.first + by, last=each.last + by) for each in facts.strips),
    )


def test_pairs_stand_worst_first_and_none_hides_another():
    for one, two in combinations(ALONE, 2):
        first, second = ALONE[one][0], shifted(ALONE[two][0], 100)
        if "driveable" not in (first.standing, second.standing):
            continue  # one car stands in one way
        both = replace(
            first,
            standing=first.standing if first.standing != "driveable" else second.standing,
            jobs=first.jobs + second.jobs,
            holds=first.holds + second.holds,
            strips=first.strips + second.strips,
        )
        found = verdict(both)
        assert [each.severity for each in found.reasons] == sorted([ALONE[one][1], ALONE[two][1]]), (one, two)
        assert found.sentence == "Not fit to run: 2 things stand in the way"


UNSAID = "nobody has said which readings and gear it must have and its scrutineering list is not made"


@pytest.mark.parametrize("case", NOTHING)
def test_what_is_not_recorded_is_never_fit(case):
    found = verdict(replace(NOTHING[case], unknown=("readings", "gear", "checks")))
    assert found.state == "not_known"
    assert found.sentence == f"Not known to be fit: {UNSAID}"
    assert not found.reasons


def test_what_is_not_recorded_is_said_beside_the_reasons():
    found = verdict(car(job(rank="needed"), unknown=("readings",)))
    assert found.state == "not_fit"
    assert found.not_recorded == "Nobody has said which readings it must have."
    assert found.sentence == "Not fit to run: 1 thing stands in the way"


def test_a_lowered_rank_is_printed_with_its_reason():
    lowered = job(rank="needed", systems=STEERING, lowered_because="only the cover ")
    found = verdict(car(lowered))
    assert found.lowered == ("“Job 1” ranks needed, not safety: only the cover",)
    assert [each.severity for each in found.reasons] == [Severity.NEEDED]


def test_no_rank_and_no_reason_frees_a_car_with_a_safety_joint_begun():
    for rank in ("safety", "needed", "wanted"):
        for state in ("open", "in_hand", "waiting", "held", "dropped", "done"):
            begun = job(rank=rank, state=state, systems=STEERING, worked=True, lowered_because="a reason")
            assert verdict(car(begun)).do_not_drive, (rank, state)


def test_work_that_takes_nothing_apart_is_open_when_put_down_and_no_joint_is_loose():
    for state in ("open", "in_hand", "waiting", "held", "dropped"):
        loaded = verdict(car(job(rank="safety", state=state, systems=STEERING, worked=True, opens=False)))
        assert not loaded.do_not_drive, state
        assert [each.severity for each in loaded.reasons] == ([Severity.SAFETY] if state != "dropped" else []), state
    assert verdict(car(job(rank="safety", state="done", systems=STEERING, opens=False))).do_not_drive


def test_a_hold_point_without_its_job_is_an_error_not_a_pass():
    with pytest.raises(KeyError):
        verdict(car(holds=(HoldFact(1, "Weld looked at"),)))


@pytest.mark.parametrize(
    ("more", "held", "clears"),
    [
        ({}, False, "Do it and have it signed."),
        ({"covered": True}, False, "Do it."),
        ({"covered": True}, True, "Do it and have it signed."),
    ],
)
def test_a_signature_is_asked_for_only_where_one_is(more, held, clears):
    one = JobFact(1, "Bed in the pads", "safety", "open", ("brakes",), **more)
    holds = (HoldFact(1, "Look at it"),) if held else ()
    (reason,) = verdict(Facts(1, AT, "driveable", jobs=(one,), holds=holds)).reasons
    assert reason.clears == clears


def test_two_strips_that_end_with_the_same_wheels_are_said_once():
    jobs = (job(1, state="signed", worked=True), job(2, state="done", worked=True), job(3, title="Wheels on"))
    twice = car(*jobs, strips=(StripFact(1, 3, "Bay"), StripFact(2, 3, "Bay")))
    assert [reason.severity for reason in verdict(twice).reasons].count(Severity.STRIPPED) == 1
