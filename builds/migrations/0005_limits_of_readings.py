"""Targets say at least, at most or between besides give or take, and whose figure they are."""

from django.db import migrations, models
from django.db.models import F, Q


class Migration(migrations.Migration):

    dependencies = [
        ('builds', '0004_how_old_readings_may_be'),
    ]

    operations = [
        migrations.RemoveConstraint(model_name='target', name='target_tolerance_typed_length'),
        migrations.RemoveConstraint(model_name='target', name='target_tolerance_range'),
        migrations.AddField(
            model_name='target',
            name='sort',
            field=models.CharField(default='off', max_length=10),
            preserve_default=False,
        ),
        migrations.AddField(
            model_name='target',
            name='mark',
            field=models.CharField(default='chosen', max_length=10),
        ),
        migrations.RenameField(model_name='target', old_name='tolerance', new_name='second'),
        migrations.RenameField(model_name='target', old_name='tolerance_typed', new_name='second_typed'),
        migrations.AlterField(
            model_name='target',
            name='second',
            field=models.BigIntegerField(blank=True, null=True),
        ),
        migrations.AlterField(
            model_name='target',
            name='second_typed',
            field=models.CharField(blank=True, max_length=24),
        ),
        migrations.AddConstraint(
            model_name='target',
            constraint=models.CheckConstraint(condition=Q(('second_typed__length__gte', 0), ('second_typed__length__lte', 24)), name='target_second_typed_length'),
        ),
        migrations.AddConstraint(
            model_name='target',
            constraint=models.CheckConstraint(condition=Q(Q(('second__gte', -1000000000000), ('second__lte', 1000000000000)), ('second__isnull', True), _connector='OR'), name='target_second_range'),
        ),
        migrations.AddConstraint(
            model_name='target',
            constraint=models.CheckConstraint(condition=Q(('sort__in', ['off', 'least', 'most', 'between'])), name='target_sort_known'),
        ),
        migrations.AddConstraint(
            model_name='target',
            constraint=models.CheckConstraint(condition=Q(('mark__in', ['chosen', 'practice', 'maker'])), name='target_mark_known'),
        ),
        migrations.AddConstraint(
            model_name='target',
            constraint=models.CheckConstraint(condition=Q(Q(('second', None), ('second_typed', ''), ('sort__in', ['least', 'most'])), Q(('second__gte', 0), ('sort', 'off'), Q(('second_typed', ''), _negated=True)), Q(('second__gte', F('amount')), ('sort', 'between'), Q(('second_typed', ''), _negated=True)), _connector='OR'), name='target_second_as_its_sort_wants'),
        ),
    ]
