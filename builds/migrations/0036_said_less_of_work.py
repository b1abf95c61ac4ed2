"""What is taken off what is said of work stands beside it, and so does what nobody could read in what was seen."""

from django.db import migrations, models


class Migration(migrations.Migration):

    dependencies = [
        ('builds', '0035_comments_ticks_news'),
    ]

    operations = [
        migrations.AddField(
            model_name='job',
            name='not_opened',
            field=models.JSONField(blank=True, default=list, verbose_name='kinds that were likely or said, and were not done'),
        ),
        migrations.AddField(
            model_name='job',
            name='not_touched',
            field=models.JSONField(blank=True, default=list, verbose_name='systems that were said, and were not touched'),
        ),
        migrations.AddField(
            model_name='job',
            name='was_unread',
            field=models.BooleanField(default=False, verbose_name='seen, and its first words named nothing'),
        ),
        migrations.AddField(
            model_name='job',
            name='turned_out',
            field=models.CharField(blank=True, max_length=200, verbose_name='what it was, by the word of the owner'),
        ),
        migrations.AddConstraint(
            model_name='job',
            constraint=models.CheckConstraint(
                condition=models.Q(("turned_out__length__gte", 0), ("turned_out__length__lte", 200)), name='job_turned_out_length'
            ),
        ),
    ]
