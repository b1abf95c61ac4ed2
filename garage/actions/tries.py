"""Counting tries before the work that they would cost, and taking them back."""

import hashlib
from datetime import datetime, timedelta

from django.db import transaction

from garage.engine.tries import Backoff, counted, seconds_to_wait
from garage.models import Tries

Counter = tuple[Backoff, str]
LATELY = timedelta(days=90)


def _key(words: str) -> str:
    return hashlib.sha256(words.encode()).hexdigest()


@transaction.atomic
def claim(*counters: Counter, at: datetime) -> int:
    """Count one try in every counter and return 0, or count nothing and return the wait in seconds.

    Counting comes before the try itself, so that tries at the same moment cannot slip past.
    """
    rows = []
    for rule, words in counters:
        Tries.objects.get_or_create(what=rule.what, key=_key(words), defaults={"since": at})
        counter = Tries.objects.select_for_update().get(what=rule.what, key=_key(words))
        rows.append((rule, counter, (at - counter.since).total_seconds()))
    wait = max(seconds_to_wait(rule, counter.count, quiet) for rule, counter, quiet in rows)
    if wait == 0:
        for rule, counter, quiet in rows:
            counter.count, counter.since = counted(rule, counter.count, quiet) + 1, at
            counter.save(update_fields=["count", "since"])
    return wait


def waiting(counter: Counter, *, at: datetime) -> int:
    """Seconds until the next try may be made, without counting one."""
    rule, words = counter
    row = Tries.objects.of(rule.what, _key(words)).first()
    return seconds_to_wait(rule, row.count, (at - row.since).total_seconds()) if row else 0


@transaction.atomic
def take_back(*counters: Counter) -> None:
    """One try less in every counter: it came to nothing, or it was right."""
    for rule, words in counters:
        Tries.objects.of(rule.what, _key(words)).one_less()


@transaction.atomic
def forget(*counters: Counter) -> None:
    for rule, words in counters:
        Tries.objects.of(rule.what, _key(words)).delete()


def note_right(counter: Counter, *, at: datetime) -> None:
    """That it was right: kept beside the counter, under a name of its own."""
    rule, words = counter
    Tries.objects.update_or_create(what=f"{rule.what} ok", key=_key(words), defaults={"since": at, "count": 1})


def lately_right(counter: Counter, *, at: datetime) -> bool:
    rule, words = counter
    rows = Tries.objects.of(f"{rule.what} ok", _key(words))
    return rows.filter(since__gt=at - LATELY).exists()
