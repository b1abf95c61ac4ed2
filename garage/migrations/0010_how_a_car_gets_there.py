"""How a car gets to its event, and what takes it."""

import django.db.models.deletion
from django.db import migrations, models


class Migration(migrations.Migration):

    dependencies = [
        ('garage', '0009_who_goes_to_an_event'),
    ]

    operations = [
        migrations.AddField(
            model_name='entry',
            name='tow',
            field=models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.SET_NULL, related_name='takes', to='garage.vehicle', verbose_name='what takes it'),
        ),
        migrations.AddField(
            model_name='entry',
            name='trailer',
            field=models.CharField(blank=True, default='', max_length=40, verbose_name='which trailer'),
        ),
        migrations.AddField(
            model_name='entry',
            name='travels',
            field=models.CharField(blank=True, choices=[('driven', 'driven on the road'), ('trailer', 'on a trailer'), ('van', 'in a van')], default='', max_length=10, verbose_name='how it gets there'),
        ),
        migrations.AddConstraint(
            model_name='entry',
            constraint=models.CheckConstraint(condition=models.Q(('travels__in', ['', 'driven', 'trailer', 'van'])), name='entry_travels_known'),
        ),
        migrations.AddConstraint(
            model_name='entry',
            constraint=models.CheckConstraint(condition=models.Q(('trailer__length__gte', 0), ('trailer__length__lte', 40)), name='entry_trailer_length'),
        ),
        migrations.AddConstraint(
            model_name='entry',
            constraint=models.CheckConstraint(condition=models.Q(('trailer', ''), ('travels', 'trailer'), _connector='OR'), name='entry_trailer_of_one_on_a_trailer'),
        ),
        migrations.AddConstraint(
            model_name='entry',
            constraint=models.CheckConstraint(condition=models.Q(('tow', None), models.Q(('travels__in', ['trailer', 'van']), models.Q(('tow', models.F('vehicle')), _negated=True)), _connector='OR'), name='entry_taken_by_another'),
        ),
    ]
