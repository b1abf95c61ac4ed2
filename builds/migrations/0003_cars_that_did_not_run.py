"""That an entered car did not run is an answer of its own."""

from django.db import migrations, models


class Migration(migrations.Migration):

    dependencies = [
        ('builds', '0002_order_of_work'),
    ]

    operations = [
        migrations.AddField(
            model_name='entryrun',
            name='ran',
            field=models.BooleanField(default=True),
        ),
        migrations.AddConstraint(
            model_name='entryrun',
            constraint=models.CheckConstraint(condition=models.Q(('ran', True), models.Q(('job', None), ('stripped', None)), _connector='OR'), name='entryrun_nothing_follows_what_did_not_run'),
        ),
    ]
