"""“I have done this”, said by a guest of a shared page: it waits for a yes, which is that somebody here finishes it."""

from datetime import datetime

from django.db import transaction

from builds.readings.actions import remeasure
from builds.steps.facts.looks import wants_eyes
from builds.work.models.guest_tick import GuestTick, GuestTickQuerySet
from builds.work.models.job import Job
from builds.work.models.states import JOB_STATES
from garage import writes
from garage.actions import journal, tries
from garage.actions.refused import Refused
from garage.engine.tries import SHARE_SAID
from garage.engine.words import wait_words
from garage.models import Garage, Membership, Share


def refuse_tick(job: Job) -> str | None:
    """No guest says of work for safety, or of work that may be anything, that it is done."""
    if wants_eyes(job):
        return "Work for safety is finished by those who work here."
    return JOB_STATES.refusal("finish", job.state) or remeasure.refuse_by_hand(job, "finish")


def say(share: Share, job: Job, *, name: str, line: str, key: str, device: str = "unknown", at: datetime) -> None:
    """Once for each button; it changes nothing of the job. Raises Refused."""
    if job.pk not in share.may_tick:
        raise Refused("This one is not ticked here.")
    if GuestTick.objects.filter(share=share, key=key).exists():
        return
    wait = tries.claim((SHARE_SAID, share.digest), at=at)
    if wait:
        raise Refused(f"Too many at once: wait {wait_words(wait)}, then try again.")
    with transaction.atomic():
        Garage.objects.select_for_update(no_key=True).get(pk=share.garage_id)
        job.refresh_from_db()
        refusal = refuse_tick(job)
        if refusal:
            raise Refused(refusal)
        if GuestTick.objects.waiting().filter(job=job).exists():
            raise Refused("Somebody said that already: it waits for a yes.")
        GuestTick.objects.create(share=share, job=job, name=name, line=line, key=key, said_at=at)
        told = {"act": "share_tick", "paths": (f"/jobs/{job.pk}/",), "said": line, "device": device}
        journal.write(share.garage_id, by=name, at=at, **told)
        writes.count(share.garage_id, at=at)


def refuse(tick: GuestTick, *, by: Membership, at: datetime) -> None:
    """It is not done."""
    _answer(GuestTick.objects.filter(pk=tick.pk), GuestTick.State.REFUSED, by, at)


def finished(job: Job, *, by: Membership, at: datetime) -> None:
    """Whoever finishes the job says yes."""
    _answer(GuestTick.objects.filter(job=job), GuestTick.State.TAKEN, by, at)


def _answer(ticks: GuestTickQuerySet, state: str, by: Membership, at: datetime) -> None:
    ticks.waiting().update(state=state, answered_by=by, answered_at=at)
