"""How many days a part takes to come."""

from django.db import migrations, models


class Migration(migrations.Migration):

    dependencies = [
        ('builds', '0016_last_days_of_parts'),
    ]

    operations = [
        migrations.AddField(
            model_name='need',
            name='lead_days',
            field=models.PositiveSmallIntegerField(blank=True, null=True, verbose_name='days it takes to come'),
        ),
        migrations.AddConstraint(
            model_name='need',
            constraint=models.CheckConstraint(condition=models.Q(models.Q(('lead_days__gte', 0), ('lead_days__lte', 365)), ('lead_days__isnull', True), _connector='OR'), name='need_lead_days_range'),
        ),
    ]
