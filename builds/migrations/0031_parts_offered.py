"""What somebody said he has of the parts that are sought."""

import django.db.models.deletion
from django.db import migrations, models


class Migration(migrations.Migration):

    dependencies = [
        ('builds', '0030_calendar_feeds'),
        ('garage', '0022_what_a_share_shows'),
    ]

    operations = [
        migrations.CreateModel(
            name='PartOffer',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('name', models.CharField(max_length=60)),
                ('line', models.CharField(max_length=200)),
                ('key', models.CharField(max_length=40)),
                ('said_at', models.DateTimeField()),
                ('seen_at', models.DateTimeField(blank=True, null=True)),
                ('need', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='offers', to='builds.need')),
                ('share', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='offers', to='garage.share')),
            ],
            options={
                'ordering': ['said_at', 'pk'],
                'constraints': [models.UniqueConstraint(fields=('share', 'key'), name='partoffer_once'), models.CheckConstraint(condition=models.Q(('name__length__gte', 1), ('name__length__lte', 60)), name='partoffer_name_length'), models.CheckConstraint(condition=models.Q(('line__length__gte', 1), ('line__length__lte', 200)), name='partoffer_line_length'), models.CheckConstraint(condition=models.Q(('key__length__gte', 1), ('key__length__lte', 40)), name='partoffer_key_length')],
            },
        ),
    ]
