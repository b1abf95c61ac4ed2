"""Kinds of reading as a garage has them: those that every garage has, and its own."""

from dataclasses import dataclass

from builds.readings.engine import READINGS
from builds.readings.engine.conditions import conditions_of
from builds.readings.engine.fields import FIGURE, Field, fields_of
from builds.readings.engine.figures import own_field
from builds.readings.engine.signs import SIGNS
from builds.readings.models.reading import OwnKind
from garage.models import Garage


@dataclass(frozen=True)
class ReadingKind:
    """`key` is its slug, or that of a kind of the garage's own, which then stands in `own`."""

    key: str
    label: str
    fields: tuple[Field, ...]
    conditions: tuple[str, ...]
    own: OwnKind | None = None

    @property
    def slug(self) -> str:
        """The slug that a row keeps; empty for a kind of the garage's own."""
        return "" if self.own else self.key

    @property
    def follows(self) -> str:
        """The reading (slug) with which it goes void."""
        return self.own.follows if self.own else self.key

    @property
    def sign(self) -> str:
        """Which way its figures count, such as `toe-in +`; empty where nothing has a sign."""
        return SIGNS.get(self.slug, "")

    @property
    def figures(self) -> tuple[Field, ...]:
        return tuple(field for field in self.fields if field.type == FIGURE)


def _shipped(slug: str) -> ReadingKind:
    return ReadingKind(slug, READINGS[slug].label, fields_of(slug), conditions_of(slug))


def _own(own: OwnKind) -> ReadingKind:
    field = own_field(own.name, own.unit, own.is_number)
    needs = ("instrument",) if own.is_number else ()
    return ReadingKind(own.key, own.name, (field,), needs, own)


def kinds_of(garage: Garage) -> dict[str, ReadingKind]:
    """Every kind by its key, in measuring order, the garage's own last; one query."""
    kinds = [_shipped(slug) for slug in READINGS]
    kinds += [_own(own) for own in OwnKind.objects.in_garage(garage)]
    return {kind.key: kind for kind in kinds}


def kind_of(garage: Garage, key: str) -> ReadingKind | None:
    if key in READINGS:
        return _shipped(key)
    own = OwnKind.objects.in_garage(garage).called(key).first()
    return _own(own) if own else None
