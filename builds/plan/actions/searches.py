"""The search for a better plan: one at a time in a garage, in a process of its own."""

import logging
from collections.abc import Callable
from datetime import datetime
from typing import Any

from django.conf import settings
from django.db import IntegrityError, transaction

from builds.plan.actions.plans import PlanningCase, answer, keep, make_plan
from builds.plan.facts.changes import changes_since
from builds.plan.facts.problem import build_problem
from builds.plan.facts.stored import Stored, read, shown
from builds.plan.models import Plan, Search
from builds.planner.plan import Plan as Answer
from builds.planner.plan import Progress, Score
from garage.actions.refused import Refused
from garage.background import spawn
from garage.models import Garage, Membership

log = logging.getLogger("builds.searches")
BETWEEN_LOOKS = 0.5
BUSY = "A search is already running."
OVERTAKEN = "The garage was planned anew meanwhile, so this search was left."
Now = Callable[[], datetime]


def sweep(garage: Garage, *, at: datetime) -> None:
    """End searches that have not been heard of: their process is gone."""
    Search.objects.in_garage(garage).silent(at).update(
        ended_at=at, failed="The search stopped answering: plan again to start another."
    )


def plan_and_search(garage: Garage, *, by: Membership, at: datetime, seconds: float, now: Now) -> Search:
    """Plan the garage as it stands, then look for a better plan. Raises Refused."""
    refuse_second(garage, at=at)
    plan = make_plan(garage, by=by, at=at)
    return start(garage, by=by, at=at, seconds=seconds, plan=plan, now=now)


@transaction.atomic
def start(garage: Garage, *, by: Membership, at: datetime, seconds: float, plan: Plan, now: Now) -> Search:
    """Note a search for a better plan than `plan`, and set it going once that is committed.

    `now` tells it the time. Raises Refused while another one runs.
    """
    refuse_second(garage, at=at)
    try:
        with transaction.atomic():
            search = Search.objects.create(
                garage=garage,
                asked_by=by,
                began_at=at,
                seen_at=at,
                budget_seconds=seconds,
                plan=plan,
                first_score=plan.answer["score"],
                best_score=plan.answer["score"],
            )
    except IntegrityError:
        raise Refused(BUSY) from None
    if settings.PLAN_IN_BACKGROUND:
        transaction.on_commit(lambda: spawn("plan_search", str(search.pk)), robust=True)
    else:
        transaction.on_commit(lambda: run(search.pk, now))
    return search


def refuse_second(garage: Garage, *, at: datetime) -> None:
    sweep(garage, at=at)
    if Search.objects.in_garage(garage).running().exists():
        raise Refused(BUSY)


def ask_to_stop(search: Search) -> None:
    Search.objects.running().filter(pk=search.pk).update(stop_asked=True)


def run(pk: int, now: Now) -> None:
    """Search until the budget is spent or the stop button pressed, then hand over the result."""
    search = Search.objects.running().select_related("garage", "asked_by", "plan").get(pk=pk)
    try:
        _search(search, now)
    except Exception:
        log.exception("search %s failed", pk)
        _end(search, now(), failed="The search broke off; the log says why.")


def _search(search: Search, now: Now) -> None:
    if search.plan is None:
        _end(search, now(), failed=OVERTAKEN)
        return
    base, look = read(search.plan, search.garage), Look(search.pk, now)
    best = answer(PlanningCase.of(base), seconds=search.budget_seconds, progress=look.progress, stop=lambda: look.over)
    look.tell(best.tried, min(best.score, base.answer.score))
    with transaction.atomic():
        _hand_over(search, best, base, now())


def _hand_over(search: Search, best: Answer, base: Stored, at: datetime) -> None:
    """A better plan goes on the wall, unless something changed meanwhile: then it is offered."""
    if not Search.objects.running().filter(pk=search.pk).exists():
        return
    if best.score >= base.answer.score:
        _end(search, at)
        return
    wall = shown(search.garage)
    if wall is None or wall.row != base.row:
        _end(search, at, failed=OVERTAKEN)
        return
    _, basis = build_problem(search.garage, at)
    changed = changes_since(base.row.made_from, basis, at)
    use = Plan.Use.TRIED if changed else Plan.Use.SHOWN
    better = keep(search.garage, PlanningCase.of(base), best, by=search.asked_by, at=at, use=use)
    _end(search, at, plan=better)


def _end(search: Search, at: datetime, **more: Any) -> None:
    """A search that was swept away meanwhile stays as it was left."""
    Search.objects.running().filter(pk=search.pk).update(ended_at=at, seen_at=at, **more)


class Look:
    """Tells the page how far the search is, and hears from it whether to stop."""

    def __init__(self, pk: int, now: Now) -> None:
        self.pk, self.now = pk, now
        self.over, self.told_at = False, -BETWEEN_LOOKS

    def progress(self, at: Progress) -> None:
        if at.seconds - self.told_at >= BETWEEN_LOOKS:
            self.told_at = at.seconds
            self.tell(at.tries, at.best_score)

    def tell(self, tried: int, best: Score) -> None:
        here = Search.objects.running().filter(pk=self.pk)
        alive = here.update(seen_at=self.now(), tried=tried, best_score=best)
        self.over = not alive or here.filter(stop_asked=True).exists()
