"""Toe as angle and as a difference across the rim, and the thrust line. Toe-in is above 0 (ISO 8855:2011 7.1.6)."""

import math


def toe_angle(difference: float, across: float) -> float:
    """Degrees of a wheel that is `difference` nearer the middle at its front than at its rear, `across` it, mm.

    ValueError for a difference that does not fit across.
    """
    if not -across <= difference <= across:
        raise ValueError("The difference is larger than what it was measured across.")
    return math.degrees(math.asin(difference / across))


def toe_difference(degrees: float, across: float) -> float:
    """mm across a wheel of that toe."""
    return across * math.sin(math.radians(degrees))


def each_of_total(total: float, across: float) -> float:
    """Degrees of each of two equal wheels whose differences add up to `total` mm across `across` mm."""
    return toe_angle(total / 2, across)


def total_difference(degrees: float, across: float) -> float:
    """mm of both wheels together that share a total toe of so many degrees equally."""
    return 2 * toe_difference(degrees / 2, across)


def thrust_angle(left: float, right: float) -> float:
    """Degrees that the rear axle points to the right, from the toe of its wheels (degrees, toe-in above 0).

    Source: a maker's workshop manual, (left − right) / 2; another maker's has the opposite sign.
    """
    return (left - right) / 2


def about_thrust(left: float, right: float, thrust: float) -> tuple[float, float]:
    """Front toe of left and right as seen from the thrust line; their sum stays."""
    return left - thrust, right + thrust
