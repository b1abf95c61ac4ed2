"""How long something slow may go on."""

from collections.abc import Callable
from time import perf_counter


def out_of_time(seconds: float) -> Callable[[], bool]:
    """Whether so many seconds are over, for whoever would go on."""
    begun = perf_counter()
    return lambda: perf_counter() - begun > seconds
