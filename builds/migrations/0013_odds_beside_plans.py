"""The odds of a plan, kept beside it."""

from django.db import migrations, models


class Migration(migrations.Migration):

    dependencies = [
        ('builds', '0012_who_cut_a_link'),
    ]

    operations = [
        migrations.AddField(
            model_name='plan',
            name='odds',
            field=models.JSONField(null=True),
        ),
    ]
