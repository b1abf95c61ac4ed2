"""What is in hand when other work is begun: put down, gone on with, or told that it should have waited."""

from collections.abc import Iterable, Iterator
from datetime import datetime

from builds.work.actions import turn
from builds.work.facts.waits import following
from builds.work.models.job import STATE_NOTE_MOST, Job
from builds.work.models.span import Span
from builds.work.models.states import State
from garage.engine.words import listed_in_words
from garage.models import Membership


def leave_for(job: Job, hands: list[Membership], *, by: Membership, at: datetime) -> list[str]:
    """Two hands, one job: these leave what else they have in hand. In sentences."""
    return [_leave(span, job, hands, by, at) for span in _other_work(job, hands)]


def _other_work(job: Job, hands: list[Membership]) -> list[Span]:
    return list(
        Span.objects.running()
        .worked()
        .filter(crew__in=hands)
        .exclude(job=job)
        .select_related("job")
        .prefetch_related("crew")
        .distinct()
    )


def _leave(span: Span, begun: Job, leaving: list[Membership], by: Membership, at: datetime) -> str:
    """The last one to leave puts it down, else the others go on."""
    job, gone = span.job, {member.pk for member in leaving}
    staying = [member for member in span.people if member.pk not in gone]
    at = max(at, span.from_at)
    told = "" if staying else by_another(by, span.people, f" for “{begun}”")
    turn(job, "stop", by=by, at=at, note=f"for “{begun}”", state_note=told)
    if staying:
        turn(job, "start", by=by, at=at, crew=staying)
        return f"“{job}” goes on with {listed_in_words([member.name for member in staying])}."
    return f"“{job}” is put down."


def by_another(by: Membership, crew: Iterable[Membership], why: str = "") -> str:
    """What stands on a job for those of its hands who did not put it down themselves."""
    others = [member for member in crew if member != by]
    return f"{by.name} put it down{why}."[:STATE_NOTE_MOST] if others else ""


def too_soon(job: Job) -> Iterator[str]:
    """Of what comes after the job what somebody has in hand already."""
    for later in following(job):
        if later.state == State.IN_HAND:
            yield f"“{later}” comes after it and is in hand: see whether that must wait."
