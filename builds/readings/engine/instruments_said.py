"""Which instrument somebody's own words name. Common practice, no source."""

from collections.abc import Iterable

from garage.engine.names_said import plain


def instrument_said(words: str, known: Iterable[str]) -> str:
    """The longest of the `known` names (as of `plain`) that stands in the words; empty where none does.

    `Torque-wrench, the red one` is the torque wrench, unless there is a red one.
    """
    told = f" {plain(words)} "
    return max((name for name in known if name and f" {name} " in told), key=len, default="")
