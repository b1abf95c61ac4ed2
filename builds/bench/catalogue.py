"""Every sum there is, by topic; pages, the terminal, search and the tests read this table."""

from types import ModuleType

from builds.bench.frame.sums import Sum
from builds.bench.weights import corner_weights

TOPICS: dict[str, tuple[ModuleType, ...]] = {
    "Weight": (corner_weights,),
}
SUMS: dict[str, Sum] = {module.SUM.slug: module.SUM for modules in TOPICS.values() for module in modules}


def sum_called(slug: str) -> Sum | None:
    """The sum of that name, None where there is none."""
    return SUMS.get(slug)
