"""When a share link was last opened."""

from django.db import migrations, models


class Migration(migrations.Migration):

    dependencies = [
        ('garage', '0020_visits'),
    ]

    operations = [
        migrations.AddField(
            model_name='share',
            name='opened_at',
            field=models.DateTimeField(blank=True, null=True),
        ),
    ]
