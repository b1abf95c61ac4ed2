"""What a part fits: written down and taken back."""

from django.db import transaction

from garage.actions.refused import Refused
from parts.engine.fit import Interface, read_all, stored, words
from parts.engine.fit.interface import MOST
from parts.models import Part


@transaction.atomic
def add(part: Part, interface: Interface) -> None:
    """Raises Refused for one that is there already, and for more than twelve."""
    rows = Part.objects.select_for_update().get(pk=part.pk).interfaces
    new = stored(interface)
    if new in rows:
        raise Refused(f"{words(interface)} is written down already.")
    if len(rows) >= MOST:
        raise Refused(f"{MOST} is the most that one part fits: take one away first.")
    part.interfaces = [*rows, new]
    part.save(update_fields=["interfaces"])


@transaction.atomic
def remove(part: Part, said: str) -> None:
    """The one that is said in these words; nothing happens when it is gone already."""
    rows = Part.objects.select_for_update().get(pk=part.pk).interfaces
    part.interfaces = [interface for interface in rows if said not in map(words, read_all([interface]))]
    part.save(update_fields=["interfaces"])
