"""A job that was lowered keeps the mark that it was a safety job."""

from django.db import migrations, models


def those_with_a_reason(apps, schema_editor):
    jobs = apps.get_model("builds", "Job").objects.using(schema_editor.connection.alias)
    jobs.exclude(lowered_because="").exclude(rank="safety").update(was_safety=True)


class Migration(migrations.Migration):

    dependencies = [
        ('builds', '0008_kinds_asked_at_the_finish'),
    ]

    operations = [
        migrations.AddField(
            model_name='job',
            name='was_safety',
            field=models.BooleanField(default=False, verbose_name='was a safety job until it was lowered'),
        ),
        migrations.RunPython(those_with_a_reason, migrations.RunPython.noop),
    ]
