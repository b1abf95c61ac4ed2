"""A station freed while its car is stripped says by whom, when and why."""

import django.db.models.deletion
from django.db import migrations, models
from django.db.models import Q

FREED = Q(freed_at__isnull=False, freed_by__isnull=False) & ~Q(freed_because="")


class Migration(migrations.Migration):
    dependencies = [("builds", "0010_what_wears_by_use"), ("garage", "0006_may_sign_is_given")]

    operations = [
        migrations.AddField("stationhold", "freed_at", models.DateTimeField(blank=True, null=True)),
        migrations.AddField(
            "stationhold",
            "freed_by",
            models.ForeignKey(
                blank=True,
                null=True,
                on_delete=django.db.models.deletion.PROTECT,
                related_name="+",
                to="garage.membership",
            ),
        ),
        migrations.AddField("stationhold", "freed_because", models.CharField(blank=True, max_length=200)),
        migrations.AddConstraint(
            "stationhold",
            models.CheckConstraint(
                condition=Q(freed_because__length__gte=0, freed_because__length__lte=200),
                name="stationhold_freed_because_length",
            ),
        ),
        migrations.AddConstraint(
            "stationhold",
            models.CheckConstraint(
                condition=Q(freed_at=None, freed_by=None, freed_because="") | FREED,
                name="stationhold_freed_with_a_reason",
            ),
        ),
    ]
