"""Changing gear without losing the crash that it was in."""

from datetime import datetime
from typing import Any

from django.db import transaction

from builds.gear.facts.book import gear_book
from garage.actions import gear as actions
from garage.models import Gear


@transaction.atomic
def change_piece(gear: Gear, *, at: datetime, **fields: Any) -> None:
    """A crash on its car goes with it to another car, or under another kind."""
    book = gear_book(gear.garage, at, ())
    if (crash := book.crash_of(gear)) and not gear.struck_by_hand:
        fields |= {"struck_at": crash.at, "struck_note": book.why_struck(gear)[:200]}
    actions.change(gear, **fields)
