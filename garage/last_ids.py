"""The last number that a table gave to a row: one given once is not given again, not even to what was deleted."""

from typing import Any

from django.db import connections, models

PG_SEQUENCE = "pg_get_serial_sequence(%s, %s)::regclass"


def last_id(model: type[models.Model], using: str) -> int:
    """0 when it gave none, or numbers no rows itself."""
    auto = model._meta.auto_field
    if auto is None:
        return 0
    if connections[using].vendor == "sqlite":
        return _figure(using, "SELECT seq FROM sqlite_sequence WHERE name = %s", model._meta.db_table)
    query = f"SELECT pg_sequence_last_value({PG_SEQUENCE})"
    return _figure(using, query, _quoted(model, using), auto.column)


def go_on_from(model: type[models.Model], using: str, last: int) -> None:
    """The next row of `model` is numbered above `last` and above every row there is."""
    auto = model._meta.auto_field
    if auto is None:
        return
    there = model._base_manager.using(using).aggregate(top=models.Max(auto.attname))["top"] or 0
    last = max(last, there)
    if not last:
        return
    if connections[using].vendor == "sqlite":
        table = model._meta.db_table
        _run(using, "DELETE FROM sqlite_sequence WHERE name = %s", table)
        _run(using, "INSERT INTO sqlite_sequence (name, seq) VALUES (%s, %s)", table, last)
    else:
        _run(using, f"SELECT setval({PG_SEQUENCE}, %s)", _quoted(model, using), auto.column, last)


def take_numbers(model: type[models.Model], using: str, count: int) -> list[int]:
    """So many numbers for new rows, ascending, which nobody else gets; in the transaction that writes them."""
    if not count:
        return []
    auto = model._meta.auto_field
    if connections[using].vendor == "sqlite":
        there = model._base_manager.using(using).aggregate(top=models.Max(auto.attname))["top"] or 0
        last = max(last_id(model, using), there)
        go_on_from(model, using, last + count)
        return list(range(last + 1, last + count + 1))
    with connections[using].cursor() as cursor:
        cursor.execute(
            f"SELECT nextval({PG_SEQUENCE}) FROM generate_series(1, %s)",  # noqa: S608 (words of ours)
            [_quoted(model, using), auto.column, count],
        )
        return sorted(number for (number,) in cursor.fetchall())


def _quoted(model: type[models.Model], using: str) -> str:
    return connections[using].ops.quote_name(model._meta.db_table)


def _run(using: str, query: str, *values: Any) -> None:
    with connections[using].cursor() as cursor:
        cursor.execute(query, values)


def _figure(using: str, query: str, *values: Any) -> int:
    with connections[using].cursor() as cursor:
        cursor.execute(query, values)
        answer = cursor.fetchone()
    return int(answer[0] or 0) if answer else 0
