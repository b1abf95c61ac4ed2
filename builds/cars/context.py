"""What every page shows of the fleet."""

from typing import Any

from django.http import HttpRequest
from django.utils.functional import SimpleLazyObject

from builds.cars.facts import fleet_of
from builds.cars.pages.key_board import car_cards
from builds.work.facts.left import minutes_left
from builds.work.pages import CarCard
from garage import clock
from garage.models import Membership


def key_board(request: HttpRequest) -> dict[str, Any]:
    """Read only when a template draws the board."""
    member = getattr(request, "member", None)
    if member is None:
        return {}
    return {"key_board": SimpleLazyObject(lambda: _cards(member))}


def _cards(member: Membership) -> list[CarCard]:
    fleet = fleet_of(member.garage, clock.now())
    return car_cards(fleet, minutes_left(fleet.garage, fleet.at))
