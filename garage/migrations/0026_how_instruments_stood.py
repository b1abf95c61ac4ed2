"""How a torque wrench or scales stood until somebody changed what is said of them."""

from django.db import migrations, models


class Migration(migrations.Migration):

    dependencies = [
        ('garage', '0025_cars_of_helpers'),
    ]

    operations = [
        migrations.AddField(
            model_name='gear',
            name='stood',
            field=models.JSONField(blank=True, default=list, verbose_name='how it stood before'),
        ),
    ]
