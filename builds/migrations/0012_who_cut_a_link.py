"""Who cut a link of the order of work, and when, for the log and the sheet."""

import django.db.models.deletion
from django.db import migrations, models


class Migration(migrations.Migration):

    dependencies = [
        ('builds', '0011_freed_stations'),
        ('garage', '0006_may_sign_is_given'),
    ]

    operations = [
        migrations.AddField(
            model_name='link',
            name='cut_at',
            field=models.DateTimeField(blank=True, null=True),
        ),
        migrations.AddField(
            model_name='link',
            name='cut_by',
            field=models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to='garage.membership'),
        ),
        migrations.AddConstraint(
            model_name='link',
            constraint=models.CheckConstraint(condition=models.Q(models.Q(('cut_at', None), ('cut_by', None)), models.Q(models.Q(('cut_because', ''), _negated=True), ('cut_at__isnull', False), ('cut_by__isnull', False)), _connector='OR'), name='link_cut_by_somebody'),
        ),
    ]
