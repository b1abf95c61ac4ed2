"""A car that is taken apart remembers how it stood, to stand so again once its wheels are on."""

from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies = [("garage", "0011_nights_at_an_event")]

    operations = [
        migrations.AddField(
            model_name="vehicle",
            name="stood",
            field=models.CharField(
                blank=True, default="", max_length=10, verbose_name="how it stood before it was taken apart"
            ),
        ),
        migrations.AddConstraint(
            model_name="vehicle",
            constraint=models.CheckConstraint(
                condition=models.Q(stood__in=["", "driveable", "rolling"]), name="vehicle_stood_known"
            ),
        ),
    ]
