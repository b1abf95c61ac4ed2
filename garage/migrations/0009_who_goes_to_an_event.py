"""Who goes to an event, and is not at home meanwhile."""

from django.db import migrations, models


class Migration(migrations.Migration):

    dependencies = [
        ('garage', '0008_when_it_was_written'),
    ]

    operations = [
        migrations.AddField(
            model_name='event',
            name='people',
            field=models.ManyToManyField(blank=True, related_name='events', to='garage.membership', verbose_name='who goes'),
        ),
    ]
