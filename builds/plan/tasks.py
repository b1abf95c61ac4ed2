"""What the worker beside the server does for the plan."""

from django_tasks import task

from builds.plan.actions import searches
from builds.plan.actions.last_days import find_last_days
from builds.plan.actions.odds import find_odds
from builds.plan.actions.plans import LAST_DAYS
from garage import clock
from garage.background import enqueue


@task()
def search(pk: int) -> None:
    searches.run(pk, clock.now)


@task()
def search_when_quiet(plan: int) -> None:
    searches.run_when_quiet(plan, clock.now)


@task()
def last_days(plan: int) -> None:
    if find_last_days(plan):
        enqueue(LAST_DAYS, plan)


@task()
def odds(plan: int) -> None:
    find_odds(plan)
