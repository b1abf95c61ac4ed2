"""The tables of a database at the migrations that it has: what a backup carries, and what it leaves out.

Left out is what belongs to the machine and not to the garage. Receipts are carried: a phone that comes
back with writes it made without signal would else have them counted twice. So are the digests of share
links, which tell no link, and the digests of passwords, without which nobody could sign in.
"""

from collections.abc import Iterator
from typing import Any

from django.db import connections, models
from django.db.migrations.loader import MigrationLoader

LEFT_OUT = {
    "django_session": "who is signed in: a session copied is a door left open, and everybody can sign in anew",
    "garage_signinlink": "one-time sign-in links: they last a day at most, and a new one is made in one tap",
    "garage_tries": "counted tries at the door, by digests of addresses: they serve this machine, these days",
    "django_tasks_database_dbtaskresult": "what was to be done beside the server: it is begun anew as it is wanted",
    "django_content_type": "written anew by the migrations",
    "auth_permission": "written anew by the migrations",
    "auth_group": "not used: roles are memberships",
    "auth_group_permissions": "not used: roles are memberships",
}
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

    def __init__(self, using: str) -> None:
        loader = MigrationLoader(connections[using])
        self.migrations = sorted(node for node in loader.applied_migrations if node in loader.graph.nodes)
        then = loader.project_state(self.migrations).apps.get_models(include_auto_created=True)
        self.models = {
            model._meta.db_table: model
            for model in sorted(then, key=lambda model: model._meta.db_table)
            if model._meta.db_table not in LEFT_OUT and model._meta.managed and not model._meta.proxy
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


def has_rows(using: str) -> bool:
    """Whether any table of ours holds one; a database without tables holds none."""
    return any(model._base_manager.using(using).exists() for model in Books(using).models.values())
