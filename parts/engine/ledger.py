"""The ledger in plain Python: moves folded into balances, and what each verb may do."""

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass

STORES = frozenset({"shelf", "bin", "van", "trailer"})
AT_HAND = STORES | {"bench"}


@dataclass(frozen=True, slots=True)
class LedgerLine:
    """One move; `quantity` in the part's smallest unit, above zero."""

    part: int
    source: int
    target: int
    quantity: int


@dataclass(frozen=True, slots=True)
class Verb:
    """From which kinds of place to which; `label` completes "To ... a part"."""

    label: str
    button: str
    done: str
    sources: frozenset[str]
    targets: frozenset[str]


# The likeliest first: in this order they are offered.
VERBS: dict[str, Verb] = {
    "receive": Verb("receive", "Receive", "received", frozenset({"supplier"}), AT_HAND),
    "return": Verb("return", "Take back", "came back", frozenset({"someone", "repair"}), AT_HAND),
    "pull": Verb("pull", "Pull", "pulled", STORES | {"car"}, frozenset({"bench"})),
    "fit": Verb("fit", "Fit", "fitted", AT_HAND, frozenset({"car"})),
    "take_off": Verb(
        "take off", "Take off", "taken off", frozenset({"car"}), AT_HAND | {"scrap"}
    ),
    "put": Verb("put", "Put elsewhere", "put", AT_HAND, AT_HAND),
    "lend": Verb("lend", "Lend", "lent", AT_HAND, frozenset({"someone"})),
    "repair": Verb(
        "send for repair", "Send for repair", "sent for repair", AT_HAND | {"car"},
        frozenset({"repair"}),
    ),
    "scrap": Verb(
        "scrap", "Scrap", "scrapped", AT_HAND | {"car", "someone", "repair"}, frozenset({"scrap"})
    ),
    "count": Verb("count", "Count", "counted", AT_HAND | {"counted"}, AT_HAND | {"counted"}),
}  # fmt: skip
DONE = {slug: verb.done for slug, verb in VERBS.items()} | {"reverse": "undone"}
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


def offered(kind: str, *, one_use: bool = False, fit: bool = True) -> list[str]:
    """Verbs (slugs) for what lies in a kind of place, the likeliest first.

    What is used once is not pulled off a car; without `fit` it is not offered to go on one.
    """
    return [
        slug
        for slug, verb in VERBS.items()
        if kind in verb.sources
        and slug != "count"
        and (fit or slug != "fit")
        and not (one_use and kind == "car" and slug in ("pull", "repair"))
    ]


def one_use_refusal(name: str, verb: str, target: str) -> str | None:
    """Stretch bolts, self-locking nuts, split pins and gaskets that come off never go back to stock.

    Source: FAA AC 43.13-1B 7-63/64 for self-locking nuts and cotter pins; the rest is common
    practice, no source.
    """
    if verb in ("take_off", "pull", "repair") and target != "scrap":
        return f"{name} is used once: taken off a car it goes to the scrap."
    return None


def fold(lines: Iterable[LedgerLine]) -> dict[tuple[int, int], int]:
    """Balances by (part, place); places of which nothing is left are not listed."""
    totals: dict[tuple[int, int], int] = defaultdict(int)
    for line in lines:
        totals[line.part, line.source] -= line.quantity
        totals[line.part, line.target] += line.quantity
    return {key: total for key, total in totals.items() if total}
