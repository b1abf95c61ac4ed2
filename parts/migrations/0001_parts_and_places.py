"""The shelf at 0.1.0; a garage that has all of `replaces` is there already."""

import django.db.models.deletion
from django.db import migrations, models


class Migration(migrations.Migration):

    initial = True

    replaces = [
        ('parts', '0001_shelf'),
        ('parts', '0003_sheets_to_the_shelf'),
        ('parts', '0004_photos_of_parts'),
    ]

    dependencies = [
        ('garage', '0001_cars_and_people'),
    ]

    operations = [
        migrations.CreateModel(
            name='Batch',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('garage', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='batches', to='garage.garage')),
                ('by', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='+', to='garage.membership')),
                ('file_name', models.CharField(max_length=120)),
                ('state', models.CharField(choices=[('columns', 'its columns are to be named'), ('checking', 'being looked through'), ('checked', 'looked through'), ('writing', 'being written to the shelf'), ('done', 'on the shelf'), ('left', 'left')], default='columns', max_length=10)),
                ('headings', models.JSONField(default=list)),
                ('columns', models.JSONField(default=dict)),
                ('total', models.PositiveIntegerField()),
                ('done', models.PositiveIntegerField(default=0)),
                ('tally', models.JSONField(default=dict)),
                ('note', models.CharField(blank=True, max_length=200)),
                ('turn', models.PositiveIntegerField(default=0)),
                ('made_at', models.DateTimeField()),
                ('seen_at', models.DateTimeField()),
            ],
            options={
                'ordering': ['-pk'],
                'constraints': [
                    models.UniqueConstraint(condition=models.Q(('state__in', ['columns', 'checking', 'checked', 'writing'])), fields=('garage',), name='batch_one_at_a_time'),
                    models.CheckConstraint(condition=models.Q(('file_name__length__gte', 1), ('file_name__length__lte', 120)), name='batch_file_name_length'),
                    models.CheckConstraint(condition=models.Q(('note__length__gte', 0), ('note__length__lte', 200)), name='batch_note_length'),
                    models.CheckConstraint(condition=models.Q(models.Q(('total__gte', 0), ('total__lte', 20000)), ('total__isnull', True), _connector='OR'), name='batch_total_range'),
                    models.CheckConstraint(condition=models.Q(models.Q(('done__gte', 0), ('done__lte', 20000)), ('done__isnull', True), _connector='OR'), name='batch_done_range'),
                    models.CheckConstraint(condition=models.Q(('state__in', ['columns', 'checking', 'checked', 'writing', 'done', 'left'])), name='batch_state_known'),
                ],
            },
        ),
        migrations.CreateModel(
            name='BatchRow',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('batch', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='rows', to='parts.batch')),
                ('line', models.PositiveIntegerField()),
                ('cells', models.JSONField()),
                ('kind', models.CharField(blank=True, max_length=10)),
                ('group', models.CharField(blank=True, max_length=300)),
                ('problems', models.JSONField(default=list)),
                ('changes', models.JSONField(default=list)),
            ],
            options={
                'ordering': ['line'],
                'indexes': [
                    models.Index(fields=['batch', 'kind', 'line'], name='batchrow_by_kind'),
                    models.Index(fields=['batch', 'group'], name='batchrow_by_group'),
                ],
                'constraints': [
                    models.UniqueConstraint(fields=('batch', 'line'), name='batchrow_once'),
                    models.CheckConstraint(condition=models.Q(('kind__in', ['', 'new', 'changes', 'same', 'bad'])), name='batchrow_kind_known'),
                    models.CheckConstraint(condition=models.Q(('group__length__gte', 0), ('group__length__lte', 300)), name='batchrow_group_length'),
                ],
            },
        ),
        migrations.CreateModel(
            name='Part',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('garage', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='parts', to='garage.garage')),
                ('code', models.CharField(max_length=10)),
                ('name', models.CharField(max_length=120)),
                ('number', models.CharField(blank=True, max_length=60, verbose_name="maker's or own number")),
                ('systems', models.JSONField(blank=True, default=list)),
                ('interfaces', models.JSONField(blank=True, default=list)),
                ('single', models.BooleanField(default=False, verbose_name='one of a kind')),
                ('one_use', models.BooleanField(default=False, verbose_name='never used twice')),
                ('unit', models.CharField(choices=[('piece', 'pieces'), ('ml', 'ml'), ('g', 'g'), ('mm', 'mm')], default='piece', max_length=10)),
                ('condition', models.CharField(choices=[('new', 'new'), ('good', 'used, good'), ('unknown', 'used, unknown'), ('repair', 'to repair'), ('scrap', 'scrap')], default='unknown', max_length=10)),
                ('provenance', models.CharField(blank=True, max_length=200, verbose_name='where it came from')),
                ('cost_minor', models.PositiveBigIntegerField(blank=True, null=True, verbose_name='cost of one unit')),
                ('supplier', models.CharField(blank=True, max_length=80)),
                ('low_level', models.PositiveIntegerField(blank=True, null=True)),
                ('note', models.TextField(blank=True, max_length=2000)),
                ('made_at', models.DateTimeField()),
                ('gone_at', models.DateTimeField(blank=True, null=True)),
            ],
            options={
                'ordering': ['name', 'pk'],
                'constraints': [
                    models.UniqueConstraint(fields=('garage', 'code'), name='part_code_once'),
                    models.CheckConstraint(condition=models.Q(('code__length__gte', 10), ('code__length__lte', 10)), name='part_code_length'),
                    models.CheckConstraint(condition=models.Q(('name__length__gte', 1), ('name__length__lte', 120)), name='part_name_length'),
                    models.CheckConstraint(condition=models.Q(('number__length__gte', 0), ('number__length__lte', 60)), name='part_number_length'),
                    models.CheckConstraint(condition=models.Q(('provenance__length__gte', 0), ('provenance__length__lte', 200)), name='part_provenance_length'),
                    models.CheckConstraint(condition=models.Q(('supplier__length__gte', 0), ('supplier__length__lte', 80)), name='part_supplier_length'),
                    models.CheckConstraint(condition=models.Q(('note__length__gte', 0), ('note__length__lte', 2000)), name='part_note_length'),
                    models.CheckConstraint(condition=models.Q(('unit__in', ['piece', 'ml', 'g', 'mm'])), name='part_unit_known'),
                    models.CheckConstraint(condition=models.Q(('condition__in', ['new', 'good', 'unknown', 'repair', 'scrap'])), name='part_condition_known'),
                    models.CheckConstraint(condition=models.Q(models.Q(('cost_minor__gte', 0), ('cost_minor__lte', 1000000000000)), ('cost_minor__isnull', True), _connector='OR'), name='part_cost_minor_range'),
                    models.CheckConstraint(condition=models.Q(models.Q(('low_level__gte', 0), ('low_level__lte', 1000000000)), ('low_level__isnull', True), _connector='OR'), name='part_low_level_range'),
                    models.CheckConstraint(condition=models.Q(('single', False), ('unit', 'piece'), _connector='OR'), name='part_single_is_a_piece'),
                ],
            },
        ),
        migrations.CreateModel(
            name='Place',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('garage', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='places', to='garage.garage')),
                ('code', models.CharField(max_length=10)),
                ('kind', models.CharField(choices=[('shelf', 'shelf'), ('bin', 'bin'), ('van', 'van'), ('trailer', 'trailer'), ('bench', 'pulled, on the bench'), ('car', 'on a car'), ('someone', 'with someone'), ('repair', 'away for repair'), ('scrap', 'scrap'), ('supplier', 'supplier'), ('counted', 'stock-take')], default='shelf', max_length=10)),
                ('name', models.CharField(max_length=60)),
                ('vehicle', models.OneToOneField(blank=True, null=True, on_delete=django.db.models.deletion.CASCADE, related_name='place', to='garage.vehicle')),
                ('walk_order', models.PositiveSmallIntegerField(default=100)),
            ],
            options={
                'ordering': ['walk_order', 'name', 'pk'],
                'constraints': [
                    models.UniqueConstraint(fields=('garage', 'code'), name='place_code_once'),
                    models.UniqueConstraint(fields=('garage', 'kind', 'name'), name='place_name_once'),
                    models.CheckConstraint(condition=models.Q(('code__length__gte', 10), ('code__length__lte', 10)), name='place_code_length'),
                    models.CheckConstraint(condition=models.Q(('name__length__gte', 1), ('name__length__lte', 60)), name='place_name_length'),
                    models.CheckConstraint(condition=models.Q(models.Q(('walk_order__gte', 0), ('walk_order__lte', 9999)), ('walk_order__isnull', True), _connector='OR'), name='place_walk_order_range'),
                    models.CheckConstraint(condition=models.Q(('kind__in', ['shelf', 'bin', 'van', 'trailer', 'bench', 'car', 'someone', 'repair', 'scrap', 'supplier', 'counted'])), name='place_kind_known'),
                    models.CheckConstraint(condition=models.Q(models.Q(('kind', 'car'), ('vehicle__isnull', False)), models.Q(models.Q(('kind', 'car'), _negated=True), ('vehicle__isnull', True)), _connector='OR'), name='place_of_a_car'),
                ],
            },
        ),
        migrations.CreateModel(
            name='Move',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('part', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='moves', to='parts.part')),
                ('verb', models.CharField(max_length=10)),
                ('quantity', models.PositiveBigIntegerField()),
                ('source', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='moves_out', to='parts.place')),
                ('target', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='moves_in', to='parts.place')),
                ('by', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='+', to='garage.membership')),
                ('at', models.DateTimeField()),
                ('why', models.CharField(blank=True, max_length=200)),
                ('reverses', models.OneToOneField(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='reversed_by', to='parts.move')),
            ],
            options={
                'ordering': ['-pk'],
                'base_manager_name': 'objects',
                'indexes': [
                    models.Index(fields=['part', 'at'], name='move_of_part'),
                ],
                'constraints': [
                    models.CheckConstraint(condition=models.Q(('verb__in', ['receive', 'put', 'pull', 'fit', 'take_off', 'lend', 'return', 'repair', 'scrap', 'count', 'reverse'])), name='move_verb_known'),
                    models.CheckConstraint(condition=models.Q(models.Q(('quantity__gte', 1), ('quantity__lte', 1000000000)), ('quantity__isnull', True), _connector='OR'), name='move_quantity_range'),
                    models.CheckConstraint(condition=models.Q(('why__length__gte', 0), ('why__length__lte', 200)), name='move_why_length'),
                    models.CheckConstraint(condition=models.Q(('source', models.F('target')), _negated=True), name='move_goes_somewhere'),
                ],
            },
        ),
        migrations.CreateModel(
            name='Balance',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('part', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='balances', to='parts.part')),
                ('place', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='balances', to='parts.place')),
                ('quantity', models.BigIntegerField(default=0)),
                ('outside', models.BooleanField(default=False)),
            ],
            options={
                'constraints': [
                    models.UniqueConstraint(fields=('part', 'place'), name='balance_once'),
                    models.CheckConstraint(condition=models.Q(('outside', True), ('quantity__gte', 0), _connector='OR'), name='balance_not_below_zero'),
                ],
            },
        ),
        migrations.CreateModel(
            name='PartPhoto',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('photo', models.OneToOneField(on_delete=django.db.models.deletion.CASCADE, related_name='%(class)s', to='garage.photo')),
                ('of', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='photos', to='parts.part')),
            ],
            options={
                'abstract': False,
            },
        ),
    ]
