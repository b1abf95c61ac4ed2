"""Devices signed in, a journal that the database itself keeps whole, and what guests of a shared page may do."""

import django.db.models.deletion
from django.conf import settings
from django.db import migrations, models

TABLES = ("garage_journalline", "garage_journaltie")


def forwards(apps, schema_editor):
    vendor = schema_editor.connection.vendor
    for table in TABLES:
        if vendor == "sqlite":
            for deed in ("UPDATE", "DELETE"):
                schema_editor.execute(
                    f"CREATE TRIGGER {table}_no_{deed.lower()} BEFORE {deed} ON {table} "
                    "BEGIN SELECT RAISE(ABORT, 'the journal is never changed or deleted'); END"
                )
        elif vendor == "postgresql":
            schema_editor.execute(
                f"CREATE FUNCTION {table}_stays() RETURNS trigger LANGUAGE plpgsql AS $$ "
                "BEGIN RAISE EXCEPTION 'the journal is never changed or deleted'; END $$"
            )
            schema_editor.execute(
                f"CREATE TRIGGER {table}_stays BEFORE UPDATE OR DELETE ON {table} "
                f"FOR EACH ROW EXECUTE FUNCTION {table}_stays()"
            )


def backwards(apps, schema_editor):
    vendor = schema_editor.connection.vendor
    for table in TABLES:
        if vendor == "sqlite":
            for deed in ("update", "delete"):
                schema_editor.execute(f"DROP TRIGGER IF EXISTS {table}_no_{deed}")
        elif vendor == "postgresql":
            schema_editor.execute(f"DROP FUNCTION IF EXISTS {table}_stays() CASCADE")


class Migration(migrations.Migration):

    dependencies = [
        ('garage', '0023_people_erased'),
    ]

    operations = [
        migrations.CreateModel(
            name='Device',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('session_key', models.CharField(max_length=40, unique=True)),
                ('kind', models.CharField(default='unknown', max_length=10)),
                ('words', models.CharField(blank=True, max_length=60)),
                ('signed_in_at', models.DateTimeField()),
                ('seen_at', models.DateTimeField()),
            ],
        ),
        migrations.CreateModel(
            name='JournalLine',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('guest', models.CharField(blank=True, max_length=60)),
                ('at', models.DateTimeField()),
                ('device', models.CharField(default='unknown', max_length=10)),
                ('act', models.CharField(max_length=40)),
                ('said', models.CharField(blank=True, max_length=500)),
            ],
            options={
                'ordering': ['-at', '-pk'],
            },
        ),
        migrations.CreateModel(
            name='JournalTie',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('kind', models.CharField(max_length=20)),
                ('of', models.PositiveBigIntegerField()),
            ],
            options={
                'ordering': ['pk'],
            },
        ),
        migrations.RemoveConstraint(
            model_name='share',
            name='share_of_one_thing',
        ),
        migrations.AddField(
            model_name='share',
            name='calendar',
            field=models.BooleanField(default=False, verbose_name='the days ahead'),
        ),
        migrations.AddField(
            model_name='share',
            name='may_comment',
            field=models.BooleanField(default=False, verbose_name='may comment'),
        ),
        migrations.AddField(
            model_name='share',
            name='may_tick',
            field=models.JSONField(blank=True, default=list, verbose_name='jobs that may be ticked'),
        ),
        migrations.AddConstraint(
            model_name='share',
            constraint=models.CheckConstraint(condition=models.Q(('vehicle__isnull', True), ('event__isnull', True), _connector='OR'), name='share_of_one_thing'),
        ),
        migrations.AddField(
            model_name='device',
            name='person',
            field=models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='devices', to=settings.AUTH_USER_MODEL),
        ),
        migrations.AddField(
            model_name='journalline',
            name='garage',
            field=models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='journal', to='garage.garage'),
        ),
        migrations.AddField(
            model_name='journalline',
            name='member',
            field=models.ForeignKey(null=True, on_delete=django.db.models.deletion.PROTECT, related_name='journal', to='garage.membership'),
        ),
        migrations.AddField(
            model_name='journaltie',
            name='line',
            field=models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='ties', to='garage.journalline'),
        ),
        migrations.AddConstraint(
            model_name='device',
            constraint=models.CheckConstraint(condition=models.Q(('kind__in', ['phone', 'tablet', 'computer', 'unknown'])), name='device_kind_known'),
        ),
        migrations.AddConstraint(
            model_name='device',
            constraint=models.CheckConstraint(condition=models.Q(('words__length__gte', 0), ('words__length__lte', 60)), name='device_words_length'),
        ),
        migrations.AddConstraint(
            model_name='device',
            constraint=models.CheckConstraint(condition=models.Q(('session_key__length__gte', 1), ('session_key__length__lte', 40)), name='device_session_key_length'),
        ),
        migrations.AddIndex(
            model_name='journalline',
            index=models.Index(fields=['garage', '-at'], name='journal_by_day'),
        ),
        migrations.AddConstraint(
            model_name='journalline',
            constraint=models.CheckConstraint(condition=models.Q(('device__in', ['phone', 'tablet', 'computer', 'unknown'])), name='journalline_device_known'),
        ),
        migrations.AddConstraint(
            model_name='journalline',
            constraint=models.CheckConstraint(condition=models.Q(('guest__length__gte', 0), ('guest__length__lte', 60)), name='journalline_guest_length'),
        ),
        migrations.AddConstraint(
            model_name='journalline',
            constraint=models.CheckConstraint(condition=models.Q(('act__length__gte', 1), ('act__length__lte', 40)), name='journalline_act_length'),
        ),
        migrations.AddConstraint(
            model_name='journalline',
            constraint=models.CheckConstraint(condition=models.Q(('said__length__gte', 0), ('said__length__lte', 500)), name='journalline_said_length'),
        ),
        migrations.AddIndex(
            model_name='journaltie',
            index=models.Index(fields=['kind', 'of'], name='journal_by_thing'),
        ),
        migrations.AddConstraint(
            model_name='journaltie',
            constraint=models.CheckConstraint(condition=models.Q(('kind__length__gte', 1), ('kind__length__lte', 20)), name='journaltie_kind_length'),
        ),
        migrations.RunPython(forwards, backwards),
    ]
