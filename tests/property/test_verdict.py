"""The verdict on any facts: nothing leads to fit past an open safety job or a loose joint."""

from datetime import UTC, datetime

from hypothesis import given
from hypothesis import strategies as st

from builds.steps.engine.looks import RecipeWork, covering
from builds.verdict.engine import Facts, HoldFact, JobFact, StripFact, verdict
from garage.engine.systems import SYSTEMS

STATES = ["open", "in_hand", "waiting", "held", "done", "signed", "dropped"]
AT = datetime(2027, 3, 2, 17, tzinfo=UTC)


@st.composite
def cars(draw: st.DrawFn) -> Facts:
    jobs = tuple(
        JobFact(
            number,
            f"Job {number}",
            draw(st.sampled_from(["safety", "needed", "wanted"])),
            draw(st.sampled_from(STATES)),
            tuple(draw(st.lists(st.sampled_from(sorted(SYSTEMS)), max_size=2))),
            worked=draw(st.booleans()),
            covered=draw(st.booleans()),
            lowered_because=draw(st.sampled_from(["", " ", "a reason"])),
        )
        for number in range(draw(st.integers(1, 6)))
    )
    ids = st.integers(0, len(jobs) - 1)
    return Facts(
        1,
        AT,
        draw(st.sampled_from(["driveable", "rolling", "stands"])),
        jobs,
        tuple(HoldFact(job, "Look") for job in draw(st.lists(ids, max_size=3))),
        tuple(StripFact(first, last, "Bay") for first, last in draw(pairs(ids))),
        unknown=draw(st.sampled_from([(), ("readings",)])),
    )


def pairs(ids: st.SearchStrategy[int]) -> st.SearchStrategy[list[tuple[int, int]]]:
    return st.lists(st.tuples(ids, ids), max_size=2)


@given(cars())
def test_fit_means_that_nothing_stands_in_the_way(facts: Facts) -> None:
    found = verdict(facts)
    held = {hold.job for hold in facts.holds}
    for job in facts.jobs:
        opened = job.unfinished and (job.rank != "wanted" or (job.touches_safety and job.worked))
        if opened or (job.unfinished and job.id in held):
            assert found.state == "not_fit"
        if job.unfinished and job.touches_safety and not job.lowered_because.strip():
            assert found.state == "not_fit"
        if job.safety and (job.begun or (job.state == "dropped" and job.worked)):
            assert found.do_not_drive
        if job.safety and job.state == "done" and not job.covered:
            assert found.do_not_drive
        if job.id in held and (job.begun or job.state in ("done", "signed")):
            assert found.do_not_drive
    if facts.standing != "driveable" or facts.unknown:
        assert found.state != "fit"
    assert (found.state == "not_fit") == bool(found.reasons)
    assert [each.severity for each in found.reasons] == sorted(each.severity for each in found.reasons)


@given(cars())
def test_a_reason_is_never_lost_when_more_is_known(facts: Facts) -> None:
    more = JobFact(99, "One more", "safety", "open")
    both = Facts(1, AT, facts.standing, (*facts.jobs, more), facts.holds, facts.strips)
    before = {(each.severity, each.sentence) for each in verdict(facts).reasons}
    assert before < {(each.severity, each.sentence) for each in verdict(both).reasons}


SOME = st.frozensets(st.sampled_from(["brakes", "steering", "body"]), max_size=2)


@given(
    st.lists(st.tuples(SOME, st.booleans()), max_size=9),
    pairs(st.integers(0, 9)) | st.just([(1, 2), (2, 3), (3, 1)]),
)
def test_a_hold_point_looks_at_its_own_job_and_at_what_led_to_it_and_shares_a_system(drawn, links) -> None:
    jobs = [RecipeWork(pk, systems, None, (None,) * held) for pk, (systems, held) in enumerate(drawn)]
    points = covering(jobs, links)
    for job in jobs:
        if job.points:
            assert points[job.id] == {job.id}
        for held in points[job.id]:
            assert jobs[held].points and (held == job.id or job.systems & jobs[held].systems)
            assert held == job.id or any(after == held for _, after in links)
