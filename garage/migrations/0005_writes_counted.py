"""A garage counts its writes, so that what rests on it knows at a glance whether it may have changed."""

from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies = [("garage", "0004_invented_garages")]

    operations = [
        migrations.AddField(
            model_name="garage",
            name="writes",
            field=models.PositiveBigIntegerField(default=0, verbose_name="writes so far"),
        ),
    ]
