"""What else a share link shows, and the pass-phrase that it asks."""

from django.db import migrations, models


class Migration(migrations.Migration):

    dependencies = [
        ('garage', '0021_when_links_were_opened'),
    ]

    operations = [
        migrations.AddField(
            model_name='share',
            name='parts',
            field=models.BooleanField(default=False, verbose_name='parts that are sought'),
        ),
        migrations.AddField(
            model_name='share',
            name='photos',
            field=models.JSONField(blank=True, default=list),
        ),
        migrations.AddField(
            model_name='share',
            name='phrase',
            field=models.CharField(blank=True, max_length=128),
        ),
        migrations.AddConstraint(
            model_name='share',
            constraint=models.CheckConstraint(condition=models.Q(('phrase__length__gte', 0), ('phrase__length__lte', 128)), name='share_phrase_length'),
        ),
    ]
