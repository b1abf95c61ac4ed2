"""Doing what would get a car there; the plan follows, with a moment of search."""

from datetime import datetime

from django.db import transaction

from builds.plan.actions.follow import plan_after
from builds.remedies.actions import deeds as doing
from builds.remedies.deeds.deed import Deed, title_of, undo_of
from builds.remedies.facts.deed_rows import DeedRows
from garage.actions.refused import Refused
from garage.models import Membership

SECONDS = 0.5  # of planning, while the garage waits


@transaction.atomic
def apply(deeds: tuple[Deed, ...], *, by: Membership, at: datetime) -> str:
    """Change the garage; says what was done and how it is undone. Raises Refused; who may is asked before.

    The plan follows once that is committed, after a moment of search: the change was found by searching.
    """
    rows = DeedRows(by.garage)
    try:
        title, undo = title_of(deeds, rows), undo_of(deeds, rows)
    except KeyError as error:
        raise Refused(doing.GONE) from error
    doing.do(deeds, by=by, at=at)
    plan_after(by.garage, at=at, seconds=SECONDS)
    return f"{title}. To undo: {undo}." if undo else f"{title}."
