"""How many days readings of a kind count for, as a garage says."""

import django.db.models.deletion
from django.db import migrations, models


class Migration(migrations.Migration):

    dependencies = [
        ('builds', '0003_cars_that_did_not_run'),
        ('garage', '0002_where_cars_stand'),
    ]

    operations = [
        migrations.CreateModel(
            name='ReadingAge',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('kind', models.CharField(blank=True, max_length=40)),
                ('days', models.PositiveSmallIntegerField()),
                ('garage', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='reading_ages', to='garage.garage')),
            ],
            options={
                'ordering': ['pk'],
                'constraints': [models.UniqueConstraint(fields=('garage', 'kind'), name='readingage_once'), models.CheckConstraint(condition=models.Q(('kind__length__gte', 0), ('kind__length__lte', 40)), name='readingage_kind_length'), models.CheckConstraint(condition=models.Q(models.Q(('days__gte', 1), ('days__lte', 3650)), ('days__isnull', True), _connector='OR'), name='readingage_days_range')],
            },
        ),
    ]
