"""What few rows of many have, and the last mark of a joint, is found by an index of those alone."""

from django.db import migrations, models


class Migration(migrations.Migration):

    dependencies = [
        ('builds', '0019_found_by_index'),
        ('garage', '0008_when_it_was_written'),
    ]

    operations = [
        migrations.RemoveIndex(
            model_name='jointmark',
            name='joint_mark_newest',
        ),
        migrations.AddIndex(
            model_name='holdpoint',
            index=models.Index(condition=models.Q(('alone', True)), fields=['job'], name='holdpoint_alone'),
        ),
        migrations.AddIndex(
            model_name='job',
            index=models.Index(condition=models.Q(('signed_alone', True)), fields=['vehicle'], name='job_signed_alone'),
        ),
        migrations.AddIndex(
            model_name='job',
            index=models.Index(condition=models.Q(('weld', ''), _negated=True), fields=['vehicle'], name='job_of_weld'),
        ),
        migrations.AddIndex(
            model_name='jointmark',
            index=models.Index(condition=models.Q(('signs', None)), fields=['joint', '-at', '-id'], name='joint_mark_newest'),
        ),
        migrations.AddIndex(
            model_name='jointmark',
            index=models.Index(condition=models.Q(('alone', True)), fields=['joint'], name='joint_mark_alone'),
        ),
    ]
