"""Sums that were kept on a car."""

import django.db.models.deletion
from django.db import migrations, models


class Migration(migrations.Migration):

    dependencies = [
        ('builds', '0020_few_among_many'),
        ('garage', '0012_how_a_car_stood'),
    ]

    operations = [
        migrations.CreateModel(
            name='KeptSum',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('name', models.CharField(max_length=40)),
                ('units', models.CharField(max_length=10)),
                ('typed', models.JSONField(default=dict)),
                ('said', models.JSONField(default=list)),
                ('warnings', models.JSONField(blank=True, default=list)),
                ('at', models.DateTimeField()),
                ('by', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='+', to='garage.membership')),
                ('vehicle', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='kept_sums', to='garage.vehicle')),
            ],
            options={
                'ordering': ['-at', '-pk'],
                'indexes': [models.Index(fields=['vehicle', '-at'], name='keptsum_newest')],
                'constraints': [models.CheckConstraint(condition=models.Q(('name__length__gte', 1), ('name__length__lte', 40)), name='keptsum_name_length'), models.CheckConstraint(condition=models.Q(('units__in', ['metric', 'imperial'])), name='keptsum_units_known')],
            },
        ),
    ]
