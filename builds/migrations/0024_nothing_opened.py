"""Why the work of a safety job opened nothing is kept in words."""

from django.db import migrations, models


class Migration(migrations.Migration):

    dependencies = [
        ('builds', '0021_sums_kept'),
    ]

    operations = [
        migrations.AddField(
            model_name='job',
            name='nothing_because',
            field=models.CharField(blank=True, max_length=200, verbose_name='why its work opened nothing'),
        ),
        migrations.AddConstraint(
            model_name='job',
            constraint=models.CheckConstraint(
                condition=models.Q(("nothing_because__length__gte", 0), ("nothing_because__length__lte", 200)), name='job_nothing_because_length'
            ),
        ),
    ]
