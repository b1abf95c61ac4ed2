"""The plan follows: made anew as soon as what it was made from is not so any more, and left alone otherwise."""

import logging
from collections import defaultdict
from contextlib import suppress
from datetime import datetime, timedelta
from threading import Lock
from zoneinfo import ZoneInfo

from django.conf import settings
from django.db import transaction
from django.utils import timezone

from builds.cure.engine.plan_clock import PlanClock
from builds.plan.actions.plans import LAST_DAYS, ODDS, Overtaken, best, draft, put_up
from builds.plan.engine.stored import Stored
from builds.plan.facts.standing import holds, same_facts
from builds.plan.facts.stored import promised, shown
from builds.plan.models import Plan
from builds.planner.search import FaultyPlan
from builds.readings.actions.order import draw_orders
from builds.work.models.job import Job
from garage.actions.refused import Refused
from garage.background import enqueue
from garage.models import Garage
from garage.remembered import notes_of

log = logging.getLogger("builds.follow")
TRIES = 3
CANNOT_PLAN = "cannot_plan"
FAULTY = "The planner made a plan with a fault, which is not shown; the server's log says what is wrong with it."
WHEN_QUIET, QUIET = "builds.plan.tasks.search_when_quiet", timedelta(seconds=60)
_one_at_a_time: defaultdict[int, Lock] = defaultdict(Lock)


def follow(garage: Garage, *, at: datetime) -> str:
    """Have the plan on the wall be one of the garage as it is. Says why there can be none, else nothing.

    Not in a transaction: planning takes its time. Where the plan holds this is one query and no lock.
    """
    if holds(garage, at):
        return ""
    with _one_at_a_time[garage.pk]:
        for _ in range(TRIES):
            with suppress(Overtaken, Plan.DoesNotExist):  # which others took down while it was looked at
                return _refusal(Garage.objects.get(pk=garage.pk), at)
    return ""  # whoever writes so often has the plan follow as well


def _refusal(garage: Garage, at: datetime) -> str:
    """As `follow`. What was refused stays so until somebody writes or the next slot begins: strangers ask as well."""
    notes = notes_of(garage)
    slot = PlanClock.from_moment(at, ZoneInfo(garage.time_zone)).start
    if notes and CANNOT_PLAN in notes and notes[CANNOT_PLAN][0] == slot:
        return str(notes[CANNOT_PLAN][1])
    try:
        _follow(garage, at)
    except Refused as refused:
        said = str(refused)
    except FaultyPlan:
        log.exception("no sound plan of garage %s", garage.pk)
        said = FAULTY
    else:
        return ""
    if notes is not None:
        notes[CANNOT_PLAN] = slot, said
    return said


def follow_write(pk: int, *, at: datetime) -> None:
    """As `follow`, after the commit of a write: of the garage (pk) as it is then."""
    garage = Garage.objects.filter(pk=pk).first()
    if garage:
        with timezone.override(garage.time_zone):
            follow(garage, at=at)


def _follow(garage: Garage, at: datetime) -> None:
    if holds(garage, at):
        return  # made while we waited for our turn
    before = shown(garage)
    if before is None and not Job.objects.in_garage(garage).open().exists():
        return
    draw_orders(garage)
    if before and _still_true(before, garage, at):
        Plan.objects.filter(pk=before.row.pk, writes__lt=garage.writes).update(writes=garage.writes)
        if settings.PLAN_IN_BACKGROUND:  # what nobody has ordered, figures and the log are no part of the problem
            enqueue(LAST_DAYS, before.row.pk)
            enqueue(ODDS, before.row.pk, after=at + QUIET)
        return
    _plan(garage, before, at)


def _still_true(before: Stored, garage: Garage, at: datetime) -> bool:
    until = before.row.stands_until
    return until is not None and at < until and same_facts(before, garage)


def _plan(garage: Garage, before: Stored | None, at: datetime, seconds: float = 0) -> Plan:
    """What stood when the last session began is promised; what stands stays where it is no worse."""
    case = draft(garage, at, promised(garage, at) or before)
    row = put_up(garage, case, best(case, before, seconds=seconds), before=before, at=at)
    if settings.PLAN_IN_BACKGROUND:
        enqueue(WHEN_QUIET, row.pk, after=at + QUIET)
    return row


def make_plan(garage: Garage, *, at: datetime, seconds: float = 0) -> Plan:
    """Plan the garage anew, whether or not anything changed. Raises Refused, and Overtaken by others."""
    with _one_at_a_time[garage.pk]:
        for _ in range(TRIES):
            with suppress(Overtaken):
                now = Garage.objects.get(pk=garage.pk)
                draw_orders(now)
                return _plan(now, shown(now), at, seconds)
    raise Overtaken


def plan_after(garage: Garage, *, at: datetime, seconds: float) -> None:
    """Once what is being written is committed, plan the garage anew: a change found by searching wants it.

    Where that cannot be, the page that comes next says why.
    """

    def plan() -> None:
        with suppress(Refused, Overtaken), timezone.override(garage.time_zone):
            make_plan(garage, at=at, seconds=seconds)

    transaction.on_commit(plan, robust=True)
