"""Links that the order of work draws are known from those written by hand, and can be cut."""

from django.db import migrations, models


def those_that_measured_once(apps, schema_editor):
    links = apps.get_model("builds", "Link").objects.using(schema_editor.connection.alias)
    drawn = links.filter(why="measured once, after all the work that disturbs it")
    drawn.update(by_order=True, why="by the order of work")


class Migration(migrations.Migration):

    dependencies = [
        ('builds', '0001_jobs_and_plans'),
    ]

    operations = [
        migrations.AddField(
            model_name='link',
            name='by_order',
            field=models.BooleanField(default=False),
        ),
        migrations.AddField(
            model_name='link',
            name='cut_because',
            field=models.CharField(blank=True, max_length=200),
        ),
        migrations.RunPython(those_that_measured_once, migrations.RunPython.noop),
        migrations.AddConstraint(
            model_name='link',
            constraint=models.CheckConstraint(condition=models.Q(('cut_because__length__gte', 0), ('cut_because__length__lte', 200)), name='link_cut_because_length'),
        ),
        migrations.AddConstraint(
            model_name='link',
            constraint=models.CheckConstraint(condition=models.Q(('cut_because', ''), ('by_order', True), _connector='OR'), name='link_cut_by_order'),
        ),
    ]
