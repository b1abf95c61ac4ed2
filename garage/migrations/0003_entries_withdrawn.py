"""A car that does not come after all is withdrawn; what was ticked for it stays."""

from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies = [("garage", "0002_where_cars_stand")]

    operations = [
        migrations.AddField(
            model_name="entry",
            name="withdrawn_at",
            field=models.DateTimeField(blank=True, null=True),
        ),
    ]
