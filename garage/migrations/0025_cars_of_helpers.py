"""The cars that somebody works on, and those that he may pull parts from: every one unless the owner says which."""

from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies = [("garage", "0024_what_guests_and_devices_do")]

    operations = [
        migrations.AddField(
            "membership", "every_car", models.BooleanField(default=True, verbose_name="works on every car")
        ),
        migrations.AddField(
            "membership", "cars", models.ManyToManyField(blank=True, related_name="worked_on_by", to="garage.vehicle")
        ),
        migrations.AddField(
            "membership",
            "every_donor",
            models.BooleanField(default=True, verbose_name="may pull parts from every car"),
        ),
        migrations.AddField(
            "membership",
            "donors",
            models.ManyToManyField(blank=True, related_name="pulled_from_by", to="garage.vehicle"),
        ),
    ]
