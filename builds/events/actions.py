"""Events deleted."""

from django.db import transaction

from builds.packing.models import PackLog
from builds.scrutineering.actions.entries import on_record
from garage.actions.refused import Refused
from garage.models import Event


@transaction.atomic
def take_out(event: Event) -> None:
    """Gone with its entries. Raises Refused where something that is written once would go with them."""
    ticked = [entry for entry in event.entries.select_related("vehicle") if on_record(entry)]
    if ticked:
        cars = ", ".join(entry.vehicle.name for entry in ticked)
        raise Refused(f"Ticks of {cars} are on record for {event}: it stays. Its cars can be withdrawn.")
    if PackLog.objects.filter(item__packlist__event=event).exists():
        raise Refused(f"What was packed for {event} is on record: it stays. Its cars can be withdrawn.")
    event.delete()
