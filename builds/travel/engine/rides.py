"""One car on its way to one event."""

from dataclasses import dataclass
from datetime import datetime

DRIVEN, TRAILER, VAN = "driven", "trailer", "van"


@dataclass(frozen=True, slots=True)
class Ride:
    """Keys are those of the rows. `how` is driven, trailer, van or empty while nobody said.

    `taker` is the garage's own vehicle that pulls or carries it, None for somebody else's; `trailer`
    its name. The car is on the way or there from `leaves` until `back` (aware).
    """

    entry: int
    event: int
    event_name: str
    car: int
    car_name: str
    leaves: datetime
    back: datetime
    how: str = ""
    taker: int | None = None
    taker_name: str = ""
    trailer: str = ""


def ride_words(ride: Ride) -> str:
    """`on the trailer “tandem” behind Tug`, `in Tug`, `driven on the road`; empty while nobody said."""
    if ride.how == DRIVEN:
        return "driven on the road"
    if ride.how == VAN:
        return f"in {ride.taker_name or 'a van'}"
    if ride.how == TRAILER:
        which = f"on the trailer “{ride.trailer}”" if ride.trailer else "on a trailer"
        return f"{which} behind {ride.taker_name}" if ride.taker_name else which
    return ""
