"""The steps of a job: start, put down, hold, release, finish, sign, reopen, drop."""

from collections.abc import Collection, Iterable
from datetime import datetime

from django.db import transaction

from builds.readings.actions import remeasure
from builds.steps.actions import guest_ticks, leaving, opened, standing
from builds.steps.actions.jobs import rank_after
from builds.steps.actions.moments import refuse_before_seen, refuse_to_come
from builds.steps.actions.signatures import Look, look_or_refuse
from builds.steps.actions.strips import refuse_drop
from builds.steps.facts.begun import is_off, was_begun
from builds.steps.facts.looks import for_safety, wants_eyes, workers_of
from builds.work.actions import end_running, hands_now, locked, set_left, turn
from builds.work.engine.faults import is_fault
from builds.work.facts.blocks import blocks_of
from builds.work.facts.room_now import room_now
from builds.work.facts.waits import finished_after
from builds.work.models.hold_point import WAITS_FOR_EYES, HoldPoint
from builds.work.models.job import Job
from builds.work.models.states import JOB_STATES, State
from garage.access import OWNER, refuse_put_down
from garage.actions.hands import work_or_refuse
from garage.actions.refused import Refused
from garage.engine.reasons import SAY_WHY, says_why
from garage.models import Membership, Station

ENDS_WITH_PART = "It ends with the part: fit it, or another for this job. If {} does without, the owner says so."


def _refuse_blocked(job: Job, at: datetime) -> None:
    blocks = blocks_of(job, at)
    if blocks:
        raise Refused(blocks[0].sentence)


def _refuse_clash(job: Job, hands: list[Membership], at: datetime) -> None:
    """Where there is no room for it, its car is elsewhere, or what is in hand on it is not done beside this.

    Who starts there at the same moment waits.
    """
    list(Station.objects.select_for_update(of=("self",)).filter(used_by__job=job).order_by("pk"))
    if clash := room_now(job.vehicle.garage_id, at).clash(job, {member.pk for member in hands}):
        raise Refused(clash)


@transaction.atomic
def start(
    job: Job,
    *,
    by: Membership,
    at: datetime,
    crew: Iterable[Membership] = (),
    moment: datetime | None = None,
) -> list[str]:
    """Take a job in hand; whoever starts it leaves what he had in hand.

    Says what is put down, or who goes on with it, and what is in hand that should have waited for this.
    """
    work_or_refuse(by, job.vehicle)
    return _begin(job, list(crew) or [by], by=by, at=at, moment=moment)


def _begin(job: Job, hands: list[Membership], *, by: Membership, at: datetime, moment: datetime | None) -> list[str]:
    """As `start`, whoever says so."""
    if any(member.garage_id != job.vehicle.garage_id for member in hands):
        raise Refused("Everybody on the job must be in this garage.")
    for member in hands:
        work_or_refuse(member, job.vehicle)
    if wrong := JOB_STATES.refusal("start", job.state):
        raise Refused(wrong)
    _refuse_blocked(job, at)
    _refuse_clash(job, hands, at)
    refuse_before_seen(job, moment)
    since = refuse_to_come(moment, at)
    turn(job, "start", by=by, at=since, crew=hands, state_note="", finished_at=None)
    standing.begun(job)
    return [*leaving.leave_for(job, hands, by=by, at=since), *leaving.too_soon(job)]


@transaction.atomic
def stop(
    job: Job,
    *,
    by: Membership,
    at: datetime,
    crew: Iterable[Membership] = (),
    moment: datetime | None = None,
    left: int | None = None,
) -> list[str]:
    """Put a job down, or hand it over to a `crew` that goes on with it. Says what these put down for it."""
    hands, onto = hands_now(job), list(crew)
    if refused := refuse_put_down(by, job.vehicle, hands):
        raise Refused(refused)
    told = "" if by in hands else leaving.by_another(by, hands)
    ended = refuse_to_come(moment, at)
    turn(job, "stop", by=by, at=ended, state_note=told)
    if left is not None:
        set_left(job, left, at=at)
    return _begin(job, onto, by=by, at=at, moment=ended) if onto else []


@transaction.atomic
def hold(job: Job, *, by: Membership, at: datetime, reason: str) -> None:
    work_or_refuse(by, job.vehicle)
    turn(job, "hold", by=by, at=at, note=reason, state_note=reason)


@transaction.atomic
def release(job: Job, *, by: Membership, at: datetime) -> None:
    work_or_refuse(by, job.vehicle)
    turn(job, "release", by=by, at=at, state_note="", finished_at=None)
    standing.undone(job)


def _refuse_finish(job: Job, at: datetime) -> None:
    if wrong := JOB_STATES.refusal("finish", job.state) or remeasure.refuse_by_hand(job, "finish"):
        raise Refused(wrong)
    if is_off(job):
        raise Refused(ENDS_WITH_PART.format(job.vehicle))
    if job.state == State.OPEN:
        _refuse_blocked(job, at)


@transaction.atomic
def finish(
    job: Job,
    *,
    by: Membership,
    at: datetime,
    moment: datetime | None = None,
    kinds: Collection[str] | None = None,
    because: str = "",
) -> list[HoldPoint]:
    """Finish the work. With hold points unsigned the job is held instead, and they are returned.

    Whoever finishes it counts as a hand on it. `kinds` says what was opened, moved or changed; of a
    job that asks for it that must be said, and an empty list says that nothing was. `because` says why
    work for safety opened nothing of what it touches, or less than was likely; the verdict tells it.
    `finished_at` is when the work ended (cures run from there); a held job that has it is done
    as soon as its last hold point is signed.
    """
    work_or_refuse(by, job.vehicle)
    # Whoever signs its last point now does so before or after: never between the look and the turn.
    stands = locked(job)
    _refuse_finish(stands, at)
    refuse_before_seen(stands, moment)
    ended, done = refuse_to_come(moment, at), opened.opened(stands, kinds, by)
    said = opened.told(stands, done, because)
    points = list(HoldPoint.objects.filter(job=job).unsigned())
    note = f"{WAITS_FOR_EYES}: {points[0]}" if points else ""
    turn(
        job,
        "finish",
        by=by,
        at=ended,
        after=State.HELD if points else None,
        crew=[by],
        note=note,
        state_note=note[:200],
        finished_at=ended,
        left_minutes=None,
        kinds=done,
        kinds_likely=False,
        rank=rank_after(stands, done),
        **said,
    )
    standing.ended(job)
    guest_ticks.finished(job, by=by, at=at)
    remeasure.settle(job.vehicle, by=by, at=at)
    return points


@transaction.atomic
def finish_signed(job: Job, look: Look, *, at: datetime) -> bool:
    """A job held only for its hold points is done and signed with the last of them."""
    if job.state != State.HELD or job.finished_at is None:
        return False
    if HoldPoint.objects.filter(job=job).unsigned().exists():
        return False
    ended = job.finished_at  # when it was finished, and by whom, its hold says; who looks only looks
    turn(job, "release", by=look.by, at=at, state_note="")
    turn(job, "finish", by=look.by, at=at, finished_at=ended, left_minutes=None)
    _sign(job, look, at=at)
    return True


def _sign(job: Job, look: Look, *, at: datetime) -> None:
    signed = {f"signed_{name}": value for name, value in look.on_row().items() if name != "signed_by"}
    turn(job, "sign", by=look.by, at=at, note=look.note, signed_by=look.who, signed_at=at, **signed)


@transaction.atomic
def sign(job: Job, *, by: Membership, at: datetime, who: Membership | None = None, outsider: str = "") -> Look:
    """Sign a finished job off. Raises Refused where somebody else has to look."""
    stands, safety = locked(job), wants_eyes(job)
    if wrong := JOB_STATES.refusal("sign", stands.state):
        raise Refused(wrong)
    workers = workers_of([job.pk])[job.pk] if safety else ()
    garage = stands.vehicle.garage_id
    look = look_or_refuse(workers, safety=safety, garage=garage, by=by, who=who, outsider=outsider)
    _sign(job, look, at=at)
    return look


@transaction.atomic
def reopen(job: Job, *, by: Membership, at: datetime, reason: str) -> list[str]:
    """Open a job again: its signatures no longer hold. Says what else that touches.

    Also one that comes and goes by itself, where it was signed for a day that is still to come.
    """
    work_or_refuse(by, job.vehicle)
    if job.signed_at and job.signed_at > at:
        end_running(job, job.signed_at)  # nothing is earlier than a signature, but for one by a wrong clock
    elif wrong := remeasure.refuse_by_hand(job, "reopen"):
        raise Refused(wrong)
    signed = HoldPoint.objects.filter(job=job).exclude(signed_at=None)
    said = []
    if count := signed.count():
        said.append(f"{count} hold point{'s' * (count > 1)} must be signed again.")
    later = finished_after(job)
    turn(
        job,
        "reopen",
        by=by,
        at=at,
        note=reason,
        state_note=reason,
        finished_at=None,
        nothing_because="",
        whole_because="",
        signed_by=None,
        signed_at=None,
        signed_alone=False,
        signed_outsider="",
        signed_written_by=None,
        left_minutes=None,
    )
    signed.update(signed_by=None, signed_at=None, seen="", value="", alone=False, outsider="", written_by=None)
    standing.undone(job)
    remeasure.settle(job.vehicle, by=by, at=at)
    if later:
        more = f" and {len(later) - 1} more" if len(later) > 1 else ""
        said.append(f"“{later[0]}”{more} came after it: see whether that must be done again.")
    return said


@transaction.atomic
def drop(job: Job, *, by: Membership, at: datetime, reason: str) -> None:
    work_or_refuse(by, job.vehicle)
    if wrong := remeasure.refuse_by_hand(job, "drop"):
        raise Refused(wrong)
    grave = wants_eyes(job)
    if grave and by.role != OWNER:
        what = "a safety job" if for_safety(job) else "what was found and nobody has said what it touches"
        raise Refused(f"Only the owner can drop {what}, with a reason.")
    seen = grave or job.was_seen or is_fault(job.words, job.recipe)
    if not (says_why(reason) if seen else reason.strip()):
        raise Refused("Write down in words why it is dropped.", "reason")
    _refuse_dropped_away(job, by)
    refuse_drop(job)
    turn(job, "drop", by=by, at=at, note=reason, state_note=reason, finished_at=None)
    remeasure.settle(job.vehicle, by=by, at=at)


def _refuse_dropped_away(job: Job, by: Membership) -> None:
    """Begun work that somebody else had to look at does not go away unseen."""
    point = HoldPoint.objects.filter(job=job).unsigned().first()
    if point and by.role != OWNER and was_begun(job):
        raise Refused(f"“{job}” was begun, and nobody has signed “{point}”: only the owner drops it.")


@transaction.atomic
def whole(job: Job, *, by: Membership, at: datetime, reason: str) -> None:
    """The owner answers for a car on which work was begun and dropped: it is as it was, or does without the part."""
    if by.role != OWNER:
        raise Refused("Only the owner says that the car is as it was.")
    if not says_why(reason):
        raise Refused(SAY_WHY, "reason")
    said = f"{job.vehicle} does without" if is_off(job) else "The car is as it was"
    turn(job, "whole", by=by, at=at, note=f"{said}: {reason}", whole_because=reason.strip())
