"""A plan knows up to which write and which moment it is true, and which session begins under it."""

from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies = [("builds", "0005_limits_of_readings")]

    operations = [
        migrations.AddField(
            model_name="plan",
            name="writes",
            field=models.PositiveBigIntegerField(default=0),
        ),
        migrations.AddField(
            model_name="plan",
            name="stands_until",
            field=models.DateTimeField(null=True),
        ),
        migrations.AddField(
            model_name="plan",
            name="session_at",
            field=models.DateTimeField(null=True),
        ),
    ]
