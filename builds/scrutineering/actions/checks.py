"""Scrutineering items: ticked, failed, left out, mended and taken back, each tap once."""

import uuid
from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import datetime

from django.db import transaction

from builds.scrutineering.engine import check_states as states
from builds.scrutineering.engine.check_states import CHECK_STATES, LogRow
from builds.scrutineering.models.check import CheckItem, CheckLog
from builds.steps.actions import jobs, steps
from builds.steps.engine.by_words import beside, first_guess, job_said
from builds.steps.engine.opened import HAPPENED
from builds.steps.facts.by_words import told_of
from builds.steps.facts.looks import for_safety
from builds.work.models.job import Job
from builds.work.models.span import Span
from builds.work.models.states import OPEN_STATES, State
from garage.access import OWNER
from garage.actions.hands import work_or_refuse
from garage.actions.refused import Refused
from garage.engine.reasons import refuse_faulty, says_why
from garage.models import Membership

TITLE = 120
NOTE = 200


@dataclass(frozen=True)
class TapResult:
    """What came of a tap: its line in the log, the item as it stands, and more to say.

    `again` when the key was known and nothing new was done; `counts` is False when the line is
    kept but decides nothing: a pass that came to an item with a fail, or an older one.
    """

    row: CheckLog
    item: CheckItem
    said: str = ""
    again: bool = False
    counts: bool = True


@dataclass(frozen=True)
class _Tap:
    """Whose tap, when it was made, when it was heard of, and what was said with it; the same key counts once."""

    by: Membership
    at: datetime
    heard: datetime
    key: uuid.UUID
    note: str = ""


@transaction.atomic
def take(
    item: CheckItem,
    step: str,
    *,
    by: Membership,
    at: datetime,
    key: uuid.UUID,
    note: str = "",
    hurts: bool = False,
    systems: Iterable[str] | None = None,
    arrived: datetime | None = None,
) -> TapResult:
    """Tick, fail, leave out or mend an item; the same key counts once. Raises Refused.

    `at` is the moment of the tap. From a phone that was without signal `arrived` is when it was
    heard of; then a pass that meets a fail is kept in the log without being refused, and the fail
    stands. A fail opens a job, as safety when its systems or `hurts` say so: `systems` are those that
    somebody said it touches, else the item's own.
    """
    if again := _known(item, step, key):
        return again
    item, heard, note = _locked(item), arrived or at, note.strip()[:NOTE]
    work_or_refuse(by, item.checklist.entry.vehicle)
    tap = _Tap(by, min(at, heard), heard, key, note)
    if step == "leave_out" and by.role != OWNER:
        raise Refused("Only the owner says that an item does not apply.", "note")
    if step == "leave_out" and not says_why(note):
        raise Refused("Write down in words why it does not apply.", "note")
    if step in ("tick", "mend") and (wrong := refuse_faulty(note)):
        raise Refused(wrong, "note")
    wrong = CHECK_STATES.refusal(step, item.state)
    if wrong and (arrived is None or step == "mend"):
        raise Refused(wrong)
    if step == "mend":
        row = _mend(item, tap)
    else:
        job = _job(item, tap, hurts=hurts, systems=systems) if step == "fail" else None
        row = _log(item, step, tap, job=job)
    return _told(item, row)


@transaction.atomic
def tick_many(items: Iterable[CheckItem], *, by: Membership, at: datetime, key: uuid.UUID) -> tuple[int, list[str]]:
    """Tick what somebody looked at in one go: how many, and what was refused meanwhile."""
    ticked, told = 0, []
    for item in items:
        try:
            take(item, "tick", by=by, at=at, key=uuid.uuid5(key, str(item.pk)))
        except Refused as refused:
            told.append(f"{item}: {refused}")
        else:
            ticked += 1
    return ticked, told


@transaction.atomic
def undo(
    item: CheckItem,
    *,
    by: Membership,
    at: datetime,
    key: uuid.UUID,
    arrived: datetime | None = None,
    of: uuid.UUID | None = None,
) -> TapResult:
    """Take back what the item's state comes from, or the line with the key `of`.

    The item stands again as it did before. A fail's job that nobody has begun is dropped with it,
    unless it is for safety and `by` is no owner.
    """
    if again := _known(item, states.UNDO, key):
        return again
    item, heard = _locked(item), arrived or at
    work_or_refuse(by, item.checklist.entry.vehicle)
    rows = _rows(item)
    row = states.deciding(_plain(rows))
    wanted = str(of) if of else row.key if row else ""
    target = next((line for line in rows if str(line.key) == wanted), None)
    if target is None or target.step == states.UNDO:
        raise Refused("There is nothing to take back.")
    if CheckLog.objects.filter(answers=target, step=states.UNDO).exists():
        raise Refused("That was taken back already.")
    made = _log(item, states.UNDO, _Tap(by, min(at, heard), heard, key), answers=target)
    said = _unfail(item, target, by=by, at=heard) if target.job else ""
    return _told(item, made, said)


def _known(item: CheckItem, step: str, key: uuid.UUID) -> TapResult | None:
    row = CheckLog.objects.filter(key=key).select_related("item").first()
    if row is None:
        return None
    if row.item_id != item.pk or row.step != step:
        raise Refused("This tap was used already, for something else.")
    return TapResult(row, row.item, again=True)


def _locked(item: CheckItem) -> CheckItem:
    """The row, held until the transaction ends, so that two who tap take turns."""
    rows = CheckItem.objects.select_for_update(of=("self",))
    return rows.select_related("checklist__entry__event", "checklist__entry__vehicle").get(pk=item.pk)


def _rows(item: CheckItem) -> list[CheckLog]:
    return list(CheckLog.objects.filter(item=item).select_related("answers", "job", "by"))


def _plain(rows: list[CheckLog]) -> list[LogRow]:
    return [LogRow(str(line.key), line.step, line.at, str(line.answers.key) if line.answers else "") for line in rows]


def _log(item: CheckItem, step: str, tap: _Tap, *, job: Job | None = None, answers: CheckLog | None = None) -> CheckLog:
    told = {"by": tap.by, "at": tap.at, "arrived_at": tap.heard, "key": tap.key, "note": tap.note}
    return CheckLog.objects.create(item=item, step=step, **told, job=job, answers=answers)


def _mend(item: CheckItem, tap: _Tap) -> CheckLog:
    """One line for each fail that stands; all their jobs must be done, and on this car."""
    rows = _rows(item)
    fails = {line.key for line in states.unmended(_plain(rows))}
    standing = [line for line in rows if str(line.key) in fails]
    for fail in standing:
        if fail.job and fail.job.state in OPEN_STATES:
            raise Refused(f"Finish “{fail.job}” first, then tick it as mended.")
        if fail.job and fail.job.state == State.DROPPED:
            raise Refused(f"“{fail.job}” was dropped, not done: undo the fail if nothing was wrong, or open it again.")
    first, *more = standing
    for fail in more:
        _log(item, "mend", replace(tap, key=uuid.uuid5(tap.key, str(fail.key))), answers=fail)
    return _log(item, "mend", tap, answers=first)


def _job(item: CheckItem, tap: _Tap, *, hurts: bool, systems: Iterable[str] | None) -> Job:
    """The job of a fail that stands already, if it is still to do and says as much, else a new one."""
    car, title = item.checklist.entry.vehicle, (tap.note or f"Failed: {item.text}")[:TITLE]
    if there := _same(item, tap, title, hurts=hurts):
        return there
    done = [kind for kind in item.kinds if kind not in HAPPENED]
    said = beside(title, item.systems, done) if systems is None else job_said(title, list(systems), done)
    told = told_of(car.garage_id, said)
    return jobs.add(
        car,
        by=tap.by,
        at=tap.heard,
        title=title,
        note=f"Failed at scrutineering: {item.text}",
        seen=True,
        work=first_guess(said.kinds),
        rank=Job.Rank.SAFETY if hurts or said.hurts else "",
        **{**told.fields, "kinds_likely": True},
    )


def _same(item: CheckItem, tap: _Tap, title: str, *, hurts: bool) -> Job | None:
    """An open job of the item's fails that mends this one too: it says no more than that, or the same in its words."""
    open_jobs = Job.objects.filter(checks__item=item, checks__step="fail").open().distinct()
    told = [job for job in open_jobs if for_safety(job) or not hurts]
    first_words = title.casefold()
    return next((job for job in told if not tap.note or (job.was_called or job.title).casefold() == first_words), None)


def _unfail(item: CheckItem, fail: CheckLog, *, by: Membership, at: datetime) -> str:
    """Drop the job that a fail opened, if no other fail stands on it and nobody has begun it."""
    job = fail.job
    others = {line.key for line in states.unmended(_plain(_rows(item)))}
    begun = job is None or job.state != "open" or Span.objects.filter(job=job).exists()
    if job is None or begun or others:
        return f"“{job}” stays." if job and job.state in OPEN_STATES else ""
    if for_safety(job) and by.role != OWNER:
        return f"“{job}” stays: only the owner can drop a safety job."
    steps.drop(job, by=by, at=at, reason="The fail that opened it was taken back.")
    return f"“{job}” is dropped."


def _told(item: CheckItem, row: CheckLog, said: str = "") -> TapResult:
    """Bring the item's state to what its log comes to."""
    rows = {str(line.key): line for line in _rows(item)}
    decided = states.deciding(_plain(list(rows.values())))
    line = rows[decided.key] if decided else None
    item.state = states.state_after(decided).value
    item.by, item.at = (line.by, line.at) if line else (None, None)
    item.note = line.note if line else ""
    item.save(update_fields=["state", "by", "at", "note"])
    beside = line is not None and (line.pk == row.pk or line.step == row.step == "mend")
    counts = beside or row.step in ("fail", states.UNDO)
    if not counts and line and line.step == "fail":
        said = f"A fail beats a pass: {line.by} failed it."
    return TapResult(row, item, said, counts=counts)
