"""No random problem gives a faulty plan, and the checker agrees with a judge of its own kind."""

from dataclasses import replace

from hypothesis import given
from hypothesis import strategies as st

from builds.planner import check
from builds.planner.explain import binding_chain, reasons
from builds.planner.plan import Placed, Plan
from builds.planner.search import plan
from tests.builds.planner.judge import alone, breaches, is_valid, worth
from tests.property.planner_problems import problems
from tests.property.tries import tries


@given(problems())
@tries(300)
def test_a_first_plan_is_valid_and_scored_as_the_judge_scores_it(problem):
    answer = plan(problem)
    assert not breaches(problem, answer)
    assert not check.faults(problem, answer)
    assert answer.score == check.score(problem, answer) == worth(problem, answer)


@given(problems(), st.integers(0, 5))
@tries(150)
def test_a_searched_plan_is_valid_and_no_worse_than_the_first(problem, seed):
    answer = plan(problem, tries=100, seed=seed)
    assert not breaches(problem, answer)
    assert answer.score == worth(problem, answer)
    if not problem.before:
        assert answer.score <= plan(problem).score


@given(problems())
def test_nothing_is_left_out_that_the_plan_has_room_for(problem):
    answer = plan(problem)
    people = [person.id for person in problem.people]
    jobs = {job.id: job for job in problem.jobs}
    for left in answer.unplaced:
        rest = tuple(row for row in answer.unplaced if row != left)
        for crew in _crews(people, jobs[left.id].hands):
            for start in range(problem.slots + 1):
                for end in _ends(jobs[left.id], start, problem.slots):
                    row = Placed(left.id, start, end, crew)
                    if alone(problem, jobs[left.id], row):
                        continue
                    tried = replace(answer, placed=(*answer.placed, row), unplaced=rest)
                    assert not is_valid(problem, tried), (left, row)


@given(problems())
@tries(200)
def test_every_placed_job_says_why_it_starts_when_it_does(problem):
    answer = plan(problem)
    told = reasons(problem, answer)
    assert set(told) == {row.id for row in answer.placed}
    for job in problem.jobs:
        chain = binding_chain(problem, answer, job.id)
        assert chain
        assert all(link.sentence.endswith(".") for link in chain)


@given(problems(), st.data())
@tries(400)
def test_the_checker_and_the_judge_agree_on_tampered_plans(problem, data):
    answer = _tamper(problem, plan(problem), data.draw)
    assert bool(check.faults(problem, answer)) == bool(breaches(problem, answer))
    assert check.score(problem, answer) == worth(problem, answer)


def _crews(people, hands):
    if hands == 0:
        return [()]
    if hands == 1:
        return [(name,) for name in people]
    return [(a, b) for k, a in enumerate(people) for b in people[k + 1 :]]


def _ends(job, start, slots):
    return range(start, slots + 1) if job.work else (start,)


def _tamper(problem, answer: Plan, draw) -> Plan:
    rows = list(answer.placed)
    if not rows:
        return answer
    k = draw(st.integers(0, len(rows) - 1))
    row = rows[k]
    kind = draw(st.sampled_from(("shift", "stretch", "people", "drop", "double", "nothing")))
    if kind == "shift":
        by = draw(st.integers(-4, 4))
        rows[k] = replace(row, start=row.start + by, end=row.end + by)
    elif kind == "stretch":
        rows[k] = replace(row, end=row.end + draw(st.integers(-2, 2)))
    elif kind == "people":
        names = [person.id for person in problem.people]
        rows[k] = replace(row, people=tuple(draw(st.lists(st.sampled_from([*names, "x"])))))
    elif kind == "drop":
        del rows[k]
    elif kind == "double":
        rows.append(row)
    return replace(answer, placed=tuple(rows))
