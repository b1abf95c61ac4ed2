"""The database itself refuses to change or delete a move."""

from django.db import migrations

TABLE = "parts_move"


def forwards(apps, schema_editor):
    vendor = schema_editor.connection.vendor
    if vendor == "sqlite":
        for deed in ("UPDATE", "DELETE"):
            schema_editor.execute(
                f"CREATE TRIGGER {TABLE}_no_{deed.lower()} BEFORE {deed} ON {TABLE} "
                "BEGIN SELECT RAISE(ABORT, 'moves are never changed or deleted'); END"
            )
    elif vendor == "postgresql":
        schema_editor.execute(
            f"CREATE FUNCTION {TABLE}_stays() RETURNS trigger LANGUAGE plpgsql AS $$ "
            "BEGIN RAISE EXCEPTION 'moves are never changed or deleted'; END $$"
        )
        schema_editor.execute(
            f"CREATE TRIGGER {TABLE}_stays BEFORE UPDATE OR DELETE ON {TABLE} "
            f"FOR EACH ROW EXECUTE FUNCTION {TABLE}_stays()"
        )
        schema_editor.execute(
            f"CREATE TRIGGER {TABLE}_stays_whole BEFORE TRUNCATE ON {TABLE} "
            f"FOR EACH STATEMENT EXECUTE FUNCTION {TABLE}_stays()"
        )


def backwards(apps, schema_editor):
    vendor = schema_editor.connection.vendor
    if vendor == "sqlite":
        for deed in ("update", "delete"):
            schema_editor.execute(f"DROP TRIGGER IF EXISTS {TABLE}_no_{deed}")
    elif vendor == "postgresql":
        schema_editor.execute(f"DROP FUNCTION IF EXISTS {TABLE}_stays() CASCADE")


class Migration(migrations.Migration):
    dependencies = [("parts", "0001_parts_and_places")]
    operations = [migrations.RunPython(forwards, backwards)]
