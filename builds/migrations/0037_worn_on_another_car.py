"""What gear has done on the car that it came off."""

from django.db import migrations, models


class Migration(migrations.Migration):

    dependencies = [
        ('builds', '0036_said_less_of_work'),
    ]

    operations = [
        migrations.AddField(
            model_name='uselife',
            name='moved_at',
            field=models.DateTimeField(blank=True, null=True),
        ),
        migrations.AddField(
            model_name='uselife',
            name='runs_before',
            field=models.PositiveIntegerField(default=0),
        ),
        migrations.AddConstraint(
            model_name='uselife',
            constraint=models.CheckConstraint(
                condition=models.Q(
                    models.Q(('runs_before__gte', 0), ('runs_before__lte', 1000000)),
                    ('runs_before__isnull', True),
                    _connector='OR',
                ),
                name='uselife_runs_before_range',
            ),
        ),
    ]
