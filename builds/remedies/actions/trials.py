"""What if: the garage changed in a copy and planned, then kept or thrown away."""

from dataclasses import replace
from datetime import datetime

from django.db import transaction

from builds.plan.actions.plans import PlanningCase, best, draft, keep, make_plan
from builds.plan.facts.stored import Stored, read, shown
from builds.plan.models import Plan
from builds.remedies.actions import deeds as doing
from builds.remedies.facts.deeds import Deed, codes
from builds.remedies.pages.deed_words import Book
from builds.remedies.pages.trials import deeds_of
from garage.actions.refused import Refused
from garage.models import Membership

SECONDS = 0.4  # of planning for each of the two plans
MOST_ROWS = 6  # trials of a garage and what they are compared with


@transaction.atomic
def make(deeds: tuple[Deed, ...], *, by: Membership, at: datetime) -> Plan:
    """Plan the garage as it is, and a copy of it in which these are done. Raises Refused."""
    garage = by.garage
    before = shown(garage)
    drawn = draft(garage, at, before)
    now = _keep(drawn, before, {}, by, at)
    base = read(now, garage)
    told = _told(deeds, by)
    trial = {"deeds": codes(deeds), "told": told, "base": now.pk}
    row = _keep(_changed(deeds, base, by, at), base, trial, by, at)
    old = Plan.objects.in_garage(garage).trials().values_list("pk", flat=True)[MOST_ROWS:]
    Plan.objects.in_garage(garage).filter(pk__in=list(old)).delete()
    return row


def _told(deeds: tuple[Deed, ...], by: Membership) -> list[str]:
    """In words, while what they are about is as it was."""
    book = Book(by.garage)
    try:
        return [book.told(deed) for deed in deeds]
    except KeyError as error:
        raise Refused(doing.GONE) from error


def _changed(deeds: tuple[Deed, ...], base: Stored, by: Membership, at: datetime) -> PlanningCase:
    """The garage with the deeds done, as a problem; nothing of it stays in the database."""
    with transaction.atomic():
        doing.do(deeds, by=by)
        drawn = draft(by.garage, at, base)
        transaction.set_rollback(True)
    return drawn


def _keep(drawn: PlanningCase, before: Stored | None, trial: dict[str, object], by: Membership, at: datetime) -> Plan:
    marked = replace(drawn, made_from={**drawn.made_from, "trial": trial})
    found = best(drawn, before, seconds=SECONDS)
    return keep(by.garage, marked, found, by=by, at=at, use=Plan.Use.TRIED)


@transaction.atomic
def settle(row: Plan, *, by: Membership, at: datetime) -> None:
    """Do to the garage what was tried, and plan it. Raises Refused."""
    doing.do(deeds_of(row), by=by)
    make_plan(by.garage, by=by, at=at, seconds=SECONDS)
    forget(row)


@transaction.atomic
def forget(row: Plan) -> None:
    Plan.objects.trials().filter(pk__in=[row.pk, row.made_from["trial"]["base"]]).delete()
