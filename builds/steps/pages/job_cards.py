"""Job cards, and a car's list of jobs in working order."""

from collections.abc import Collection
from dataclasses import dataclass, replace
from datetime import datetime, timedelta

from django.urls import reverse

from builds.readings.facts.amiss import amiss_in
from builds.readings.pages.amiss import amiss_sentences
from builds.steps.facts.looks import waiting_for_look
from builds.steps.facts.opened import has_more_to_say
from builds.steps.pages.looks import leaves_look, signer_words
from builds.steps.pages.time_log import names
from builds.work.engine.blocks import ready_words
from builds.work.engine.open_work import RunningCure, Work
from builds.work.facts.room_now import room_in
from builds.work.models.job import Job
from builds.work.models.span import Span
from builds.work.models.states import BEGINNABLE, State
from builds.work.pages import JobCard
from garage.access import refuse_put_down, refuse_work_on, refuse_working
from garage.clock import clock_words, zone
from garage.engine.words import duration_words, work_words
from garage.models import Membership, Vehicle

STRIPES = {
    State.OPEN: "none",
    State.IN_HAND: "half",
    State.WAITING: "none",
    State.HELD: "hold",
    State.DONE: "dashed",
    State.SIGNED: "full",
    State.DROPPED: "dropped",
}
MOST_DONE = 200
# No evening is that long: somebody went home and did not tap.
FORGOTTEN_AFTER = timedelta(hours=10)


def card_of(
    job: Job,
    work: Work,
    *,
    steps: bool = False,
    lead: str = "",
    clash: str = "",
    stop: str = "",
    of_car: bool = True,
) -> JobCard:
    """The card of an open job; with `steps`, those that it can take now are one tap away.

    `clash` says why there is no room to begin it now, `stop` why it must not go on. `of_car` says whose it is.
    """
    blocks = work.blocks(job.pk)
    points = work.unsigned[job.pk]
    kicker, note = _words(job, work, blocks[0].sentence if blocks else clash)
    meta = [time_words(job, work)]
    if job.skill:
        meta.append(job.skill.name.lower())
    return JobCard(
        pk=job.pk,
        url=reverse("job_page", args=[job.pk]),
        title=job.title,
        kicker=", ".join(part for part in (lead, kicker) if part and (part != "open" or not lead)),
        vehicle=job.vehicle.name if of_car else "",
        tape=job.vehicle.tape,
        rank=job.rank,
        stripe=STRIPES[State(job.state)],
        meta=tuple(meta),
        note=stop or note or (f"Hold point at the end: {points[0].what}" if points else ""),
        urgent_from=work.urgent_from(job.pk),
        steps=_steps(job, work, blocked=bool(blocks or clash), to_sign=len(points)) if steps else (),
        state=job.state,
        recipe=job.recipe,
        left_minutes=work.left(job.pk),
        hands=_hands(job, work) if steps else (),
    )


def _hands(job: Job, work: Work) -> tuple[int, ...]:
    running = work.running(job.pk)
    looked_at = bool(work.unsigned[job.pk]) or leaves_look(job)
    return tuple(member.pk for member in running.people) if running and looked_at else ()


def _steps(job: Job, work: Work, *, blocked: bool, to_sign: int) -> tuple[str, ...]:
    """As `quick_steps`; `tell` finishes with what it measured and fitted, `stopped` says when it was put down."""
    running = work.running(job.pk)
    forgotten = ("stopped",) if running and _forgotten(running, work) else ()
    quick = quick_steps(job, blocked=blocked, to_sign=to_sign) + forgotten
    if not has_more_to_say(job, wants_parts=work.jobs[job.pk].wants_parts):
        return quick
    return tuple("tell" if step == "finish" else step for step in quick)


def _forgotten(running: Span, work: Work) -> bool:
    return work.at - running.from_at > FORGOTTEN_AFTER


def offered_to(reader: Membership, card: JobCard, work: Work) -> JobCard:
    """With those steps alone that he may take: where he does not work he puts down what he has in hand, and finds."""
    job = work.jobs[card.pk]
    if refuse_work_on(reader, job.vehicle) is None:
        return card
    leaves = ("stop", "stopped") if refuse_put_down(reader, job.vehicle, work.crew(card.pk)) is None else ()
    may = (*leaves, "found") if refuse_working(reader) is None else ()
    return replace(card, steps=tuple(step for step in card.steps if step in may))


def time_words(job: Job, work: Work) -> str:
    """`about 2 h`, once it was begun `about 1 h left`."""
    left = work.left(job.pk)
    if job.looked_for:
        return "done"
    if job.state == State.OPEN and job.left_minutes is None:
        return f"about {work_words(job.likely_minutes)}"
    return f"about {work_words(left)} left"


def _words(job: Job, work: Work, block: str) -> tuple[str, str]:
    running = work.running(job.pk)
    if running:
        time = duration_words(int((work.at - running.from_at).total_seconds() // 60))
        kicker = ", ".join(filter(None, [time, names(running.people)]))
        if not _forgotten(running, work):
            return kicker, ""
        return kicker, f"In hand since {clock_words(running.from_at, work.at)}: was it put down?"
    if job.state == State.HELD:
        return "", job.state_note
    if job.state == State.WAITING:
        return "put down", block or job.state_note
    return "open", block


def done_card(
    job: Job,
    at: datetime,
    cure: RunningCure | None = None,
    *,
    to_sign: bool | None = None,
    amiss: str = "",
    of_car: bool = True,
) -> JobCard:
    """The card of a job that is over: done, signed or dropped; or what it left is curing. `of_car` says whose it is.

    `to_sign` when somebody else has still to look at it, False where nobody has. `amiss` says what was read out of
    order at its end: whoever signs reads it first.
    """
    ended = job.signed_at or job.finished_at
    when = clock_words(ended, at) if ended and not cure else ""
    signed = f"by {signer_words(job)}" if job.signed_by else ""
    dropped = job.state == State.DROPPED
    return JobCard(
        pk=job.pk,
        url=reverse("job_page", args=[job.pk]),
        title=job.title,
        kicker="" if dropped else ", ".join(filter(None, [signed, when])),
        vehicle=job.vehicle.name if of_car else "",
        tape=job.vehicle.tape,
        rank=job.rank,
        stripe="cure" if cure else STRIPES[State(job.state)],
        meta=(f"then {cure.after}",) if cure else (),
        ready=ready_words(cure.ready_at, at, zone()) if cure else "",
        note=amiss or (job.state_note if dropped else cure.why if cure else ""),
        steps=("sign",) if to_sign else (),
        word="done" if job.state == State.DONE and to_sign is False and not cure else "",
        state=job.state,
        recipe=job.recipe,
    )


def quick_steps(job: Job, *, blocked: bool = False, to_sign: int = 0) -> tuple[str, ...]:
    """The steps worth a button on a card, the likeliest first."""
    if job.state == State.IN_HAND:
        return ("finish", "stop", "found")
    if job.state in (State.OPEN, State.WAITING):
        return () if blocked else ("start",)
    if job.state == State.HELD:
        return () if to_sign else ("release",)
    return ()


@dataclass(frozen=True)
class JobList:
    """A car's jobs: what is to do in working order, and what is over, newest first."""

    to_do: tuple[JobCard, ...]
    over: tuple[JobCard, ...]


def jobs_of(vehicle: Vehicle, work: Work, *, hands: Collection[int], steps: bool = True) -> JobList:
    """A car's jobs as cards, as these `hands` (pk) can begin them; twelve queries at most."""
    mine = [work.jobs[pk] for pk in work.order if work.jobs[pk].vehicle_id == vehicle.pk]
    over = (
        Job.objects.on(vehicle)
        .over()
        .select_related("signed_by__person", "signed_written_by__person")
        .order_by("-finished_at", "-pk")[:MOST_DONE]
    )
    over, to_sign = list(over), waiting_for_look(vehicle.garage)
    for job in over:
        job.vehicle = vehicle
    amiss = amiss_in(vehicle.garage, [job for job in over if job.pk in to_sign])
    room = room_in(vehicle.garage, work)
    stops = room.stops()
    clashes = {job.pk: room.clash(job, hands) for job in mine if job.state in BEGINNABLE}
    return JobList(
        tuple(
            card_of(job, work, steps=steps, clash=clashes.get(job.pk, ""), stop=stops.get(job.pk, ""), of_car=False)
            for job in mine
        ),
        tuple(
            done_card(
                job,
                work.at,
                work.curing.get(job.pk),
                to_sign=job.pk in to_sign,
                amiss=amiss_sentences(amiss.get(job.pk, ()), vehicle.garage),
                of_car=False,
            )
            for job in over
        ),
    )
