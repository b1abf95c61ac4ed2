"""On tiny problems the search finds what brute force finds."""

from dataclasses import replace

from hypothesis import assume, given
from hypothesis import strategies as st

from builds.planner.problem import Person, Problem, Station, Vehicle
from builds.planner.search import plan
from tests.builds.planner.enumerator import best_score, best_score_of_all
from tests.property.planner_problems import holds_of, jobs, links, problems, windows
from tests.property.tries import tries

CARS = ("heron", "moth")


@given(problems(most_jobs=4))
@tries(150)
def test_no_plan_of_up_to_four_jobs_is_better_than_the_search_finds(problem):
    problem = replace(problem, holds=(), before=(), jobs=_unstarted(problem))
    assert plan(problem, tries=400).score <= best_score(problem)


@given(problems(most_jobs=7, plain=True, fewest_slots=30))
@tries(60)
def test_nothing_is_unplaced_that_can_be_placed_at_all(problem):
    """Each job alone with what it waits for finds a place, so with slots enough all of them do."""
    long = replace(
        problem,
        slots=problem.slots * 12,
        holds=(),
        people=tuple(replace(row, windows=_again(row.windows, problem)) for row in problem.people),
        stations=tuple(replace(row, windows=_again(row.windows, problem)) for row in problem.stations),
        jobs=tuple(replace(row, windows=_again(row.windows, problem), due=None) for row in problem.jobs),
    )
    alone = {
        job.id
        for job in long.jobs
        if not plan(replace(long, jobs=_with_needs(long, job.id), links=_among(long, job.id))).unplaced
    }
    assume(alone)
    unplaced = {row.id for row in plan(long, tries=200).unplaced}
    assert not unplaced & alone


@st.composite
def held(draw: st.DrawFn) -> Problem:
    """Three jobs of two cars in a bay and on a floor, most of them held or kept apart there."""
    slots = draw(st.integers(5, 9))
    people = [Person(f"p{k}", (), draw(windows(slots))) for k in range(draw(st.integers(0, 1)))]
    made = [
        replace(draw(jobs(k, slots, people, True)), skill=None, windows=None, vehicle=draw(st.sampled_from(CARS)))
        for k in range(3)
    ]
    return Problem(
        slots=slots,
        jobs=tuple(made),
        people=tuple(people),
        stations=(
            Station("bay", draw(st.integers(1, 2)), stands=draw(st.booleans())),
            Station("floor", 1, stands=True),
        ),
        vehicles=(Vehicle("heron", 2), Vehicle("moth", 1)),
        links=draw(links(3, slots, True)),
        holds=tuple(draw(hold) for car in CARS for hold in holds_of(car, made) if draw(st.integers(0, 3))),
    )


@given(held())
@tries(100)
def test_no_plan_at_all_of_three_jobs_with_held_cars_is_better_than_the_search_finds(problem):
    assert plan(problem, tries=400).score <= best_score_of_all(problem)


def _unstarted(problem):
    return tuple(replace(job, started=False, pinned=None) for job in problem.jobs)


def _again(windows, problem):
    """The same windows twelve times over."""
    if windows is None:
        return None
    return tuple((begin + k * problem.slots, end + k * problem.slots) for k in range(12) for begin, end in windows)


def _needs(problem, name):
    found, reached = {name}, [name]
    while reached:
        at = reached.pop()
        for link in problem.links:
            if link.after == at and link.before not in found:
                found.add(link.before)
                reached.append(link.before)
    return found


def _with_needs(problem, name):
    needs = _needs(problem, name)
    return tuple(job for job in problem.jobs if job.id in needs)


def _among(problem, name):
    needs = _needs(problem, name)
    return tuple(link for link in problem.links if link.after in needs)
