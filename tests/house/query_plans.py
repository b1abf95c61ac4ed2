"""What a database means to do for each query, and which of its steps read through the rows of every garage.

By the plans of SQLite, which go by the indexes that there are, however few rows a test has; those of PostgreSQL go by
its statistics of the rows, and on a few rows say nothing. Both have the same indexes.
"""

import re
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from typing import Any

from django.apps import apps
from django.db import connection, models

from tests.house.places import APPS

PLANNED = ("SELECT", "UPDATE", "DELETE")
# In one statement `T4` or `U0` stands for the table before it, and in another one within it perhaps for one more.
ALIAS = re.compile(r'"(\w+)" (?:AS )?"?([TUVWXYZ]\d+)"?\b')
STEP = re.compile(r"^(SCAN|SEARCH) (\S+)(.*)$")
# How many garages are kept here is asked by whoever runs the server, of all of them.
OF_THE_SERVER = {"garage_garage"}


@dataclass(frozen=True)
class Step:
    """A table, or one of several, that is read, and the columns of an index by whose values its rows are found."""

    tables: frozenset[str]
    by: frozenset[str]
    said: str


@dataclass
class Asked:
    """Every query that was asked, once, with values of one time that it was."""

    queries: dict[str, Any] = field(default_factory=dict)

    @contextmanager
    def listening(self) -> Iterator["Asked"]:
        def listen(execute: Callable[..., Any], sql: str, params: Any, many: bool, context: Any) -> Any:
            if not many and sql.startswith(PLANNED):
                self.queries.setdefault(sql, params)
            return execute(sql, params, many, context)

        with connection.execute_wrapper(listen):
            yield self

    def through_all_garages(self) -> str:
        """Steps that find no row by a key, which no two garages share: a line each, with the end of its query."""
        known = keys()
        return "\n".join(
            f"{step.said}: …{sql[-400:]}"
            for sql, params in self.queries.items()
            if any(f'"{table}"' in sql for table in known)
            for step in steps(sql, params)
            if (tables := step.tables & known.keys()) and not any(step.by & known[table] for table in tables)
        )


def steps(sql: str, params: Any) -> Iterator[Step]:
    """Of SQLite's plan for a query."""
    with connection.cursor() as cursor:
        cursor.execute(f"EXPLAIN QUERY PLAN {sql}", params)
        lines = [row[3] for row in cursor.fetchall()]
    for step in filter(None, map(STEP.match, lines)):
        tables = {table for table, alias in ALIAS.findall(sql) if alias == step[2]} or {step[2]}
        yield Step(frozenset(tables), frozenset(re.findall(r"\b(\w+)=\?", step[3])), step[0])


def keys() -> dict[str, set[str]]:
    """By table of ours the columns that lead to rows of one garage, or of one person: keys, and what is made once."""
    return {
        model._meta.db_table: {"rowid", *(field.column for field in model._meta.local_fields if _is_key(field))}
        for app in APPS
        for model in apps.get_app_config(app).get_models(include_auto_created=True)
        if model._meta.db_table not in OF_THE_SERVER
    }


def _is_key(column: models.Field) -> bool:
    """A digest, as counted tries have, is of one thing as a key drawn at random is."""
    drawn = isinstance(column, models.UUIDField) or (column.name == "key" and column.max_length == 64)
    return column.primary_key or column.unique or column.is_relation or drawn
