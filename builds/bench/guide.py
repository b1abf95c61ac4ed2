"""The sums in one text: each with its question, formula, source, limits and where it is offered."""

from collections.abc import Iterator

from builds.bench.catalogue import TOPICS
from builds.bench.frame.sums import Sum


def guide_text() -> str:
    """As SUMS.md has it."""
    return "\n".join(_lines()) + "\n"


def _lines() -> Iterator[str]:
    yield "# Sums of the bench"
    yield ""
    yield "Every figure is an estimate: the maker's figure, the organiser's rules and the law come first."
    yield "Drawn from the catalogue by `manage.py sums --guide`."
    for topic, sums in TOPICS.items():
        yield ""
        yield f"## {topic}"
        for one in sums:
            yield from _sum(one)


def _sum(one: Sum) -> Iterator[str]:
    yield ""
    yield f"### {one.title}: `manage.py sum {one.slug}`"
    yield ""
    yield one.question
    yield ""
    yield from (f"- `{line}`" for line in one.formula)
    yield f"- Source: {one.source}."
    yield f"- {one.assumes}"
    yield f"- {one.limits}"
    yield f"- {one.caution}"
    places = [*one.offered.readings, *one.offered.systems]
    yield f"- Beside: {', '.join(place.replace('_', ' ') for place in places)}."
