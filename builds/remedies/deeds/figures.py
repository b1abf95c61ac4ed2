"""Figures of deeds: temperatures of the shop in thousandths of a °C, weights of entries."""

from builds.cure.engine.degrees import celsius, degrees_words
from builds.cure.models.shop import COLDEST_MC, WARMEST_MC
from garage.actions.refused import Refused
from garage.engine.units import unit_for
from garage.models import Garage


def shop_degrees(garage: Garage, warm_mc: int) -> str:
    """In the unit of the garage."""
    return degrees_words(celsius(warm_mc), unit_for("temperature", garage.units))


def within_shop(warm_mc: int) -> int:
    """The temperature again. Raises Refused for one that no shop has."""
    if not COLDEST_MC <= warm_mc <= WARMEST_MC:
        raise Refused("That is no temperature of a shop.")
    return warm_mc


def within_nine(weight: int) -> int:
    """The weight again. Raises Refused for one that no entry has."""
    if not 1 <= weight <= 9:
        raise Refused("A weight is between 1 and 9.")
    return weight
