"""Gear says when it was made besides until when it is valid."""

import datetime
from django.db import migrations, models


class Migration(migrations.Migration):

    dependencies = [
        ('garage', '0006_may_sign_is_given'),
    ]

    operations = [
        migrations.AddField(
            model_name='gear',
            name='made_on',
            field=models.DateField(blank=True, null=True),
        ),
        migrations.AddField(
            model_name='gear',
            name='made_precision',
            field=models.CharField(blank=True, max_length=5),
        ),
        migrations.AddConstraint(
            model_name='gear',
            constraint=models.CheckConstraint(condition=models.Q(('made_precision__in', ['', 'day', 'month', 'year'])), name='gear_made_precision_known'),
        ),
        migrations.AddConstraint(
            model_name='gear',
            constraint=models.CheckConstraint(condition=models.Q(models.Q(('made_on', None), ('made_precision', '')), models.Q(('made_on__isnull', False), models.Q(('made_precision', ''), _negated=True)), _connector='OR'), name='gear_made_with_precision'),
        ),
        migrations.AddConstraint(
            model_name='gear',
            constraint=models.CheckConstraint(condition=models.Q(('made_on', None), models.Q(('made_on__gte', datetime.date(1980, 1, 1)), ('made_on__lte', datetime.date(2100, 12, 31))), _connector='OR'), name='gear_made_on_range'),
        ),
    ]
