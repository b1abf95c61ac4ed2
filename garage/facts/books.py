"""The tables of a database at the migrations that it has, as a backup carries them."""

from collections.abc import Collection, Iterator
from typing import Any

from django.db import connections, models
from django.db.migrations.loader import MigrationLoader

from garage.engine.backup.left_out import LEFT_OUT

KINDS = {
    "boolean": ("BooleanField",),
    "text": ("CharField", "TextField", "SlugField", "EmailField", "URLField", "GenericIPAddressField"),
    "json": ("JSONField",),
    "float": ("FloatField",),
    "decimal": ("DecimalField",),
    "date": ("DateField",),
    "time": ("TimeField",),
    "moment": ("DateTimeField",),
    "duration": ("DurationField",),
    "uuid": ("UUIDField",),
    "bytes": ("BinaryField",),
    "integer": (
        *("AutoField", "BigAutoField", "SmallAutoField", "IntegerField", "BigIntegerField", "SmallIntegerField"),
        *("PositiveIntegerField", "PositiveBigIntegerField", "PositiveSmallIntegerField"),
    ),
}
KIND_OF = {field: kind for kind, fields in KINDS.items() for field in fields}
AT_ONCE = 2000


class Books:
    """`models` by table, as they were at these migrations; `migrations` as (app, name)."""

    def __init__(self, using: str, *, without: Collection[str] = LEFT_OUT) -> None:
        loader = MigrationLoader(connections[using])
        self.migrations = sorted(node for node in loader.applied_migrations if node in loader.graph.nodes)
        then = loader.project_state(self.migrations).apps.get_models(include_auto_created=True)
        self.models = {
            model._meta.db_table: model
            for model in sorted(then, key=lambda model: model._meta.db_table)
            if model._meta.db_table not in without and model._meta.managed and not model._meta.proxy
        }


def columns(model: type[models.Model]) -> dict[str, str]:
    """The kind of each column, in the order in which rows are read and written."""
    return {field.column: _kind(field) for field in model._meta.local_concrete_fields}


def _kind(field: Any) -> str:
    while field.remote_field:
        field = field.target_field
    return KIND_OF[field.get_internal_type()]


def rows(model: type[models.Model], using: str) -> Iterator[tuple[Any, ...]]:
    names = [field.attname for field in model._meta.local_concrete_fields]
    return model._base_manager.using(using).order_by("pk").values_list(*names).iterator(chunk_size=AT_ONCE)


def has_rows(using: str, *, without: Collection[str] = LEFT_OUT) -> bool:
    """Whether any table of ours holds one; a database without tables holds none."""
    return any(model._base_manager.using(using).exists() for model in Books(using, without=without).models.values())
