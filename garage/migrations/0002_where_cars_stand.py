"""Stations say whether a car stands in them; of those that every garage began with, three do."""

from django.db import migrations, models


def those_that_came_along(apps, schema_editor):
    stations = apps.get_model("garage", "Station").objects.using(schema_editor.connection.alias)
    stations.filter(slug__in=["bay", "driveway", "floor"]).update(stands=True)


class Migration(migrations.Migration):
    dependencies = [("garage", "0001_cars_and_people")]

    operations = [
        migrations.AddField(
            model_name="station",
            name="stands",
            field=models.BooleanField(default=False, verbose_name="a car stands in it"),
        ),
        migrations.RunPython(those_that_came_along, migrations.RunPython.noop),
    ]
