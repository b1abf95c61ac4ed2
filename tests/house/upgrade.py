"""A garage of an earlier version brought up to date and used, by a process of its own: prints JSON.

A process of its own because it has a database of its own, which `DATA_DIR` names.
"""

import json
from datetime import UTC, datetime
from io import StringIO
from typing import Any

import django
from django.conf import settings
from django.core.management import call_command
from django.db import DatabaseError, connection
from django.db.migrations.executor import MigrationExecutor
from django.test.utils import setup_test_environment

LATER = datetime(2026, 11, 29, 18, 0, tzinfo=UTC)  # the evening of the day it was made
LEDGER = (
    "UPDATE parts_move SET quantity = 1",
    "DELETE FROM parts_move",
    "INSERT OR REPLACE INTO parts_move SELECT * FROM parts_move",
)


def rows() -> dict[str, int]:
    """How many rows each table of ours has."""
    with connection.cursor() as cursor:
        tables = [name for name in connection.introspection.table_names(cursor) if not name.startswith("django_")]
        counted = {}
        for table in tables:
            cursor.execute(f"SELECT COUNT(*) FROM {table}")  # noqa: S608 (a table's own name)
            counted[table] = cursor.fetchone()[0]
    return counted


def pending() -> list[str]:
    executor = MigrationExecutor(connection)
    return [str(migration) for migration, _ in executor.migration_plan(executor.loader.graph.leaf_nodes())]


def pages(client) -> dict[str, int]:
    """The status of every kind of page that shows what was kept."""
    from builds.models import Job
    from garage.models import Event, Vehicle
    from parts.models import Part, Place

    paths = [
        "/",
        "/plan/",
        "/shelf/",
        "/cars/",
        "/events/",
        "/people/",
        "/stations/",
        "/shop/",
        "/products/",
        "/places/",
    ]
    for car in Vehicle.objects.all():
        paths += [f"/cars/{car.pk}/", f"/cars/{car.pk}/joints/", f"/cars/{car.pk}/readings/"]
    paths += [f"/jobs/{job.pk}/" for job in Job.objects.all()[:12]]
    paths += [f"/events/{event.pk}/" for event in Event.objects.all()]
    paths += [f"/parts/{part.pk}/" for part in Part.objects.all()[:5]]
    paths += [f"/places/{place.pk}/" for place in Place.objects.filter(kind="shelf")]
    return {path: client.get(path).status_code for path in paths}


def writes(client) -> dict[str, Any]:
    """A job begun and a part pulled."""
    from builds.models import Job
    from parts.models import Balance, Move

    job = Job.objects.filter(state="open", skill=None).first()
    client.press(f"/jobs/{job.pk}/start/")
    job.refresh_from_db()
    held = Balance.objects.filter(place__kind="bin", quantity__gte=2, part__single=False).first()
    client.press(f"/parts/{held.part_id}/move/pull/", {"quantity": 1, "source": held.place_id})
    left = Balance.objects.get(pk=held.pk).quantity
    return {"job": job.state, "taken": held.quantity - left, "verb": Move.objects.order_by("pk").last().verb}


def refused() -> list[bool]:
    """Whether the database refuses each way of changing the ledger."""
    answers = []
    for statement in LEDGER:
        try:
            with connection.cursor() as cursor:
                cursor.execute(statement)
        except DatabaseError as error:
            answers.append("moves are never changed or deleted" in str(error))
        else:
            answers.append(False)
    return answers


def run() -> dict[str, Any]:
    from garage import clock
    from garage.models import Membership
    from tests.conftest import signed_in
    from tests.house.schema import TRIGGERS, gaps, triggers

    clock.now = lambda: LATER
    found: dict[str, Any] = {"before": rows()}
    call_command("migrate", skip_checks=False, verbosity=0)
    found |= {"after": rows(), "pending": pending(), "gaps": gaps(connection)}
    found["guarded"] = triggers(connection) == TRIGGERS[connection.vendor]
    client = signed_in(Membership.objects.get(person__name="Ines"))
    found |= {"pages": pages(client), "writes": writes(client), "refused": refused()}
    out = StringIO()
    call_command("check_ledger", stdout=out)
    return found | {"ledger": out.getvalue().strip()}


if __name__ == "__main__":
    django.setup()
    setup_test_environment(debug=False)
    settings.STORAGES["staticfiles"] = {"BACKEND": "django.contrib.staticfiles.storage.StaticFilesStorage"}
    print(json.dumps(run()))
