"""What moved since the plan before this one, and why it starts when it does now."""

from dataclasses import dataclass

from django.urls import reverse

from builds.cure.facts.plan_clock import pk_of
from builds.plan.facts.stored import Stored
from builds.planner.explain import reasons
from builds.planner.words import listed_in_words


@dataclass(frozen=True)
class MovedJob:
    title: str
    url: str
    what: str
    why: str


def moves(plan: Stored) -> list[MovedJob]:
    """Work that stands elsewhere, or with other people, than the plan before had promised.

    A start that was due before this plan began has not moved: time has.
    """
    people = {row.id: row.name or row.id for row in plan.problem.people}
    why = reasons(plan.problem, plan.answer, plan.clock.words)
    found = []
    for was in plan.problem.before:
        job, row = plan.jobs.get(was.job), plan.placed.get(was.job)
        if job is None or (was.start < 0 and row is not None):
            continue
        said = []
        if row is None:
            said.append(f"has no place, was {plan.clock.words(was.start)}")
        else:
            if row.start != was.start:
                now, then = plan.clock.words(row.start), plan.clock.words(was.start)
                said.append(f"{now} instead of {then}")
            if set(row.people) != set(was.people) and row.people:
                said.append(f"by {listed_in_words([people[name] for name in row.people])}")
        if said:
            reason = why[was.job].sentence if row else plan.unplaced[was.job].why
            url = reverse("job_page", args=[pk_of(was.job)])
            found.append(MovedJob(job.label, url, ", ".join(said), reason))
    return found
