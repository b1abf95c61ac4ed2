"""Who was erased from a garage, when and by whom."""

import django.db.models.deletion
from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies = [("garage", "0022_what_a_share_shows")]

    operations = [
        migrations.AddField(
            model_name="membership",
            name="erased_at",
            field=models.DateTimeField(blank=True, null=True),
        ),
        migrations.AddField(
            model_name="membership",
            name="erased_by",
            field=models.ForeignKey(
                blank=True,
                null=True,
                on_delete=django.db.models.deletion.PROTECT,
                related_name="+",
                to="garage.membership",
            ),
        ),
        migrations.AddConstraint(
            model_name="membership",
            constraint=models.CheckConstraint(
                condition=models.Q(("erased_at", None), ("erased_by", None))
                | models.Q(("erased_at__isnull", False), ("erased_by__isnull", False), ("left_at__isnull", False)),
                name="membership_erased_by_somebody",
            ),
        ),
    ]
