"""Links by which somebody without an account says when he can come, and what was said."""

import django.db.models.deletion
from django.db import migrations, models


class Migration(migrations.Migration):

    dependencies = [
        ('garage', '0012_how_a_car_stood'),
    ]

    operations = [
        migrations.CreateModel(
            name='VisitLink',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('name', models.CharField(blank=True, max_length=60)),
                ('digest', models.CharField(max_length=64, unique=True)),
                ('tail', models.CharField(max_length=4)),
                ('made_at', models.DateTimeField()),
                ('expires_at', models.DateTimeField()),
                ('opened_at', models.DateTimeField(blank=True, null=True)),
                ('revoked_at', models.DateTimeField(blank=True, null=True)),
                ('garage', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='visit_links', to='garage.garage')),
                ('made_by', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='+', to='garage.membership')),
                ('member', models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.CASCADE, related_name='visit_links', to='garage.membership')),
                ('parent', models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.CASCADE, related_name='guests', to='garage.visitlink')),
            ],
            options={
                'ordering': ['-made_at', '-pk'],
            },
        ),
        migrations.CreateModel(
            name='Visit',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('day', models.DateField()),
                ('from_minute', models.PositiveSmallIntegerField()),
                ('until_minute', models.PositiveSmallIntegerField()),
                ('state', models.CharField(choices=[('waiting', 'waits for a yes'), ('taken', 'counts'), ('refused', 'not this time'), ('withdrawn', 'cannot come after all')], default='waiting', max_length=10)),
                ('said_at', models.DateTimeField()),
                ('link', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='visits', to='garage.visitlink')),
            ],
            options={
                'ordering': ['day', 'pk'],
            },
        ),
        migrations.AddConstraint(
            model_name='visitlink',
            constraint=models.CheckConstraint(condition=models.Q(('name__length__gte', 0), ('name__length__lte', 60)), name='visitlink_name_length'),
        ),
        migrations.AddConstraint(
            model_name='visitlink',
            constraint=models.CheckConstraint(condition=models.Q(('digest__length__gte', 64), ('digest__length__lte', 64)), name='visitlink_digest_length'),
        ),
        migrations.AddConstraint(
            model_name='visitlink',
            constraint=models.CheckConstraint(condition=models.Q(('tail__length__gte', 4), ('tail__length__lte', 4)), name='visitlink_tail_length'),
        ),
        migrations.AddConstraint(
            model_name='visitlink',
            constraint=models.CheckConstraint(condition=models.Q(models.Q(('name', ''), ('parent', None)), models.Q(models.Q(('parent', None), _negated=True), models.Q(('name', ''), _negated=True)), _connector='OR'), name='visitlink_guest_has_a_name'),
        ),
        migrations.AddConstraint(
            model_name='visit',
            constraint=models.UniqueConstraint(fields=('link', 'day'), name='visit_once_a_day'),
        ),
        migrations.AddConstraint(
            model_name='visit',
            constraint=models.CheckConstraint(condition=models.Q(('state__in', ['waiting', 'taken', 'refused', 'withdrawn'])), name='visit_state_known'),
        ),
        migrations.AddConstraint(
            model_name='visit',
            constraint=models.CheckConstraint(condition=models.Q(models.Q(('until_minute__gte', 1), ('until_minute__lte', 1440)), ('until_minute__isnull', True), _connector='OR'), name='visit_until_minute_range'),
        ),
        migrations.AddConstraint(
            model_name='visit',
            constraint=models.CheckConstraint(condition=models.Q(('from_minute__lt', models.F('until_minute'))), name='visit_from_minute_before_until_minute'),
        ),
    ]
