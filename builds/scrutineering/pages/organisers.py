"""Organisers' own lists: how long each is, and whose next event it serves."""

from dataclasses import dataclass

from builds.scrutineering.engine.check_list import own_items
from builds.scrutineering.models.check import OrganiserList
from garage.models import Event, Garage


@dataclass(frozen=True)
class OrganiserLine:
    own: OrganiserList
    items: int
    events: tuple[str, ...]


def organiser_lines(garage: Garage) -> tuple[OrganiserLine, ...]:
    """Two queries."""
    events: dict[str, list[str]] = {}
    for name, organiser in Event.objects.in_garage(garage).values_list("name", "organiser"):
        events.setdefault(organiser.casefold(), []).append(name)
    return tuple(
        OrganiserLine(
            own,
            len(own_items(own.text, own.name)),
            tuple(events.get(own.name.casefold(), ())),
        )
        for own in OrganiserList.objects.in_garage(garage)
    )
