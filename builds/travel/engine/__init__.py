"""Who takes which car to which event, and every sentence on what does not go together."""

from builds.travel.engine.clashes import Trip, any_at_once, clashes
from builds.travel.engine.rides import Ride, ride_words
from builds.travel.engine.trouble import TakerState, Trouble, said_of_entry, said_of_event, taker_state, troubles

__all__ = [
    "Ride",
    "TakerState",
    "Trip",
    "Trouble",
    "any_at_once",
    "clashes",
    "ride_words",
    "said_of_entry",
    "said_of_event",
    "taker_state",
    "troubles",
]
