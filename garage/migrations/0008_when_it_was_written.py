"""A garage knows when it was last written in: what takes long waits for a quiet minute."""

from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies = [("garage", "0007_when_gear_was_made")]

    operations = [
        migrations.AddField(
            model_name="garage",
            name="written_at",
            field=models.DateTimeField(editable=False, null=True),
        ),
    ]
