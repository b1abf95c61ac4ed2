"""The steps that a job can take now, as buttons; and what a step says of whoever is on it."""

from collections.abc import Sequence
from dataclasses import dataclass

from django.urls import reverse

from builds.steps.facts.begun import is_off, was_begun
from builds.steps.facts.opened import has_more_to_say
from builds.steps.pages.time_log import names
from builds.work.facts.work import with_people
from builds.work.models.hold_point import HoldPoint
from builds.work.models.job import Job
from builds.work.models.span import Span
from builds.work.models.states import FINISHED_STATES, JOB_STATES, State
from garage.access import OWNER
from garage.models import Membership

# Those that want a word: why, who else, when it really was.
ASKED = {
    "start": "Start with others, or earlier than now",
    "stop": "Put down earlier, hand over, or say what is left",
    "finish": "Finished earlier than now",
    "sign": "",  # as the reader's LookOffer has it
    "hold": "Hold it",
    "reopen": "Open it again",
    "drop": "Drop it",
    "whole": "Say why the car is as it was",
}
# Refused as long as something comes first.
BEGIN = ("start", "finish")


@dataclass(frozen=True)
class StepLine:
    """`asks` when a form comes first."""

    label: str
    url: str
    kind: str = "plain"
    asks: bool = False


def at_hold_point(job: Job) -> bool:
    """The work is over, and stopped at its end."""
    return job.looked_for


def one_tap_steps(
    job: Job, *, blocked: bool, clash: bool, may_sign: bool, may_look_after: bool = False, wants_parts: bool = False
) -> tuple[StepLine, ...]:
    """The likeliest first; what is refused now is not offered. `may_sign` where it waits for that.

    `may_look_after` is who has no hand in it and could look at it once it is over: he is told what a finish costs him.
    `clash` where there is no room to begin it now; done elsewhere it may be all the same.
    """
    # At a hold point signing is the likeliest, and its button stands below.
    first = "plain" if at_hold_point(job) else "main"
    gives_up = may_look_after and job.state == State.IN_HAND
    more = gives_up or has_more_to_say(job, wants_parts=wants_parts)
    return tuple(
        StepLine(label, _url(job, step), "plain" if number else first, asks=step == "finish" and more)
        for number, (step, label) in enumerate(_taps(job, blocked, clash, may_sign).items())
    )


def _taps(job: Job, blocked: bool, clash: bool, may_sign: bool) -> dict[str, str]:
    if JOB_STATES.allows("start", job.state) and not blocked:
        begin = {} if clash else {"start": "Start"}
        return {**begin, "finish": "Done already"}
    if job.state == State.IN_HAND:
        return {"finish": "Finish", "stop": "Put it down"}
    if job.state == State.HELD:
        return {"release": "Back to work"}
    if may_sign:
        return {"sign": "I looked: sign"}
    return {}


def told_steps(job: Job, me: Membership, *, blocked: bool, clash: bool, writes: str) -> tuple[StepLine, ...]:
    """Those that want a word first; `writes` is the button with which the reader says who looked, empty for none."""
    signs = {"sign": f"{writes}, and sign" if writes else ""}
    if job.state == State.DROPPED and is_off(job):
        signs["whole"] = "Say why the car does without it"
    return tuple(
        StepLine(label, _url(job, step))
        for step, label in (ASKED | signs).items()
        if label
        and JOB_STATES.allows(step, job.state)
        and (step != "whole" or _wants_answer(job, me))
        and not ((blocked and step in BEGIN) or (clash and step == "start"))
    )


def _wants_answer(job: Job, me: Membership) -> bool:
    """Whether the owner, who reads this, has still to answer for a car on which it was begun and dropped."""
    return me.role == OWNER and not job.whole_because and was_begun(job)


def found_url(job: Job) -> str:
    """Something is seen while hands are on the car, or just after; empty before."""
    begun = job.state not in (State.OPEN, State.DROPPED)
    return reverse("job_found", args=[job.pk]) if begun else ""


def _url(job: Job, step: str) -> str:
    return reverse(f"job_{step}", args=[job.pk])


def in_hand_words(job: Job | None) -> str:
    """Who has the job in hand now; empty for none."""
    if job is None:
        return ""
    span = Span.objects.filter(job=job).running().prefetch_related(with_people("crew")).first()
    return f"“{job}” is in hand: {names(span.people) if span else ''}."


def finish_words(job: Job, points: Sequence[HoldPoint]) -> str:
    """What came of a finish: done, stopped at its hold point, or, where it measures again, still open."""
    if points:
        more = f", and {len(points) - 1} more to look at" if len(points) > 1 else ""
        return f"“{job}” stops at its hold point until it is signed: {points[0]}{more}."
    return f"“{job}” is done." if job.state in FINISHED_STATES else "What was measured is written down."
