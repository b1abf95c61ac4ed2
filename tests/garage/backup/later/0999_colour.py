"""Each garage gets a colour."""

from pathlib import Path

from django.db import migrations, models

from garage import migrations as so_far

BEFORE = max(file.stem for file in Path(so_far.__file__).parent.glob("[0-9]*.py"))


class Migration(migrations.Migration):
    dependencies = [("garage", BEFORE)]
    operations = [migrations.AddField("garage", "colour", models.CharField(max_length=20, db_default="green"))]
