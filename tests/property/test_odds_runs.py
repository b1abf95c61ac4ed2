"""Whatever the problem and the estimates: runs keep the rules, and odds are odds."""

from __future__ import annotations

from dataclasses import replace

from builds.odds.replay import replay
from hypothesis import given
from hypothesis import strategies as st

from builds.odds.estimates import scaled
from builds.odds.simulate import simulate
from builds.planner.check import faults
from builds.planner.plan import Placed, Plan, Unplaced
from builds.planner.problem import Problem
from builds.planner.search import plan
from tests.property.planner_problems import problems
from tests.property.tries import tries

RUNS = 12


@st.composite
def estimates(draw: st.DrawFn, problem: Problem) -> dict[str, tuple[float, ...]]:
    """Three figures for some of the jobs, around what the plan gives them or far from it."""
    figures = st.lists(st.integers(0, 150), min_size=3, max_size=3).map(sorted).map(tuple)
    return {job.id: draw(figures) for job in problem.jobs if draw(st.integers(0, 3))}


def as_plan(problem: Problem, made: Plan, went: dict[str, tuple[float, float]]) -> Plan:
    """What a run did as a plan: jobs not done by the horizon have no place."""
    crews = {row.id: row.people for row in made.placed}
    done = {name for name, (_, end) in went.items() if end <= problem.slots}
    return Plan(
        tuple(Placed(name, int(went[name][0]), int(went[name][1]), crews[name]) for name in done),
        tuple(Unplaced(job.id, "Not done.") for job in problem.jobs if job.id not in done),
    )


@given(problems())
@tries(120)
def test_taking_what_was_planned_no_job_is_later_and_all_rules_hold(problem):
    made = plan(problem)
    went = replay(problem, made, {})
    assert {row.id for row in made.placed} == set(went)
    for row in made.placed:
        assert went[row.id][0] <= row.start
        assert went[row.id][1] <= row.end
    again = as_plan(problem, made, went)
    assert faults(problem, again) == []


@given(problems(), st.data())
@tries(120)
def test_whatever_jobs_take_a_run_keeps_every_rule_of_the_plan(problem, data):
    """The checker of plans judges the run, with the work as it was and no start pinned.

    A job in one sitting takes at most what was planned here: past that it leaves its hours.
    """
    made = plan(problem)
    slots = {
        job.id: data.draw(st.integers(0, 12 if job.splits else job.work)) if job.work else 0 for job in problem.jobs
    }
    went = replay(problem, made, {name: 15 * work for name, work in slots.items()})
    worked = replace(
        problem,
        jobs=tuple(
            replace(
                job,
                work=slots[job.id],
                earliest=max(job.earliest, job.pinned or 0),
                pinned=None,
            )
            for job in problem.jobs
        ),
    )
    assert faults(worked, as_plan(problem, made, went)) == []


@given(problems(), st.data())
@tries(120)
def test_counts_shares_and_bands_are_within_their_bounds(problem, data):
    made, figures = plan(problem), data.draw(estimates(problem))
    left = data.draw(st.integers(0, RUNS + 2))
    asked = []
    odds = simulate(problem, made, figures, runs=RUNS, stop=lambda: asked.append(1) or len(asked) > left)
    assert odds.runs == min(left, RUNS) <= odds.asked == RUNS
    assert set(odds.jobs) == {job.id for job in problem.jobs}
    for job in odds.jobs.values():
        assert 0 <= job.held_up <= job.runs == odds.runs
        assert job.late is None or 0 <= job.late <= job.runs
    for car in odds.vehicles.values():
        assert len(car.moments) == car.runs == odds.runs
        assert list(car.moments) == sorted(car.moments)
        assert all(0 < count <= car.runs for _, count in car.held_by)
        if car.in_time is not None:
            low, high = car.band
            assert 0 <= low <= (car.share or 0) <= high <= 1 or not car.runs
        if car.runs and car.ready_by() is not None:
            assert car.median <= car.ready_by() <= problem.slots


@given(problems(), st.data())
@tries(120)
def test_a_later_due_slot_never_lowers_the_odds(problem, data):
    made, figures = plan(problem), data.draw(estimates(problem))
    more = data.draw(st.integers(0, 10))
    later = replace(
        problem,
        jobs=tuple(job if job.due is None else replace(job, due=job.due + more) for job in problem.jobs),
    )
    tight = simulate(problem, made, figures, runs=RUNS)
    loose = simulate(later, made, figures, runs=RUNS)
    for name, car in tight.vehicles.items():
        assert car.moments == loose.vehicles[name].moments
        assert car.in_time is None or car.in_time <= loose.vehicles[name].in_time


@given(problems(), st.data(), st.floats(1, 3))
@tries(120)
def test_more_work_never_raises_the_odds_nor_ends_a_car_sooner(problem, data, times):
    made, figures = plan(problem), data.draw(estimates(problem))
    longer = {name: scaled(three, times) for name, three in figures.items()}
    short = simulate(problem, made, figures, runs=RUNS)
    long = simulate(problem, made, longer, runs=RUNS)
    for name, car in short.vehicles.items():
        then = long.vehicles[name]
        assert car.in_time is None or then.in_time <= car.in_time
        for sooner, later in zip(car.moments, then.moments, strict=True):
            assert sooner <= later + 1e-9


@given(problems(), st.data())
@tries(120)
def test_the_same_seed_gives_the_same_odds(problem, data):
    made, figures, seed = plan(problem), data.draw(estimates(problem)), data.draw(st.integers())
    first = simulate(problem, made, figures, runs=RUNS, seed=seed)
    assert first == simulate(problem, made, figures, runs=RUNS, seed=seed)
