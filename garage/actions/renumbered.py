"""The rows of one garage put beside those of others: each gets a number, and each key a name, that nobody has here."""

from collections import defaultdict
from collections.abc import Callable, Iterator
from typing import Any
from uuid import UUID, uuid4

from django.db import DEFAULT_DB_ALIAS, connections, models

from garage.actions.refill import load
from garage.engine.backup.manifest import NotWhole
from garage.engine.open_files.renumber import WITHIN
from garage.facts.books import rows
from garage.facts.garage_rows import GARAGE, GarageBooks
from garage.last_ids import take_numbers
from garage.models import Person

Change = Callable[[Any], Any]


class Numbers:
    """`given`: by table, from the number that a row had to the one that it has here."""

    def __init__(self, books: GarageBooks) -> None:
        self.books = books
        self.given: dict[str, dict[int, int]] = {}
        self.keys: dict[UUID, UUID] = defaultdict(uuid4)

    def take(self) -> None:
        """In the transaction that puts the rows in."""
        for table, model in self.books.models.items():
            old = list(model._base_manager.using(self.books.using).order_by("pk").values_list("pk", flat=True))
            self.given[table] = dict(zip(old, take_numbers(model, DEFAULT_DB_ALIAS, len(old)), strict=True))

    def key(self, old: UUID | str) -> UUID:
        """The same for the same, so that what was written down in one go stays so."""
        return self.keys[old if isinstance(old, UUID) else UUID(old)]

    def within(self, table: str, old: int) -> int | None:
        return self.given.get(table, {}).get(old) if isinstance(old, int) else None


def put_rows(books: GarageBooks, numbers: Numbers) -> tuple[str, ...]:
    """Returns the e-mails that were left out since somebody has them here."""
    numbers.take()
    taken = _taken_emails(books)
    for table, model in books.models.items():
        load(DEFAULT_DB_ALIAS, model, _changed(books, numbers, table, taken))
    connections[DEFAULT_DB_ALIAS].check_constraints()
    (garage,), here = numbers.given[GARAGE].values(), GarageBooks(DEFAULT_DB_ALIAS)
    for table, given in numbers.given.items():
        if here.of(table, garage).count() != len(given):
            raise NotWhole(f"left other rows in {table} than it has")
    return tuple(sorted(taken))


def _taken_emails(books: GarageBooks) -> set[str]:
    people = books.models["garage_person"]._base_manager.using(books.using).exclude(email=None)
    asked = {email.lower() for email in people.values_list("email", flat=True)}
    return {email for email in asked if Person.objects.filter(email__iexact=email).exists()}


def _changed(books: GarageBooks, numbers: Numbers, table: str, taken: set[str]) -> Iterator[list[Any]]:
    model = books.models[table]
    changes = {
        place: change
        for place, field in enumerate(model._meta.local_concrete_fields)
        if (change := _change(numbers, table, field, taken))
    }
    names = [field.column for field in model._meta.local_concrete_fields]
    within = {place: WITHIN[table, name] for place, name in enumerate(names) if (table, name) in WITHIN}
    for was in rows(model, books.using):
        cells = list(was)
        for place, change in changes.items():
            if cells[place] is not None:
                cells[place] = change(cells[place])
        for place, renumbered in within.items():
            cells[place] = renumbered(cells[place], dict(zip(names, was, strict=True)), numbers.within)
        yield cells


def _change(numbers: Numbers, table: str, field: models.Field[Any, Any], taken: set[str]) -> Change | None:
    if field.primary_key:
        return numbers.given[table].__getitem__
    if field.remote_field:
        return numbers.given[field.related_model._meta.db_table].__getitem__
    if isinstance(field, models.UUIDField):
        return numbers.key
    if (table, field.column) == ("garage_person", "email"):
        return lambda email: None if email.lower() in taken else email
    return None
