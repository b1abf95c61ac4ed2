"""Why a car is as it was after work on it was begun and dropped."""

from django.db import migrations, models


class Migration(migrations.Migration):

    dependencies = [
        ('builds', '0013_odds_beside_plans'),
    ]

    operations = [
        migrations.AddField(
            model_name='job',
            name='whole_because',
            field=models.CharField(blank=True, default='', max_length=200, verbose_name='why the car is as it was, dropped half done'),
            preserve_default=False,
        ),
        migrations.AddConstraint(
            model_name='job',
            constraint=models.CheckConstraint(condition=models.Q(('whole_because__length__gte', 0), ('whole_because__length__lte', 200)), name='job_whole_because_length'),
        ),
    ]
