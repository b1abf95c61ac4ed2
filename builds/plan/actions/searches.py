"""The search for a better plan: one at a time in a garage, beside the server, and never in the way."""

import logging
from collections.abc import Callable
from datetime import datetime, timedelta
from typing import Any

from django.conf import settings
from django.db import IntegrityError, transaction
from django.db.models import Q

from builds.plan.actions.follow import QUIET, WHEN_QUIET, follow_write
from builds.plan.actions.plans import Overtaken, PlanningCase, answer, put_up
from builds.plan.engine.stored import Stored
from builds.plan.facts.stored import read
from builds.plan.models import Plan, Search
from builds.planner.again import worth
from builds.planner.patience import Patience
from builds.planner.plan import Plan as Answer
from builds.planner.plan import Progress, Score
from garage.actions.refused import Refused
from garage.background import enqueue
from garage.models import Garage, Membership

log = logging.getLogger("builds.searches")
BETWEEN_LOOKS = 0.5
AGAIN = timedelta(seconds=5)
SECONDS = 20.0  # of searching after a change
BUSY = "A search is already running."
NOTHING_YET = "There is no plan yet: write jobs down, and it is made."
Now = Callable[[], datetime]


def sweep(garage: Garage, *, at: datetime) -> None:
    """End searches that have not been heard of: their process is gone."""
    Search.objects.in_garage(garage).silent(at).update(
        ended_at=at, failed="The search stopped answering: start another."
    )


@transaction.atomic
def start(garage: Garage, *, by: Membership | None, at: datetime, seconds: float, now: Now) -> Search:
    """Note a search for a better plan than the one on the wall, and set it going once that is committed.

    `now` tells it the time. Raises Refused while another one runs, and where there is no plan.
    """
    search = _note(garage, by, at, seconds)
    if settings.PLAN_IN_BACKGROUND:
        enqueue("builds.plan.tasks.search", search.pk)
    else:
        transaction.on_commit(lambda: run(search.pk, now))
    return search


def _note(garage: Garage, by: Membership | None, at: datetime, seconds: float) -> Search:
    sweep(garage, at=at)
    plan = Plan.objects.in_garage(garage).shown().first()
    if plan is None:
        raise Refused(NOTHING_YET)
    if Search.objects.in_garage(garage).running().exists():
        raise Refused(BUSY)
    score = plan.answer["score"]
    try:
        with transaction.atomic():
            return Search.objects.create(
                garage=garage,
                asked_by=by,
                began_at=at,
                seen_at=at,
                budget_seconds=seconds,
                plan=plan,
                first_score=score,
                best_score=score,
            )
    except IntegrityError:
        raise Refused(BUSY) from None


def run_when_quiet(plan: int, now: Now) -> None:
    """Look for a better plan than that one (pk), after a minute in which nothing was written.

    Where it is on the wall no more, whatever took its place has a search of its own.
    """
    wall = Plan.objects.filter(pk=plan).select_related("garage").first()
    if wall is None or Plan.objects.in_garage(wall.garage).shown().first() != wall:
        return
    at, garage = now(), wall.garage
    quiet_at = garage.written_at + QUIET if garage.written_at else at
    try:
        if at < quiet_at:
            raise Refused(BUSY)
        search = _note(garage, None, at, SECONDS)
    except Refused:
        enqueue(WHEN_QUIET, plan, after=max(quiet_at, at + AGAIN))
    else:
        run(search.pk, now)


def ask_to_stop(search: Search) -> None:
    Search.objects.running().filter(pk=search.pk).update(stop_asked=True)


def run(pk: int, now: Now) -> None:
    """Search until the budget is spent or the stop button pressed, then hand over the result."""
    search = Search.objects.running().select_related("garage", "asked_by", "plan").filter(pk=pk).first()
    if search is None:
        return  # swept, or stopped, before its turn came
    at = now()
    Search.objects.filter(pk=pk).update(began_at=at, seen_at=at, tried=1)
    try:
        _search(search, now)
    except Exception:
        log.exception("search %s failed", pk)
        _end(search, now(), failed="The search broke off; the log says why.")


def _search(search: Search, now: Now) -> None:
    if search.plan is None:
        _end(search, now())
        return
    base, look = read(search.plan, search.garage), Watcher(search.pk, now)
    best = answer(PlanningCase.of(base), seconds=search.budget_seconds, progress=look.progress, stop=lambda: look.over)
    if worth(base.problem, best) >= worth(base.problem, base.answer):
        look.tell(best.tried, base.answer.score)
        _end(search, now())
        return
    look.tell(best.tried, best.score)
    # So that a write which changed nothing for the plan is none that overtook the search.
    follow_write(search.garage_id, at=now())
    try:
        _hand_over(search, best, base, now())
    except Overtaken:
        _end(search, now())


@transaction.atomic
def _hand_over(search: Search, best: Answer, base: Stored, at: datetime) -> None:
    """The better plan goes on the wall, unless a change had another one made meanwhile."""
    if not Search.objects.running().filter(pk=search.pk).exists():
        return
    garage = Garage.objects.get(pk=search.garage_id)
    wall = Plan.objects.in_garage(garage).shown().first()
    if wall != base.row or wall.writes != garage.writes:
        raise Overtaken
    better = put_up(garage, PlanningCase.of(base), best, before=base, by=search.asked_by, at=at)
    _end(search, at, plan=better)


def _end(search: Search, at: datetime, **more: Any) -> None:
    """A search that was swept away meanwhile stays as it was left."""
    Search.objects.running().filter(pk=search.pk).update(ended_at=at, seen_at=at, **more)


class Watcher:
    """Tells the page how far the search is, and hears whether to stop: somebody said so, it was overtaken, or
    more of it would buy next to nothing.
    """

    def __init__(self, pk: int, now: Now) -> None:
        self.pk, self.now, self.patience = pk, now, Patience()
        self.over, self.told_at = False, -BETWEEN_LOOKS

    def progress(self, at: Progress) -> None:
        if at.seconds - self.told_at >= BETWEEN_LOOKS:
            self.told_at = at.seconds
            self.tell(at.tries, at.best_score)
            self.over = self.over or self.patience.is_over(at.seconds, at.best_score)

    def tell(self, tried: int, best: Score) -> None:
        here = Search.objects.running().filter(pk=self.pk)
        alive = here.update(seen_at=self.now(), tried=tried, best_score=best)
        self.over = not alive or here.filter(Q(stop_asked=True) | Q(plan=None)).exists()
