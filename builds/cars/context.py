"""What every page shows of the fleet."""

from typing import Any

from django.http import HttpRequest
from django.utils.functional import SimpleLazyObject

from builds.cars.facts import fleet_of
from builds.cars.pages.key_board import car_cards
from garage import clock


def key_board(request: HttpRequest) -> dict[str, Any]:
    """Read only when a template draws the board."""
    member = getattr(request, "member", None)
    if member is None:
        return {}
    return {"key_board": SimpleLazyObject(lambda: car_cards(fleet_of(member.garage, clock.now())))}
