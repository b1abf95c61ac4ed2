"""How a want stands, in words: where it is, when it is expected, who is served first."""

from datetime import date

from builds.needs.facts.wants import WantStanding
from builds.work.models.need import Need
from garage.engine.moments import day_words
from parts.engine.fit import words
from parts.engine.words import amount_words
from parts.models import Place

# In the order in which somebody has to do something about it.
STATES = {
    "find": "To find",
    "promised": "Kept for more urgent jobs",
    "car": "On another car, or elsewhere",
    "ordered": "Ordered",
    "shelf": "On the shelf",
}


def fit_words(need: Need) -> str:
    """What a need must fit, as it can be typed; empty when nobody said."""
    return ", ".join(words(want) for want in need.must_fit)


def expected_words(need: Need, today: date) -> str:
    """`expected Thu 4 Mar`, `was expected Mon 1 Mar`, or nothing without a day."""
    day = need.expected_on
    if day is None:
        return ""
    return f"{'was expected' if day < today else 'expected'} {day_words(day)}"


def standing_words(need: Need, stands: WantStanding, today: date) -> str:
    """`on the shelf: Bin 4`, `expected Thu 4 Mar`, `on Heron`, `to find`."""
    if stands.state == "shelf":
        return f"on the shelf: {', '.join(str(place) for place in stands.shelves)}"
    if stands.state == "ordered":
        return expected_words(need, today)
    if stands.state == "promised":
        return "promised to others first"
    if stands.place:
        return place_words(stands.place)
    return f"there, but {need.part.get_condition_display()}" if stands.state == "car" else "to find"


def place_words(place: Place) -> str:
    """`on Heron`, `with Tove`, `Bin 4`."""
    preposition = {Place.Kind.CAR: "on ", Place.Kind.SOMEONE: "with "}.get(place.kind, "")
    return f"{preposition}{place}"


def behind_words(need: Need, stands: WantStanding) -> str:
    """What a shelf has of it, and who is served first; empty when all of it is there."""
    if stands.state == "shelf":
        return ""
    told = []
    if stands.picks:
        there = sum(pick.quantity for pick in stands.picks)
        told.append(f"{amount_words(need.part.unit, there)} of {need.quantity} on the shelf")
    if stands.before:
        first, *others = stands.before
        more = f" and {len(others)} more" if others else ""
        told.append(f"Behind “{first.job}” ({first.job.vehicle}){more}")
    return ". ".join(told)
