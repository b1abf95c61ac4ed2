"""The count of a garage's writes: whatever rests on the garage sees by it whether anything was written since."""

from datetime import datetime

from django.db import transaction
from django.db.models import F
from django.dispatch import Signal

from garage.models import Garage, Membership, Person

# After the commit of a write, with the pk of its `garage`. Whoever writes knows nobody who listens.
written = Signal()


def count(garage: int, *, at: datetime) -> None:
    """As the last statement of the transaction that writes: the row is locked no longer than the commit takes.

    An error of those who listen is logged, and is none of the write's.
    """
    Garage.objects.filter(pk=garage).update(writes=F("writes") + 1, written_at=at)
    transaction.on_commit(lambda: written.send_robust(Garage, garage=garage))


def count_for(person: Person, *, at: datetime) -> None:
    """Once it is committed, of every garage that this person is or was in: each tells of what he did, by his name."""
    garages = list(Membership.objects.of(person).values_list("garage_id", flat=True))

    def count_each() -> None:
        for garage in garages:
            with transaction.atomic():
                count(garage, at=at)

    transaction.on_commit(count_each)
