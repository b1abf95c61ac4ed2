"""A problem as it would be without one of its jobs."""

from dataclasses import replace

from builds.planner.problem import Problem


def without(problem: Problem, job: str) -> Problem:
    """The same problem less the job of that id; what came before it still comes before what comes after."""
    into = [link for link in problem.links if link.after == job]
    out_of = [link for link in problem.links if link.before == job]
    kept = [link for link in problem.links if job not in (link.before, link.after)]
    joined = {(link.before, link.after) for link in kept}
    passed_on = [
        replace(first, after=then.after)
        for first in into
        for then in out_of
        if (first.before, then.after) not in joined
    ]
    return replace(
        problem,
        jobs=tuple(other for other in problem.jobs if other.id != job),
        links=(*kept, *passed_on),
        holds=tuple(hold for hold in problem.holds if job not in (hold.start, hold.until)),
    )
