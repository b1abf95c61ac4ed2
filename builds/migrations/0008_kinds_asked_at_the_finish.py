"""What a job opens may be only likely until its finish, which asks."""
from django.db import migrations, models


class Migration(migrations.Migration):

    dependencies = [
        ('builds', '0007_who_wrote_a_look_down'),
    ]

    operations = [
        migrations.AddField(
            model_name='job',
            name='kinds_likely',
            field=models.BooleanField(default=False, verbose_name='its kinds are only likely: asked at its finish'),
        ),
    ]
