"""A garage knows when it was last written in: what takes long waits for a quiet minute."""

from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies = [("garage", "0006_may_sign_is_given")]

    operations = [
        migrations.AddField(
            model_name="garage",
            name="written_at",
            field=models.DateTimeField(editable=False, null=True),
        ),
    ]
