"""Why there is nothing next for somebody, in one sentence: what stands against each open job."""

from collections import Counter

from builds.plan.engine.ids import id_of
from builds.plan.engine.timed_plan import TimedPlan
from builds.work.engine.blocks import StillRuns
from builds.work.engine.open_work import Work
from builds.work.models.states import State
from garage.access import refuse_work_on
from garage.engine.words import listed_in_words
from garage.models import Membership

# In the order in which they are said: of one job, and of several.
SAID = {
    "in hand": ("is in hand already", "are in hand already"),
    "held": ("is on hold", "are on hold"),
    "car": ("is on a car that {name} does not work on", "are on cars that {name} does not work on"),
    "skill": ("asks for a skill that is not {name}’s", "ask for skills that are not {name}’s"),
    "hands": ("takes more hands than work here", "take more hands than work here"),
    "cure": ("waits until a cure is over", "wait until a cure is over"),
    "before": ("waits for another job", "wait for other jobs"),
    "parts": ("waits for parts", "wait for parts"),
    "nobody": ("needs nobody at home", "need nobody at home"),
    "own": ("is planned for {name} at another time", "are planned for {name} at another time"),
    "others": ("is planned for somebody else", "are planned for somebody else"),
    "later": ("has no place in the plan yet", "have no place in the plan yet"),
}


def idle_words(member: Membership, work: Work, plan: TimedPlan | None, has_hours: bool, many: int) -> str:
    """Of somebody who has nothing in hand and nothing next, where `many` work; `has_hours` if he is in at the time
    that is asked about. No query where the skills of `member` were fetched.
    """
    lead = f"Nothing is next for {member.name}"
    if not work.jobs:
        return f"{lead}: no job is open."
    if not has_hours:
        return f"{lead}: no hours are known for today and tomorrow."
    against = Counter(_against(pk, member, work, many) or _planned(pk, member, work, plan) for pk in work.jobs)
    parts = [f"{count} {SAID[why][count > 1].format(name=member.name)}" for why in SAID if (count := against[why])]
    return f"{lead}: of the open jobs {listed_in_words(parts, 'and')}."


def _against(pk: int, member: Membership, work: Work, many: int) -> str:
    job = work.jobs[pk]
    if job.state in (State.IN_HAND, State.HELD):
        return "in hand" if job.state == State.IN_HAND else "held"
    if refuse_work_on(member, job.vehicle):
        return "car"
    if job.skill_id is not None and job.skill_id not in {skill.pk for skill in member.skills.all()}:
        return "skill"
    if job.hands > many:
        return "hands"
    blocks = work.blocks(pk)
    if blocks:
        return "cure" if all(isinstance(block, StillRuns) for block in blocks) else "before"
    return ""


def _planned(pk: int, member: Membership, work: Work, plan: TimedPlan | None) -> str:
    """Of a job that nothing stands against: for whom it is. What is done in the paddock has nobody at home."""
    placed = plan.placed.get(id_of("job", pk)) if plan else None
    if placed is None:
        return "parts" if work.jobs[pk].wants_parts else "later"
    if not placed.people:
        return "nobody"
    return "own" if id_of("person", member.pk) in placed.people else "others"
