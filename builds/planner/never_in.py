"""Which people and stations a job wants together that are never there together, in one sentence."""

from __future__ import annotations

from functools import reduce
from itertools import combinations

from builds.planner.axis import clip, length, overlap
from builds.planner.fields import Windows, quoted
from builds.planner.model import Model
from builds.planner.problem import Job, Problem
from builds.planner.words import Names, When, duration
from garage.engine.words import listed_in_words


def no_crew(model: Model, j: int, names: Names) -> str:
    """Why nobody can do the job: for want of the skill, of people, or of time together."""
    return _nobody(model.problem, model.problem.jobs[j]) or _no_hours(model, j, names)


def _nobody(problem: Problem, job: Job) -> str:
    """What none of those who are there, however they come, makes up for."""
    if job.hands and job.skill:
        pool = problem.hands_for(job) if job.crew is None else [one for one in problem.people if one.id in job.crew]
        if not any(job.skill in person.skills for person in pool):
            if job.crew is not None:
                return f"Nobody of those who have it in hand has the skill {quoted(job.skill)}."
            if any(job.skill in person.skills for person in problem.people):
                return f"Nobody who works on this car has the skill {quoted(job.skill)}: say on People who may."
            return f"Nobody has the skill {quoted(job.skill)}: teach somebody, or find somebody who has it."
    there = len(problem.people)
    if job.crew is None and len(problem.hands_for(job)) < job.hands <= there:
        return f"It wants {job.hands}, and too few people work on this car: say on People who may."
    if job.hands > there:
        present = f"{'is' if there == 1 else 'are'} only {there}" if there else "is nobody"
        return f"It wants {job.hands} {'people at once' if job.hands > 1 else 'person'}, and there {present}."
    return ""


def _no_hours(model: Model, j: int, names: Names) -> str:
    """Why no crew has time enough for the job at its stations, in its own hours."""
    problem, job = model.problem, model.problem.jobs[j]
    needs = f"It needs {duration(job.work, problem.slot_minutes)}, and"
    hours = model.roster.place_hours(job)
    if length(hours) < job.work:
        apart = None if hours else _shut(model, job, names)
        left = f"only {duration(length(hours), problem.slot_minutes)}" if hours else "no time"
        return apart or f"{needs} there is {left} when it may be worked at and its stations are open."
    groups = model.roster.groups(job)
    together = [reduce(overlap, (model.roster.hours[k] for k in group)) for group in groups]
    if not any(together):
        return _apart(model, job, groups, names) if job.hands > 1 else f"{_who(model, job, groups, names)} in."
    if not any(overlap(spans, hours) for spans in together):
        return f"{_who(model, job, groups, names)} in {_while_open(model, job, hours, names)}."
    who = "those who have it in hand are" if job.crew else "the people who could do it are"
    return f"{needs} {who} never in that long within the plan."


def never_in_from(model: Model, j: int, at: int, names: Names, when: When) -> str | None:
    """Why no crew is in any more from slot `at` on, when the job could start; None where one is."""
    job, groups = model.problem.jobs[j], model.roster.groups(model.problem.jobs[j])
    together = (reduce(overlap, (model.roster.hours[k] for k in group)) for group in groups if group)
    if not job.hands or any(end > at for spans in together for _, end in spans):
        return None
    said = _apart(model, job, groups, names) if job.hands > 1 else f"{_who(model, job, groups, names)} in: add hours."
    return f"From {when(at)} on {said[0].lower() if said.startswith('No') else said[0]}{said[1:]}"


def _shut(model: Model, job: Job, names: Names) -> str | None:
    """Two stations that are never open together, or one that is not in the hours of the job."""
    opened = [(name, model.roster.stations[name]) for name in job.uses]
    for (one, hours), (other, theirs) in combinations(opened, 2):
        if not overlap(hours, theirs):
            return f"{names.station[one]} and {names.station[other]} are never open at the same time."
    own = clip(job.windows, model.horizon)
    for name, hours in opened:
        if hours and own and not overlap(hours, own):
            return f"{names.station[name]} is never open during the hours it may be worked at."
    return None


def _apart(model: Model, job: Job, groups: list[tuple[int, ...]], names: Names) -> str:
    """Who is never in together: those that every crew wants, and whoever else would do."""
    called = [names.person[person.id] for person in model.problem.people]
    must = set(groups[0]).intersection(*groups)
    rest = set().union(*groups) - must
    if not must:
        return f"No {job.hands} of the people who could do it are ever in at the same time: agree on hours."
    wanted = [called[k] for k in sorted(must)]
    others = [listed_in_words([called[k] for k in sorted(rest)], "or")] if rest else []
    return f"{listed_in_words([*wanted, *others])} are never in at the same time: agree on hours."


def _who(model: Model, job: Job, groups: list[tuple[int, ...]], names: Names) -> str:
    """The only crew by name, or whoever could do it, with a verb that says never."""
    if len(groups) == 1:
        called = listed_in_words([names.person[model.problem.people[k].id] for k in groups[0]])
        return f"{called} {'are' if len(groups[0]) > 1 else 'is'} never"
    able = f"with the skill {quoted(job.skill)}" if job.skill else "who could do it"
    return f"Nobody {able} is ever" if job.hands == 1 else "The people who could do it are never"


def _while_open(model: Model, job: Job, hours: Windows, names: Names) -> str:
    """The station that is open when nobody is in, if one alone is to blame."""
    opened = [name for name in job.uses if model.roster.stations[name] == hours]
    if opened:
        return f"while {names.station[opened[0]]} is open"
    return "during the hours it may be worked at" if job.windows is not None else "while its stations are open"
