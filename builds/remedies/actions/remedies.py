"""Doing what would get a car there, and planning anew at once."""

from datetime import datetime

from django.db import transaction

from builds.plan.actions.plans import make_plan
from builds.remedies.actions import deeds as doing
from builds.remedies.facts.deeds import Deed
from builds.remedies.pages.deed_words import Book
from garage.actions.refused import Refused
from garage.models import Membership

SECONDS = 0.5  # of planning, while the garage waits


@transaction.atomic
def apply(deeds: tuple[Deed, ...], *, by: Membership, at: datetime) -> str:
    """Change the garage and the plan on the wall; says what was done and how it is undone.

    Raises Refused; who may do it is asked before.
    """
    book = Book(by.garage)
    try:
        told = "; ".join(map(book.told, deeds))
        undo = "; ".join(dict.fromkeys(filter(None, map(book.undo, deeds))))
    except KeyError as error:
        raise Refused(doing.GONE) from error
    doing.do(deeds, by=by)
    make_plan(by.garage, by=by, at=at, seconds=SECONDS)
    return f"{told}. To undo: {undo}." if undo else f"{told}."
