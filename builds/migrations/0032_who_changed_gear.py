"""Who changed what is said of a piece of gear."""

import django.db.models.deletion
from django.db import migrations, models


class Migration(migrations.Migration):

    dependencies = [
        ('builds', '0031_parts_offered'),
        ('garage', '0022_what_a_share_shows'),
    ]

    operations = [
        migrations.CreateModel(
            name='GearChange',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('at', models.DateTimeField()),
                ('words', models.CharField(max_length=300)),
                ('by', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='+', to='garage.membership')),
                ('gear', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='changes', to='garage.gear')),
            ],
            options={
                'ordering': ['-at', '-pk'],
                'constraints': [models.CheckConstraint(condition=models.Q(('words__length__gte', 1), ('words__length__lte', 300)), name='gearchange_words_length')],
            },
        ),
    ]
