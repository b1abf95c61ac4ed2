"""The count of a garage's writes: whatever rests on the garage sees by it whether anything was written since."""

from datetime import datetime

from django.db import transaction
from django.db.models import F
from django.dispatch import Signal

from garage.models import Garage

# After the commit of a write, with the pk of its `garage`. Whoever writes knows nobody who listens.
written = Signal()


def count(garage: int, *, at: datetime) -> None:
    """As the last statement of the transaction that writes: the row is locked no longer than the commit takes.

    An error of those who listen is logged, and is none of the write's.
    """
    Garage.objects.filter(pk=garage).update(writes=F("writes") + 1, written_at=at)
    transaction.on_commit(lambda: written.send_robust(Garage, garage=garage))
