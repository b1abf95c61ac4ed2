"""The rows of one garage among those of others, table by table."""

from collections.abc import Mapping
from typing import Any

from django.db import models
from django.db.models.constants import LOOKUP_SEP

from garage.engine.open_files.contents import LEFT_OUT, withheld
from garage.facts.books import Books, columns

GARAGE, PERSON, MEMBERSHIP = "garage_garage", "garage_person", "garage_membership"
Models = Mapping[str, type[models.Model]]


class GarageBooks:
    """The tables that a garage takes along, as they are at the migrations that a database has."""

    def __init__(self, using: str) -> None:
        books = Books(using, without=LEFT_OUT)
        self.using, self.models = using, books.models
        self.migrations = tuple(map(".".join, books.migrations))
        self.paths = paths_to_garage(books.models)

    def of(self, table: str, garage: int) -> models.QuerySet[Any]:
        """Its rows of one garage; a person is of every garage that he is or was in."""
        rows = self.models[table]._base_manager.using(self.using)
        if table == PERSON:
            members = self.models[MEMBERSHIP]._base_manager.using(self.using).filter(garage=garage)
            return rows.filter(pk__in=members.values("person_id"))
        return rows.filter(**{self.paths[table]: garage})


def paths_to_garage(known: Models) -> dict[str, str]:
    """From each table the shortest way to its garage, over keys that are never empty; none from a person."""
    paths = {GARAGE: "pk"}
    while True:
        more = {
            table: LOOKUP_SEP.join((field.name, paths[field.related_model._meta.db_table]))
            for table, model in known.items()
            if table not in paths
            for field in model._meta.local_concrete_fields
            if field.remote_field and not field.null and field.related_model._meta.db_table in paths
        }
        if not more:
            return paths
        paths |= more


def open_columns(model: type[models.Model], *, emails: bool) -> dict[str, str]:
    """The kind of each column that is taken along."""
    apart = withheld(model._meta.db_table, emails=emails)
    return {name: kind for name, kind in columns(model).items() if name not in apart}
