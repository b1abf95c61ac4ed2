"""Every sum there is, by topic; pages, the terminal, search and the tests read this table."""

from types import ModuleType

from builds.bench.cooling import boiling, fan, heat
from builds.bench.frame.sums import Sum
from builds.bench.steering import ackermann, rod_turn, steering_linkage
from builds.bench.weights import corner_weights
from builds.bench.wiring import harness, inrush, wire_size

TOPICS: dict[str, tuple[ModuleType, ...]] = {
    "Weight": (corner_weights,),
    "Steering": (steering_linkage, ackermann, rod_turn),
    "Wiring": (wire_size, inrush, harness),
    "Cooling": (heat, fan, boiling),
}
SUMS: dict[str, Sum] = {module.SUM.slug: module.SUM for modules in TOPICS.values() for module in modules}


def sum_called(slug: str) -> Sum | None:
    """The sum of that name, None where there is none."""
    return SUMS.get(slug)
