"""Budgets: set, changed and taken away by the owner."""

from django.db import transaction

from builds.money.models import Budget
from garage.models import Event, Vehicle


@transaction.atomic
def set_budget(thing: Vehicle | Event, minor: int | None) -> None:
    """At most so much for a car or an event, in minor units; None for no budget."""
    which = {"vehicle" if isinstance(thing, Vehicle) else "event": thing}
    if minor is None:
        Budget.objects.filter(**which).delete()
    else:
        Budget.objects.update_or_create(**which, defaults={"minor": minor, "garage": thing.garage})
