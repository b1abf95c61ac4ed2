from django.db import migrations, models


class Migration(migrations.Migration):

    dependencies = [
        ("builds", "0010_skill_loans"),
    ]

    operations = [
        migrations.AddField(
            model_name="job",
            name="measures",
            field=models.JSONField(blank=True, default=list),
        ),
        migrations.AddConstraint(
            model_name="job",
            constraint=models.UniqueConstraint(
                condition=models.Q(
                    ("recipe", "measure-again"),
                    ("state__in", ["open", "in_hand", "waiting", "held"]),
                ),
                fields=("vehicle",),
                name="job_one_measuring_again",
            ),
        ),
    ]
