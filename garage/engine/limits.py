"""How much one may ask of a server in a minute: a vessel that leaks evenly, and what would run over waits."""

import threading
from collections.abc import Iterable
from math import ceil
from typing import NamedTuple

MINUTE = 60.0
KEPT = 10_000  # names remembered before those that owe nothing any more are forgotten


class Allowance(NamedTuple):
    """`most` at once after a quiet minute, and then as many again in each minute; 0 is no limit."""

    name: str
    most: int


class Meter:
    """What each name has asked for lately, in the memory of one process."""

    def __init__(self) -> None:
        self._empty_at: dict[str, float] = {}
        self._lock = threading.Lock()

    def claim(self, limits: Iterable[Allowance], at: float) -> tuple[Allowance, int] | None:
        """Count one in every limit; else count none and return the limit in the way and the whole seconds to wait.

        `at` in seconds by a clock that is never set.
        """
        held = [limit for limit in limits if limit.most]
        with self._lock:
            owed = {limit: max(self._empty_at.get(limit.name, at), at) + MINUTE / limit.most for limit in held}
            over = max(held, key=lambda limit: owed[limit], default=None)
            # A millionth for what adding a minute in parts gets wrong.
            if over is not None and owed[over] - at > MINUTE + 1e-6:
                return over, ceil(owed[over] - at - MINUTE)
            self._empty_at |= {limit.name: until for limit, until in owed.items()}
            if len(self._empty_at) > KEPT:
                self._empty_at = {name: until for name, until in self._empty_at.items() if until > at}
        return None
