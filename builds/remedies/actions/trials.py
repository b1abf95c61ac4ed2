"""What if: the garage changed in a copy and planned, then kept or thrown away."""

from dataclasses import replace
from datetime import datetime

from django.db import transaction

from builds.plan.actions.follow import plan_after
from builds.plan.actions.plans import PlanningCase, best, draft, fill, note
from builds.plan.facts.stored import read, shown
from builds.plan.models import Plan
from builds.remedies.actions import deeds as doing
from builds.remedies.actions.answers import TrialAnswer
from builds.remedies.deeds.deed import Deed, codes, refusal_of
from builds.remedies.deeds.kinds import parse_all
from builds.remedies.facts.deed_rows import DeedRows
from builds.remedies.facts.trials import TrialNote, base_of, load_trial, note_of
from garage.actions.refused import Refused
from garage.models import Garage, Membership

SECONDS = 0.4  # of planning for each of the two plans, which the first look at them waits for
MOST_ROWS = 6  # trials of a garage and what they are compared with
GONE = "Something that was tried is not there any more: try anew."


@transaction.atomic
def make(deeds: tuple[Deed, ...], *, by: Membership, at: datetime) -> Plan:
    """Note the garage as it is, and a copy of it in which these are done: both are planned when looked at.

    Raises Refused.
    """
    garage = by.garage
    now = _note(draft(garage, at, shown(garage)), None, by, at)
    trial = TrialNote(codes(deeds), _told(deeds, by), now.pk)
    row = _note(_changed(deeds, by, at), trial, by, at)
    old = Plan.objects.in_garage(garage).trials().values_list("pk", flat=True)[MOST_ROWS:]
    Plan.objects.in_garage(garage).filter(pk__in=list(old)).delete()
    return row


def _told(deeds: tuple[Deed, ...], by: Membership) -> tuple[str, ...]:
    """In words, while what they are about is as it was."""
    rows = DeedRows(by.garage)
    try:
        return tuple(deed.told(rows) for deed in deeds)
    except KeyError as error:
        raise Refused(doing.GONE) from error


def _changed(deeds: tuple[Deed, ...], by: Membership, at: datetime) -> PlanningCase:
    """The garage with the deeds done, as a problem; nothing of it stays in the database."""
    with transaction.atomic():
        doing.do(deeds, by=by, at=at)
        drawn = draft(by.garage, at, None)
        transaction.set_rollback(True)
    return drawn


def _note(drawn: PlanningCase, trial: TrialNote | None, by: Membership, at: datetime) -> Plan:
    """Stored to be planned: beside each other lie one with a note and the one it is compared with."""
    marked = replace(drawn, made_from={**drawn.made_from, "trial": trial.table() if trial else {}})
    return note(by.garage, marked, by=by, at=at)


def _planned(row: Plan, garage: Garage) -> None:
    """Have both plans of a trial made, unless they are: not in a transaction, for planning takes its time.

    The copy keeps to the plan of the garage as it is, so that what moves does so because of the deeds.
    """
    base = base_of(row, garage)
    if base is None or row.answer:
        return
    if not base.answer:
        case = PlanningCase.noted(base, garage)
        fill(base, case, best(case, shown(garage), seconds=SECONDS))
    now, case = read(base, garage), PlanningCase.noted(row, garage)
    known = {job.id for job in case.problem.jobs}
    before = tuple(promise for promise in now.promises(case.clock) if promise.job in known)
    case = replace(case, problem=replace(case.problem, before=before))
    fill(row, case, best(case, now, seconds=SECONDS))


def deeds_of(row: Plan) -> tuple[Deed, ...]:
    note = note_of(row)
    return parse_all(note.codes) if note else ()


def refusal(row: Plan, *, by: Membership) -> str | None:
    """Why `by` may not keep it. Raises Refused when something that was tried is gone."""
    try:
        return refusal_of(deeds_of(row), DeedRows(by.garage), by)
    except KeyError as error:
        raise Refused(GONE) from error


def compare(row: Plan, *, by: Membership, at: datetime) -> TrialAnswer | None:
    """None for what is no trial, and when the plan it is compared with is gone; it is planned the first time."""
    _planned(row, by.garage)
    trial = load_trial(row, by.garage, at)
    if trial is None:
        return None
    deeds, rows = deeds_of(row), DeedRows(by.garage)
    given_up = (deed.gives_up() for deed in deeds)
    entered = (deed.enters(rows) for deed in deeds)
    try:
        why_not = refusal(row, by=by)
    except Refused as gone:
        why_not = str(gone)
    return TrialAnswer(
        at=at,
        trial=trial,
        given_up=frozenset(pk for pk in given_up if pk is not None),
        entered=tuple(entry for entry in entered if entry is not None),
        refusal=why_not or "",
    )


@transaction.atomic
def settle(row: Plan, *, by: Membership, at: datetime) -> None:
    """Do to the garage what was tried; the plan follows once that is committed. Raises Refused."""
    doing.do(deeds_of(row), by=by, at=at)
    forget(row)
    plan_after(by.garage, at=at, seconds=SECONDS)


@transaction.atomic
def forget(row: Plan) -> None:
    Plan.objects.trials().filter(pk__in=[row.pk, row.made_from["trial"]["base"]]).delete()
