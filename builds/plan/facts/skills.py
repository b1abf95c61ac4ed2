"""Skills as the planner knows them: those people have, and those lent for one job."""

from builds.plan.facts.rows import PlanRows
from builds.work.engine.lent import lent_skill
from builds.work.models.job import Job
from garage.models import Membership


def skill_of(job: Job, rows: PlanRows) -> str | None:
    """What a job asks for, read after "who can": `weld`, or `weld or is Priya` where it is lent."""
    if job.skill is None or not job.hands:
        return None
    lent = rows.lent.get(job.pk, frozenset())
    names = sorted(row.name for row in rows.members if row.pk in lent)
    return lent_skill(job.skill.slug, names)


def skills_of(member: Membership, rows: PlanRows) -> tuple[str, ...]:
    """His own skills, and of the lent ones those that he has or was lent."""
    own = {skill.slug for skill in member.skills.all()}
    found = set(own)
    for pk, lent in rows.lent.items():
        job = rows.work.jobs.get(pk)
        asked = skill_of(job, rows) if job else None
        if asked and job and job.skill and (member.pk in lent or job.skill.slug in own):
            found.add(asked)
    return tuple(sorted(found))
