"""Jobs by their end and by what they came with, and points that nobody has signed, are found without reading all."""

from django.db import migrations, models
from django.db.models import Q


class Migration(migrations.Migration):

    dependencies = [
        ('builds', '0018_jobs_overnight'),
    ]

    operations = [
        migrations.AddIndex(
            model_name='job',
            index=models.Index(fields=['vehicle', 'finished_at'], name='job_by_end'),
        ),
        migrations.AddIndex(
            model_name='job',
            index=models.Index(fields=['batch'], name='job_of_batch'),
        ),
        migrations.AddIndex(
            model_name='holdpoint',
            index=models.Index(condition=Q(('signed_at', None)), fields=['job'], name='holdpoint_unsigned'),
        ),
    ]
