"""What somebody saw is told from what is only planned, and what a job said before it was called otherwise is kept."""

from django.db import migrations, models


class Migration(migrations.Migration):

    dependencies = [
        ('builds', '0032_who_changed_gear'),
    ]

    operations = [
        migrations.AddField(
            model_name='job',
            name='seen',
            field=models.BooleanField(default=False, verbose_name='somebody saw it, and it is not only planned'),
        ),
        migrations.AddField(
            model_name='job',
            name='was_called',
            field=models.CharField(blank=True, max_length=120, verbose_name='what it said before it was called otherwise'),
        ),
        migrations.AddConstraint(
            model_name='job',
            constraint=models.CheckConstraint(
                condition=models.Q(("was_called__length__gte", 0), ("was_called__length__lte", 120)), name='job_was_called_length'
            ),
        ),
    ]
