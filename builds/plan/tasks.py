"""What the worker beside the server does for the plan."""

from django_tasks import task

from builds.plan.actions import searches
from builds.plan.actions.odds import find_odds
from garage import clock


@task()
def search(pk: int) -> None:
    searches.run(pk, clock.now)


@task()
def search_when_quiet(plan: int) -> None:
    searches.run_when_quiet(plan, clock.now)


@task()
def odds(plan: int) -> None:
    find_odds(plan)
