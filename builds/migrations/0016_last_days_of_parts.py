"""Until when parts may come, kept beside the plan."""

from django.db import migrations, models


class Migration(migrations.Migration):

    dependencies = [
        ('builds', '0015_readings_of_stripped_cars'),
    ]

    operations = [
        migrations.AddField(
            model_name='plan',
            name='last_days',
            field=models.JSONField(null=True),
        ),
    ]
