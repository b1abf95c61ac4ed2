"""The search for a better plan: one at a time in a garage, in a process of its own."""

import logging
import subprocess
import sys
from collections.abc import Callable
from datetime import datetime, timedelta

from django.conf import settings
from django.db import IntegrityError, transaction

from builds.actions.plans import Draft, answer, draft, keep
from builds.engine.planner.plan import Plan as Answer
from builds.engine.planner.plan import Progress, Score
from builds.loaders.plan_changes import changes_since
from builds.loaders.plan_stored import shown
from builds.loaders.problem import build_problem
from builds.models import Plan, Search
from garage.actions.refused import Refused
from garage.models import Garage, Membership

log = logging.getLogger("builds.searches")
SILENT = timedelta(seconds=15)
BETWEEN_LOOKS = 0.5
BUSY = "A search is already running."
Now = Callable[[], datetime]


def sweep(garage: Garage, *, at: datetime) -> None:
    """End searches that have not been heard of: their process is gone."""
    Search.objects.in_garage(garage).running().filter(seen_at__lt=at - SILENT).update(
        ended_at=at, failed="The search stopped answering: plan again to start another."
    )


@transaction.atomic
def start(garage: Garage, *, by: Membership, at: datetime, seconds: float, now: Now) -> Search:
    """Note the search and set it going once that is committed; `now` tells it the time."""
    sweep(garage, at=at)
    try:
        with transaction.atomic():
            search = Search.objects.create(
                garage=garage, asked_by=by, began_at=at, seen_at=at, budget_seconds=seconds
            )
    except IntegrityError:
        raise Refused(BUSY) from None
    if settings.PLAN_IN_BACKGROUND:
        transaction.on_commit(lambda: spawn(search.pk))
    else:
        transaction.on_commit(lambda: run(search.pk, now))
    return search


def spawn(pk: int) -> None:
    subprocess.Popen(  # noqa: S603 (our own interpreter, our own command)
        [sys.executable, str(settings.BASE_DIR / "manage.py"), "plan_search", str(pk)],
        cwd=settings.BASE_DIR,
        stdin=subprocess.DEVNULL,
        stdout=subprocess.DEVNULL,
        start_new_session=True,
    )


def ask_to_stop(search: Search) -> None:
    Search.objects.running().filter(pk=search.pk).update(stop_asked=True)


def run(pk: int, now: Now) -> None:
    """Search until the budget is spent or the stop button pressed, then hand over the result."""
    search = Search.objects.running().select_related("garage", "asked_by").get(pk=pk)
    try:
        _search(search, now)
    except Exception:
        log.exception("search %s failed", pk)
        _end(search, now(), failed="The search broke off; its log says why.")


def _search(search: Search, now: Now) -> None:
    garage, at = search.garage, now()
    drawn, base = draft(garage, at), shown(garage)
    look = _Look(search, now)
    found = answer(
        drawn, seconds=search.budget_seconds, progress=look.progress, stop=lambda: look.over
    )
    look.tell(found.tried, found.score)
    row = _hand_over(search, drawn, found, base.row.pk if base and base.row else None, now())
    _end(search, now(), plan=row)


class _Look:
    """Tells the page how far the search is, and hears from it whether to stop."""

    def __init__(self, search: Search, now: Now) -> None:
        self.search, self.now = search, now
        self.over, self.last = False, -1.0

    def progress(self, at: Progress) -> None:
        if at.seconds - self.last >= BETWEEN_LOOKS:
            self.last = at.seconds
            self.tell(at.tries, at.best_score, at.first_score)

    def tell(self, tried: int, best: Score, first: Score | None = None) -> None:
        told = {"seen_at": self.now(), "tried": tried, "best_score": best}
        if first is not None:
            told["first_score"] = first
        here = Search.objects.running().filter(pk=self.search.pk)
        alive = here.update(**told)
        self.over = not alive or here.filter(stop_asked=True).exists()
