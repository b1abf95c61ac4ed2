"""How much an entry counts: its bounds."""

from garage.actions.refused import Refused


def within_nine(weight: int) -> int:
    """The weight again. Raises Refused for one that no entry has."""
    if not 1 <= weight <= 9:
        raise Refused("A weight is between 1 and 9.")
    return weight
