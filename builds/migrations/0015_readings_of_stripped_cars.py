"""That a reading was taken of a car that was stripped, which makes it a note."""

from django.db import migrations, models


class Migration(migrations.Migration):

    dependencies = [
        ('builds', '0014_cars_left_as_they_were'),
    ]

    operations = [
        migrations.AddField(
            model_name='reading',
            name='stripped',
            field=models.BooleanField(default=False, verbose_name='the car was stripped, and it wants its wheels'),
        ),
    ]
