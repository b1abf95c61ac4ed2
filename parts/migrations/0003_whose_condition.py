"""Who last said that a part is in another condition, and when."""

import django.db.models.deletion
from django.db import migrations, models


class Migration(migrations.Migration):

    dependencies = [
        ('garage', '0022_what_a_share_shows'),
        ('parts', '0002_moves_stay'),
    ]

    operations = [
        migrations.AddField(
            model_name='part',
            name='condition_at',
            field=models.DateTimeField(blank=True, null=True, verbose_name='when its condition was last said to be another'),
        ),
        migrations.AddField(
            model_name='part',
            name='condition_by',
            field=models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to='garage.membership'),
        ),
    ]
