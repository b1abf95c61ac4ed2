"""Hours between two days of an event, in which cars are repaired there."""

import django.db.models.deletion
from django.db import migrations, models


class Migration(migrations.Migration):

    dependencies = [
        ('garage', '0010_how_a_car_gets_there'),
    ]

    operations = [
        migrations.CreateModel(
            name='Night',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('from_at', models.DateTimeField(verbose_name='work begins')),
                ('until_at', models.DateTimeField(verbose_name='work ends')),
                ('due_at', models.DateTimeField(verbose_name='cars must be ready')),
                ('event', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='nights', to='garage.event')),
            ],
            options={
                'ordering': ['from_at', 'pk'],
                'constraints': [
                    models.CheckConstraint(condition=models.Q(('from_at__lt', models.F('until_at'))), name='night_from_at_before_until_at'),
                    models.CheckConstraint(condition=models.Q(('until_at__lte', models.F('due_at'))), name='night_until_at_by_due_at'),
                ],
            },
        ),
    ]
