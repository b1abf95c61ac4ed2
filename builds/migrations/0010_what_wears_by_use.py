"""Gear that wears by use: how long it lasts, and the jobs that renew it."""

import django.db.models.deletion
from django.db import migrations, models


class Migration(migrations.Migration):

    dependencies = [
        ('builds', '0009_jobs_that_were_safety'),
        ('garage', '0007_when_gear_was_made'),
    ]

    operations = [
        migrations.CreateModel(
            name='Renewal',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('gear', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='renewals', to='garage.gear')),
                ('job', models.OneToOneField(on_delete=django.db.models.deletion.CASCADE, related_name='renewal', to='builds.job')),
            ],
        ),
        migrations.CreateModel(
            name='UseLife',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('runs', models.PositiveSmallIntegerField(blank=True, null=True)),
                ('minutes', models.PositiveIntegerField(blank=True, null=True)),
                ('run_minutes', models.PositiveSmallIntegerField(blank=True, null=True)),
                ('months', models.PositiveSmallIntegerField(blank=True, null=True)),
                ('since', models.DateTimeField()),
                ('gear', models.OneToOneField(on_delete=django.db.models.deletion.CASCADE, related_name='use_life', to='garage.gear')),
            ],
            options={
                'constraints': [models.CheckConstraint(condition=models.Q(models.Q(('runs__gte', 1), ('runs__lte', 999)), ('runs__isnull', True), _connector='OR'), name='uselife_runs_range'), models.CheckConstraint(condition=models.Q(models.Q(('minutes__gte', 1), ('minutes__lte', 60000)), ('minutes__isnull', True), _connector='OR'), name='uselife_minutes_range'), models.CheckConstraint(condition=models.Q(models.Q(('run_minutes__gte', 1), ('run_minutes__lte', 1440)), ('run_minutes__isnull', True), _connector='OR'), name='uselife_run_minutes_range'), models.CheckConstraint(condition=models.Q(models.Q(('months__gte', 1), ('months__lte', 360)), ('months__isnull', True), _connector='OR'), name='uselife_months_range'), models.CheckConstraint(condition=models.Q(models.Q(('minutes', None), ('run_minutes', None)), models.Q(('minutes__isnull', False), ('run_minutes__isnull', False)), _connector='OR'), name='uselife_hours_with_length_of_a_run'), models.CheckConstraint(condition=models.Q(('runs__isnull', False), ('minutes__isnull', False), ('months__isnull', False), _connector='OR'), name='uselife_ends_somehow')],
            },
        ),
    ]
