"""No path to fit, or to clear on the day, past open safety work or anything unknown."""

from dataclasses import replace

from hypothesis import given
from hypothesis import strategies as st

from builds.verdict.engine import (
    CheckFact,
    Facts,
    GearFact,
    JobFact,
    JointFact,
    PartFact,
    ReadingFact,
    Severity,
    WeldFact,
    verdict,
)
from builds.verdict.engine.on_plan import STAYS, PlannedJob, on_plan
from tests.property.test_verdict import cars

IDS = st.integers(0, 5)
RECORDS = st.fixed_dictionaries(
    {
        "joints": st.lists(
            st.builds(JointFact, IDS, st.just("Arm"), st.sampled_from(["loose", "unsigned", "due"])),
            max_size=2,
        ).map(tuple),
        "welds": st.lists(
            st.builds(WeldFact, IDS, st.just("Weld it"), st.sampled_from(["tacked", "uninspected"]), st.booleans()),
            max_size=2,
        ).map(tuple),
        "readings": st.lists(
            st.builds(
                ReadingFact,
                st.sampled_from(["toe", "camber"]),
                st.just("Toe"),
                st.sampled_from(["missing", "void", "out", "note"]),
            ),
            max_size=2,
        ).map(tuple),
        "gear": st.lists(
            st.builds(
                GearFact,
                IDS,
                st.just("Belts"),
                st.sampled_from(["out", "undated", "struck", "missing"]),
            ),
            max_size=2,
        ).map(tuple),
        "parts": st.lists(
            st.builds(PartFact, IDS, st.just("Fit"), st.just("hose"), st.sampled_from(["unfitted"])),
            max_size=1,
        ).map(tuple),
        "checks": st.lists(
            st.builds(CheckFact, IDS, st.just("Net"), st.sampled_from(["open", "failed"])),
            max_size=2,
        ).map(tuple),
        "unknown": st.lists(st.sampled_from(["readings", "gear", "parts"]), max_size=2, unique=True).map(tuple),
    }
)
ENDS = st.sampled_from(["in_time", *STAYS])
PLANNED = st.dictionaries(IDS, st.builds(PlannedJob, ENDS, st.just(""), st.sampled_from([(), ("toe",)])))


@st.composite
def records(draw: st.DrawFn) -> Facts:
    return replace(draw(cars()), **draw(RECORDS))


@given(records(), st.sampled_from(["", "a reason"]))
def test_no_path_to_fit_past_an_open_safety_job(facts: Facts, lowered: str) -> None:
    for state in ("open", "in_hand", "waiting", "held"):
        job = JobFact(99, "Brakes", "safety", state, ("brakes",), lowered_because=lowered)
        assert verdict(replace(facts, jobs=(*facts.jobs, job))).state == "not_fit"


@given(records())
def test_fit_means_nothing_on_record_against_it_and_nothing_unknown(facts: Facts) -> None:
    found = verdict(facts)
    against = (*facts.welds, *facts.joints, *facts.readings, *facts.gear, *facts.parts, *facts.checks)
    if against or facts.unknown:
        assert found.state != "fit"
    if facts.unknown and not found.reasons:
        assert found.state == "not_known"


@given(records())
def test_do_not_drive_is_implied_by_its_reasons(facts: Facts) -> None:
    found = verdict(facts)
    worst = min((each.severity for each in found.reasons), default=Severity.STANDING)
    assert found.do_not_drive == (worst <= Severity.FAULT)
    if any(each.state == "loose" for each in facts.joints):
        assert found.do_not_drive
    if found.do_not_drive:
        assert found.state == "not_fit"


@given(records(), PLANNED)
def test_never_clear_on_plan_past_what_the_plan_leaves_or_what_nobody_knows(facts, planned) -> None:
    found = on_plan(facts, planned)
    for job in facts.jobs:
        left = job.id not in planned or planned[job.id].ends != "in_time"
        if job.unfinished and job.counts_as != "wanted" and left:
            assert found.state == "blocked"
        if job.state == "done" and job.safety and not job.covered:
            assert found.state == "blocked"
    if facts.unknown or facts.joints or facts.gear or facts.parts:
        assert found.state != "clear"
    if any(each.state == "out" for each in facts.readings):
        assert found.state == "blocked"
    assert (found.state == "blocked") == bool(found.reasons)


@given(records(), PLANNED)
def test_a_plan_adds_no_reason_and_names_every_hold_point_that_it_clears(facts, planned) -> None:
    found = on_plan(facts, planned)
    assert len(found.reasons) <= len(verdict(facts).reasons)
    cleared = {pk for pk, job in planned.items() if job.ends == "in_time"}
    jobs = {job.id: job for job in facts.jobs}
    points = [hold for hold in facts.holds if hold.job in cleared and jobs[hold.job].unfinished]
    if points:
        assert found.on_the_way[0].startswith(f"{len(points)} hold point")


@given(records())
def test_without_a_plan_the_day_is_as_today_but_for_ticks(facts: Facts) -> None:
    now = verdict(replace(facts, checks=tuple(c for c in facts.checks if c.state != "open")))
    day = on_plan(facts, {})
    assert [each.severity for each in day.reasons] == [each.severity for each in now.reasons]
