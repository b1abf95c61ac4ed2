"""Calendars that phones subscribe to, and what each told last."""

import django.db.models.deletion
from django.db import migrations, models


class Migration(migrations.Migration):

    dependencies = [
        ('builds', '0025_dimensions_of_cars'),
        ('garage', '0012_how_a_car_stood'),
    ]

    operations = [
        migrations.CreateModel(
            name='CalendarFeed',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('whole', models.BooleanField(verbose_name='of the whole garage')),
                ('digest', models.CharField(max_length=64, unique=True)),
                ('tail', models.CharField(max_length=4)),
                ('made_at', models.DateTimeField()),
                ('changed_at', models.DateTimeField()),
                ('opened_at', models.DateTimeField(blank=True, null=True)),
                ('revoked_at', models.DateTimeField(blank=True, null=True)),
                ('member', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='calendars', to='garage.membership')),
            ],
            options={
                'ordering': ['-made_at', '-pk'],
            },
        ),
        migrations.CreateModel(
            name='CalendarTold',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('key', models.CharField(max_length=60)),
                ('uid', models.UUIDField()),
                ('starts', models.DateTimeField()),
                ('ends', models.DateTimeField()),
                ('day', models.DateField(blank=True, null=True)),
                ('jobs', models.JSONField(blank=True, default=list)),
                ('digest', models.CharField(max_length=64)),
                ('sequence', models.PositiveIntegerField(default=0)),
                ('changed_at', models.DateTimeField()),
                ('feed', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='told', to='builds.calendarfeed')),
            ],
            options={
                'ordering': ['pk'],
            },
        ),
        migrations.AddConstraint(
            model_name='calendarfeed',
            constraint=models.CheckConstraint(condition=models.Q(('digest__length__gte', 64), ('digest__length__lte', 64)), name='calendarfeed_digest_length'),
        ),
        migrations.AddConstraint(
            model_name='calendarfeed',
            constraint=models.CheckConstraint(condition=models.Q(('tail__length__gte', 4), ('tail__length__lte', 4)), name='calendarfeed_tail_length'),
        ),
        migrations.AddConstraint(
            model_name='calendartold',
            constraint=models.UniqueConstraint(fields=('feed', 'key'), name='calendartold_once'),
        ),
        migrations.AddConstraint(
            model_name='calendartold',
            constraint=models.CheckConstraint(condition=models.Q(('key__length__gte', 1), ('key__length__lte', 60)), name='calendartold_key_length'),
        ),
        migrations.AddConstraint(
            model_name='calendartold',
            constraint=models.CheckConstraint(condition=models.Q(('digest__length__gte', 64), ('digest__length__lte', 64)), name='calendartold_digest_length'),
        ),
        migrations.AddConstraint(
            model_name='calendartold',
            constraint=models.CheckConstraint(condition=models.Q(models.Q(('sequence__gte', 0), ('sequence__lte', 2147483647)), ('sequence__isnull', True), _connector='OR'), name='calendartold_sequence_range'),
        ),
    ]
