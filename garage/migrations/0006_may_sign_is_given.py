"""May sign is off for new people until the owner ticks it; those already here keep what they have."""
from django.db import migrations, models


class Migration(migrations.Migration):

    dependencies = [
        ('garage', '0005_writes_counted'),
    ]

    operations = [
        migrations.AlterField(
            model_name='membership',
            name='may_sign',
            field=models.BooleanField(default=False, help_text='Signs hold points and joints that others worked on.', verbose_name='may sign'),
        ),
    ]
