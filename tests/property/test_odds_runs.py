"""Whatever the problem and the estimates: runs keep the rules, and odds are odds."""

from __future__ import annotations

from dataclasses import replace

from hypothesis import given
from hypothesis import strategies as st

from builds.odds.course import Course
from builds.odds.simulate import simulate
from builds.planner.check import faults
from builds.planner.plan import Placed, Plan, Unplaced
from builds.planner.problem import Problem
from tests.property.planner_problems import problems
from tests.property.tries import tries

RUNS = 6


@st.composite
def estimates(draw: st.DrawFn, problem: Problem) -> dict[str, tuple[float, ...]]:
    """Three figures for some of the jobs, around what the plan gives them or far from it."""
    figures = st.lists(st.integers(0, 150), min_size=3, max_size=3).map(sorted).map(tuple)
    return {job.id: draw(figures) for job in problem.jobs if draw(st.integers(0, 3))}


def went(problem: Problem, works: list[int]) -> Plan:
    """What a run did as a plan: jobs not done by the horizon have no place."""
    course = Course(problem)
    ends, _ = course.run(works)
    placed, unplaced = [], []
    for number, job in enumerate(problem.jobs):
        if ends[number] <= problem.slots:
            people = tuple(problem.people[person].id for person in course.people[number])
            placed.append(Placed(job.id, course.starts[number], ends[number], people))
        else:
            unplaced.append(Unplaced(job.id, "Not done."))
    return Plan(tuple(placed), tuple(unplaced))


@given(problems(), st.data())
@tries(120)
def test_whatever_jobs_take_a_run_keeps_every_rule_of_a_plan(problem, data):
    """The checker of plans judges the run, with the work as it was and no start pinned.

    A job in one sitting takes at most what was planned here: past that it leaves its hours.
    """
    slots = [data.draw(st.integers(1, 12 if job.splits else job.work)) if job.work else 0 for job in problem.jobs]
    made = went(problem, slots)
    unfinished = {job.id for job in made.unplaced}
    worked = replace(
        problem,
        jobs=tuple(
            replace(job, work=work, earliest=max(job.earliest, job.pinned or 0), pinned=None)
            for job, work in zip(problem.jobs, slots, strict=True)
        ),
        holds=tuple(hold for hold in problem.holds if hold.until not in unfinished),
    )
    assert faults(worked, made) == []


@given(problems(), st.data())
@tries(60)
def test_counts_shares_and_bands_are_within_their_bounds(problem, data):
    figures, left = data.draw(estimates(problem)), data.draw(st.integers(0, RUNS + 2))
    asked = []
    odds = simulate(problem, figures, runs=RUNS, stop=lambda: asked.append(1) or len(asked) > left)
    assert odds.runs == min(left, RUNS) <= odds.asked == RUNS
    for car in odds.vehicles.values():
        assert len(car.moments) == car.runs == odds.runs
        assert list(car.moments) == sorted(car.moments)
        assert all(0 < job.held_up <= car.runs for job in car.held_by)
        if car.in_time is not None:
            low, high = car.band
            assert 0 <= low <= (car.share or 0) <= high <= 1 or not car.runs
        if car.runs and car.ready_by() is not None:
            assert 0 <= car.ready_by(0.5) <= car.ready_by() <= problem.slots


@given(problems(), st.data())
@tries(60)
def test_the_same_seed_gives_the_same_odds(problem, data):
    figures, seed = data.draw(estimates(problem)), data.draw(st.integers())
    first = simulate(problem, figures, runs=RUNS, seed=seed)
    assert first == simulate(problem, figures, runs=RUNS, seed=seed)
