"""What a database has, held against the models and against the ledger's guards."""

from collections.abc import Iterator

from django.apps import apps
from django.db.backends.base.base import BaseDatabaseWrapper

from tests.house.places import APPS

# The guards of the ledger and of the journal, as their migrations make them.
TRIGGERS = {
    "sqlite": {
        *("parts_move_no_update", "parts_move_no_delete"),
        *("garage_journalline_no_update", "garage_journalline_no_delete"),
        *("garage_journaltie_no_update", "garage_journaltie_no_delete"),
    },
    "postgresql": {
        *("parts_move_stays", "parts_move_stays_whole"),
        *("garage_journalline_stays", "garage_journaltie_stays"),
    },
}
LISTED = {
    "sqlite": "SELECT name FROM sqlite_master WHERE type = 'trigger'",
    "postgresql": "SELECT tgname FROM pg_trigger WHERE NOT tgisinternal",
}


def triggers(database: BaseDatabaseWrapper) -> set[str]:
    with database.cursor() as cursor:
        cursor.execute(LISTED[database.vendor])
        return {name for (name,) in cursor.fetchall()}


def gaps(database: BaseDatabaseWrapper) -> list[str]:
    """What database and models do not both have, one line each."""
    return [line for model in _models() for line in sorted(_gaps(database, model))]


def _models() -> Iterator:
    for app in APPS:
        yield from apps.get_app_config(app).get_models(include_auto_created=True)


def _gaps(database: BaseDatabaseWrapper, model) -> set[str]:
    meta, table = model._meta, model._meta.db_table
    with database.cursor() as cursor:
        described = database.introspection.get_table_description(cursor, table)
        constraints = database.introspection.get_constraints(cursor, table)
    fields = [field for field in meta.local_fields if not field.primary_key]
    related = [field for field in fields if field.is_relation]
    held = {
        *((column.name, bool(column.null_ok)) for column in described if column.name != meta.pk.column),
        *(name for name, constraint in constraints.items() if _named_by_us(name, constraint, table)),
        *((row["columns"][0], row["foreign_key"]) for row in constraints.values() if row["foreign_key"]),
    }
    wanted = {
        *((field.column, field.null) for field in fields),
        *(bound.name for bound in (*meta.constraints, *meta.indexes)),
        *((field.column, (_table(field), field.target_field.column)) for field in related),
    }
    unique = {tuple(row["columns"]) for row in constraints.values() if row["unique"]}
    lone = {(field.column,) for field in fields if field.unique}
    return {f"{table}: {difference}" for difference in (held ^ wanted) | (lone - unique)}


def _table(field) -> str:
    return field.target_field.model._meta.db_table


def _named_by_us(name: str, constraint: dict, table: str) -> bool:
    """What Django or the database names by itself begins with the table's name, or with two strokes."""
    own = name.startswith((f"{table}_", "__")) or constraint["foreign_key"] or constraint["primary_key"]
    return not own
