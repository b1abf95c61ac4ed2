"""The ledger in plain Python: moves folded into balances, and what each verb may do."""

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass

STORES = frozenset({"shelf", "bin", "van", "trailer"})
AT_HAND = STORES | {"bench"}


@dataclass(frozen=True, slots=True)
class Line:
    """One move; `quantity` in the part's smallest unit, above zero."""

    part: int
    source: int
    target: int
    quantity: int


@dataclass(frozen=True, slots=True)
class Verb:
    """From which kinds of place to which; `label` completes "To ... a part"."""

    label: str
    sources: frozenset[str]
    targets: frozenset[str]


VERBS: dict[str, Verb] = {
    "receive": Verb("receive", frozenset({"supplier"}), AT_HAND),
    "put": Verb("put", AT_HAND, AT_HAND),
    "pull": Verb("pull", STORES | {"car"}, frozenset({"bench"})),
    "fit": Verb("fit", AT_HAND, frozenset({"car"})),
    "take_off": Verb("take off", frozenset({"car"}), AT_HAND | {"scrap"}),
    "lend": Verb("lend", AT_HAND, frozenset({"someone"})),
    "return": Verb("return", frozenset({"someone", "repair"}), AT_HAND),
    "repair": Verb("send for repair", AT_HAND | {"car"}, frozenset({"repair"})),
    "scrap": Verb("scrap", AT_HAND | {"car", "someone", "repair"}, frozenset({"scrap"})),
    "count": Verb("count", AT_HAND | {"counted"}, AT_HAND | {"counted"}),
}
KINDS = {
    "shelf": "a shelf", "bin": "a bin", "van": "the van", "trailer": "the trailer",
    "bench": "the bench", "car": "a car", "someone": "someone", "repair": "repair",
    "scrap": "the scrap", "supplier": "a supplier", "counted": "the stock-take",
}  # fmt: skip


def refusal(verb: str, source: str, target: str) -> str | None:
    """Why a verb cannot go from a kind of place to another, or None when it can."""
    row = VERBS[verb]
    if source not in row.sources:
        return f"To {row.label} a part it cannot come from {KINDS[source]}."
    if target not in row.targets:
        return f"To {row.label} a part it cannot go to {KINDS[target]}."
    return None


def one_use_refusal(name: str, verb: str, target: str) -> str | None:
    """Stretch bolts, nyloc nuts, split pins and gaskets that come off never go back to stock.

    Source: FAA AC 43.13-1B 7-63/64 for self-locking nuts and cotter pins; the rest is common
    practice, no source.
    """
    if verb in ("take_off", "pull") and target != "scrap":
        return f"{name} is used once: taken off a car it goes to the scrap."
    return None


def fold(lines: Iterable[Line]) -> dict[tuple[int, int], int]:
    """Balances by (part, place); places of which nothing is left are not listed."""
    totals: dict[tuple[int, int], int] = defaultdict(int)
    for line in lines:
        totals[line.part, line.source] -= line.quantity
        totals[line.part, line.target] += line.quantity
    return {key: total for key, total in totals.items() if total}
