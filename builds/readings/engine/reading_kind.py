"""A kind of reading as a garage has it: one that every garage has, or one of its own."""

from dataclasses import dataclass
from typing import Any, Protocol

from builds.readings.engine.conditions import conditions_of
from builds.readings.engine.fields import FIGURE, READ_ALONE, Field, fields_of
from builds.readings.engine.figures import own_field
from builds.readings.engine.signs import SIGNS
from builds.readings.engine.vocabulary import READINGS


class MadeUp(Protocol):
    """A kind that a garage made up: one figure in a unit of its own, or words."""

    name: str
    unit: str
    is_number: bool
    follows: str

    @property
    def key(self) -> str: ...


@dataclass(frozen=True)
class ReadingKind:
    """`key` is its slug, or that of a kind of the garage's own, which then stands in `own`."""

    key: str
    label: str
    fields: tuple[Field, ...]
    conditions: tuple[str, ...]
    own: Any = None

    @property
    def slug(self) -> str:
        """The slug that a row keeps; empty for a kind of the garage's own."""
        return "" if self.own else self.key

    @property
    def follows(self) -> str:
        """The reading (slug) with which it goes void."""
        follows: str = self.own.follows if self.own else self.key
        return follows

    @property
    def sign(self) -> str:
        """Which way its figures count, such as `toe-in +`; empty where nothing has a sign."""
        return SIGNS.get(self.slug, "")

    @property
    def read_alone(self) -> bool:
        """Whether one of its figures may be read without the others."""
        return self.slug in READ_ALONE

    @property
    def figures(self) -> tuple[Field, ...]:
        return tuple(field for field in self.fields if field.type == FIGURE)


def shipped_kind(slug: str) -> ReadingKind:
    """KeyError for what is no reading."""
    return ReadingKind(slug, READINGS[slug].label, fields_of(slug), conditions_of(slug))


def own_kind(own: MadeUp) -> ReadingKind:
    field = own_field(own.name, own.unit, own.is_number)
    needs = ("instrument",) if own.is_number else ()
    return ReadingKind(own.key, own.name, (field,), needs, own)
