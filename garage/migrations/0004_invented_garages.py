"""A garage says whether it is the demo, so that whoever looked round in it can leave it."""

from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies = [("garage", "0003_entries_withdrawn")]

    operations = [
        migrations.AddField(
            model_name="garage",
            name="invented",
            field=models.BooleanField(default=False, verbose_name="nothing in it is real"),
        ),
    ]
