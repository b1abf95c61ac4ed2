"""Limits that the required readings of a car still want, with what is offered for each."""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Protocol

from builds.readings.engine.fields import Field
from builds.readings.engine.limits import OFFERS, OfferedLimit
from builds.readings.engine.reading_kind import ReadingKind
from builds.readings.engine.signs import with_sign


@dataclass(frozen=True)
class WantedLimit:
    """Figures of one kind that want a limit and are offered the same."""

    kind: ReadingKind
    fields: tuple[Field, ...]
    offer: OfferedLimit

    @property
    def name(self) -> str:
        return f"{self.kind.key}_{self.fields[0].slug}"

    @property
    def label(self) -> str:
        """Of several figures the kind, of one of several kinds of figure its own name."""
        alone = len(self.fields) == 1 and len(self.kind.figures) > 1
        label = f"{self.kind.label}, {self.fields[0].label.lower()}" if alone else self.kind.label
        return with_sign(label, self.kind.slug)


class JudgedLine(Protocol):
    """A required reading: `without_limit` are its figures that nothing judges."""

    @property
    def kind(self) -> ReadingKind: ...
    @property
    def without_limit(self) -> tuple[Field, ...]: ...


def wanted_limits(lines: Iterable[JudgedLine]) -> tuple[WantedLimit, ...]:
    """In measuring order."""
    wanted = []
    for line in lines:
        lacking = line.without_limit
        for offer in OFFERS:
            fields = tuple(field for field in lacking if offer.kind == line.kind.key and field.slug in offer.fields)
            if fields:
                wanted.append(WantedLimit(line.kind, fields, offer))
    return tuple(wanted)
