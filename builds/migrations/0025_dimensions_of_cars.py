"""Dimensions of cars: their geometry as it was measured, by whom and when."""

import django.db.models.deletion
from django.db import migrations, models


class Migration(migrations.Migration):

    dependencies = [
        ('builds', '0024_nothing_opened'),
        ('garage', '0012_how_a_car_stood'),
    ]

    operations = [
        migrations.CreateModel(
            name='Dimension',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('figure', models.CharField(max_length=40)),
                ('typed', models.CharField(max_length=2000)),
                ('units', models.CharField(max_length=10)),
                ('at', models.DateTimeField()),
                ('by', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='+', to='garage.membership')),
                ('vehicle', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='dimensions', to='garage.vehicle')),
            ],
            options={
                'ordering': ['-at', '-pk'],
                'indexes': [models.Index(fields=['vehicle', '-at'], name='dimension_newest')],
                'constraints': [models.CheckConstraint(condition=models.Q(('figure__length__gte', 1), ('figure__length__lte', 40)), name='dimension_figure_length'), models.CheckConstraint(condition=models.Q(('typed__length__gte', 1), ('typed__length__lte', 2000)), name='dimension_typed_length'), models.CheckConstraint(condition=models.Q(('units__in', ['metric', 'imperial'])), name='dimension_units_known')],
            },
        ),
    ]
