"""In which night of an event a job is done in the paddock."""

import django.db.models.deletion
from django.db import migrations, models


class Migration(migrations.Migration):

    dependencies = [
        ('garage', '0011_nights_at_an_event'),
        ('builds', '0017_days_a_part_takes'),
    ]

    operations = [
        migrations.AddField(
            model_name='job',
            name='night',
            field=models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.SET_NULL, related_name='jobs', to='garage.night', verbose_name='done overnight, in the paddock'),
        ),
    ]
