"""A garage opened with its first car, the next event and its owner's hours, each where it was said."""

from collections.abc import Mapping
from datetime import datetime
from typing import Any

from django.db import transaction

from builds.cars.actions import hang_up
from builds.events.actions import add
from garage.actions import garages, hours
from garage.engine.hours import Stretch
from garage.models import Membership, Person, Vehicle


@transaction.atomic
def open_garage(
    owner: Person,
    *,
    at: datetime,
    garage: Mapping[str, Any],
    car: Mapping[str, Any],
    event: Mapping[str, Any],
    week: list[Stretch],
) -> Membership:
    """What each of them is told of; a car and an event of which nothing is told are not there yet. Raises Refused."""
    member = Membership.objects.get(garage=garages.found(owner, **garage))
    hours.set_week(member, week=week)
    cars: list[Vehicle] = [hang_up(member.garage, by=member, at=at, **car)] if car else []
    if event:
        add(member.garage, cars, at=at, **event)
    return member
