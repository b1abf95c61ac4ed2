"""The fleet and its people at 0.1.0; a garage that has all of `replaces` is there already."""

import datetime
import django.db.models.deletion
from django.conf import settings
from django.db import migrations, models


class Migration(migrations.Migration):

    initial = True

    replaces = [
        ('garage', '0001_fleet'),
        ('garage', '0002_sessions_from'),
        ('garage', '0003_currency'),
        ('garage', '0004_log_counts'),
        ('garage', '0005_event_organiser_and_runs'),
        ('garage', '0006_receipts_by_age'),
        ('garage', '0007_gear'),
        ('garage', '0008_used_parts_cost'),
        ('garage', '0009_who_may_sign'),
        ('garage', '0010_photos'),
    ]

    dependencies = [
    ]

    operations = [
        migrations.CreateModel(
            name='Person',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('password', models.CharField(max_length=128, verbose_name='password')),
                ('last_login', models.DateTimeField(blank=True, null=True, verbose_name='last login')),
                ('name', models.CharField(max_length=60)),
                ('surname', models.CharField(blank=True, max_length=60)),
                ('email', models.EmailField(blank=True, max_length=254, null=True, unique=True)),
                ('is_active', models.BooleanField(default=True)),
                ('scheme', models.CharField(blank=True, default='', max_length=5)),
                ('sessions_from', models.DateTimeField(blank=True, null=True)),
                ('created_at', models.DateTimeField(auto_now_add=True)),
            ],
            options={
                'constraints': [
                    models.CheckConstraint(condition=models.Q(('name__length__gte', 1), ('name__length__lte', 60)), name='person_name_length'),
                    models.CheckConstraint(condition=models.Q(('surname__length__gte', 0), ('surname__length__lte', 60)), name='person_surname_length'),
                    models.CheckConstraint(condition=models.Q(('scheme__length__gte', 0), ('scheme__length__lte', 5)), name='person_scheme_length'),
                ],
            },
        ),
        migrations.CreateModel(
            name='SignInLink',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('person', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='sign_in_links', to=settings.AUTH_USER_MODEL)),
                ('digest', models.CharField(max_length=64, unique=True)),
                ('expires_at', models.DateTimeField()),
                ('used_at', models.DateTimeField(blank=True, null=True)),
            ],
            options={
                'constraints': [
                    models.CheckConstraint(condition=models.Q(('digest__length__gte', 64), ('digest__length__lte', 64)), name='signinlink_digest_length'),
                ],
            },
        ),
        migrations.CreateModel(
            name='Tries',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('what', models.CharField(max_length=20)),
                ('key', models.CharField(max_length=64)),
                ('count', models.PositiveIntegerField(default=0)),
                ('since', models.DateTimeField()),
            ],
            options={
                'constraints': [
                    models.UniqueConstraint(fields=('what', 'key'), name='tries_once'),
                    models.CheckConstraint(condition=models.Q(('what__length__gte', 1), ('what__length__lte', 20)), name='tries_what_length'),
                    models.CheckConstraint(condition=models.Q(('key__length__gte', 1), ('key__length__lte', 64)), name='tries_key_length'),
                ],
            },
        ),
        migrations.CreateModel(
            name='Garage',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('name', models.CharField(max_length=80)),
                ('time_zone', models.CharField(default='UTC', max_length=64)),
                ('units', models.CharField(choices=[('metric', 'metric (mm, kg, N·m, °C)'), ('imperial', 'imperial (in, lb, lbf·ft, °F)')], default='metric', max_length=10)),
                ('paper', models.CharField(choices=[('a4', 'A4'), ('letter', 'Letter')], default='a4', max_length=10)),
                ('currency', models.CharField(default='EUR', help_text='ISO 4217, such as EUR', max_length=3)),
                ('log_counts', models.BooleanField(default=False, verbose_name='odds count with the log')),
                ('used_cost_counts', models.BooleanField(default=True, verbose_name='used parts count at what they cost')),
                ('created_at', models.DateTimeField(auto_now_add=True)),
            ],
            options={
                'constraints': [
                    models.CheckConstraint(condition=models.Q(('name__length__gte', 1), ('name__length__lte', 80)), name='garage_name_length'),
                    models.CheckConstraint(condition=models.Q(('time_zone__length__gte', 1), ('time_zone__length__lte', 64)), name='garage_time_zone_length'),
                    models.CheckConstraint(condition=models.Q(('currency__length__gte', 3), ('currency__length__lte', 3)), name='garage_currency_length'),
                    models.CheckConstraint(condition=models.Q(('units__in', ['metric', 'imperial'])), name='garage_units_known'),
                    models.CheckConstraint(condition=models.Q(('paper__in', ['a4', 'letter'])), name='garage_paper_known'),
                ],
            },
        ),
        migrations.CreateModel(
            name='Vehicle',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('garage', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='vehicles', to='garage.garage')),
                ('name', models.CharField(max_length=40)),
                ('tape', models.CharField(choices=[('green', 'green'), ('orange', 'orange'), ('purple', 'purple'), ('grey', 'grey'), ('blue', 'blue'), ('red', 'red'), ('white', 'white'), ('yellow', 'yellow'), ('brown', 'brown'), ('pink', 'pink')], default='green', max_length=10)),
                ('what', models.CharField(blank=True, max_length=120, verbose_name='what it is')),
                ('state', models.CharField(choices=[('driveable', 'driveable'), ('rolling', 'rolling, not driveable'), ('stands', 'on stands')], default='driveable', max_length=10)),
                ('wheelbase_um', models.PositiveIntegerField(blank=True, null=True)),
                ('track_front_um', models.PositiveIntegerField(blank=True, null=True)),
                ('track_rear_um', models.PositiveIntegerField(blank=True, null=True)),
                ('gone_at', models.DateTimeField(blank=True, null=True)),
                ('created_at', models.DateTimeField(auto_now_add=True)),
            ],
            options={
                'ordering': ['pk'],
                'constraints': [
                    models.UniqueConstraint(fields=('garage', 'name'), name='vehicle_name_once'),
                    models.CheckConstraint(condition=models.Q(('name__length__gte', 1), ('name__length__lte', 40)), name='vehicle_name_length'),
                    models.CheckConstraint(condition=models.Q(('what__length__gte', 0), ('what__length__lte', 120)), name='vehicle_what_length'),
                    models.CheckConstraint(condition=models.Q(('state__in', ['driveable', 'rolling', 'stands'])), name='vehicle_state_known'),
                    models.CheckConstraint(condition=models.Q(models.Q(('wheelbase_um__gte', 500000), ('wheelbase_um__lte', 8000000)), ('wheelbase_um__isnull', True), _connector='OR'), name='vehicle_wheelbase_um_range'),
                    models.CheckConstraint(condition=models.Q(models.Q(('track_front_um__gte', 300000), ('track_front_um__lte', 4000000)), ('track_front_um__isnull', True), _connector='OR'), name='vehicle_track_front_um_range'),
                    models.CheckConstraint(condition=models.Q(models.Q(('track_rear_um__gte', 300000), ('track_rear_um__lte', 4000000)), ('track_rear_um__isnull', True), _connector='OR'), name='vehicle_track_rear_um_range'),
                ],
            },
        ),
        migrations.CreateModel(
            name='Event',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('garage', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='events', to='garage.garage')),
                ('name', models.CharField(max_length=80)),
                ('place', models.CharField(blank=True, max_length=120)),
                ('gates_at', models.DateTimeField(verbose_name='gates open')),
                ('scrutineering_at', models.DateTimeField(blank=True, null=True, verbose_name='scrutineering')),
                ('ends_at', models.DateTimeField(verbose_name='ends')),
                ('travel_minutes', models.PositiveIntegerField(default=60)),
                ('organiser', models.CharField(blank=True, max_length=80)),
                ('runs', models.PositiveSmallIntegerField(default=4, verbose_name='runs of each car')),
                ('note', models.TextField(blank=True, max_length=2000)),
                ('created_at', models.DateTimeField(auto_now_add=True)),
            ],
            options={
                'ordering': ['gates_at'],
                'constraints': [
                    models.CheckConstraint(condition=models.Q(('name__length__gte', 1), ('name__length__lte', 80)), name='event_name_length'),
                    models.CheckConstraint(condition=models.Q(('place__length__gte', 0), ('place__length__lte', 120)), name='event_place_length'),
                    models.CheckConstraint(condition=models.Q(('note__length__gte', 0), ('note__length__lte', 2000)), name='event_note_length'),
                    models.CheckConstraint(condition=models.Q(models.Q(('travel_minutes__gte', 0), ('travel_minutes__lte', 10080)), ('travel_minutes__isnull', True), _connector='OR'), name='event_travel_minutes_range'),
                    models.CheckConstraint(condition=models.Q(('organiser__length__gte', 0), ('organiser__length__lte', 80)), name='event_organiser_length'),
                    models.CheckConstraint(condition=models.Q(models.Q(('runs__gte', 1), ('runs__lte', 99)), ('runs__isnull', True), _connector='OR'), name='event_runs_range'),
                    models.CheckConstraint(condition=models.Q(('gates_at__lte', models.F('ends_at'))), name='event_gates_before_end'),
                ],
            },
        ),
        migrations.CreateModel(
            name='Entry',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('event', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='entries', to='garage.event')),
                ('vehicle', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='entries', to='garage.vehicle')),
                ('weight', models.PositiveSmallIntegerField(default=1)),
            ],
            options={
                'ordering': ['pk'],
                'constraints': [
                    models.UniqueConstraint(fields=('event', 'vehicle'), name='entry_once'),
                    models.CheckConstraint(condition=models.Q(models.Q(('weight__gte', 1), ('weight__lte', 9)), ('weight__isnull', True), _connector='OR'), name='entry_weight_range'),
                ],
            },
        ),
        migrations.CreateModel(
            name='Skill',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('garage', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='skills', to='garage.garage')),
                ('slug', models.SlugField(max_length=40)),
                ('name', models.CharField(max_length=40)),
            ],
            options={
                'ordering': ['name'],
                'constraints': [
                    models.UniqueConstraint(fields=('garage', 'slug'), name='skill_once'),
                    models.CheckConstraint(condition=models.Q(('slug__length__gte', 1), ('slug__length__lte', 40)), name='skill_slug_length'),
                    models.CheckConstraint(condition=models.Q(('name__length__gte', 1), ('name__length__lte', 40)), name='skill_name_length'),
                ],
            },
        ),
        migrations.CreateModel(
            name='Membership',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('garage', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='memberships', to='garage.garage')),
                ('person', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='memberships', to=settings.AUTH_USER_MODEL)),
                ('role', models.CharField(choices=[('owner', 'owner'), ('helper', 'helper'), ('viewer', 'viewer')], default='helper', max_length=10)),
                ('works', models.BooleanField(default=True, help_text='Counts as a pair of hands in the plan.')),
                ('may_sign', models.BooleanField(default=True, help_text='Signs hold points and joints that others worked on.', verbose_name='may sign')),
                ('left_at', models.DateTimeField(blank=True, null=True)),
                ('created_at', models.DateTimeField(auto_now_add=True)),
                ('skills', models.ManyToManyField(blank=True, related_name='members', to='garage.skill')),
            ],
            options={
                'ordering': ['pk'],
                'constraints': [
                    models.UniqueConstraint(fields=('garage', 'person'), name='membership_once'),
                    models.CheckConstraint(condition=models.Q(('role__in', ['owner', 'helper', 'viewer'])), name='membership_role_known'),
                ],
            },
        ),
        migrations.CreateModel(
            name='Gear',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('garage', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='gear', to='garage.garage')),
                ('vehicle', models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.CASCADE, related_name='gear', to='garage.vehicle')),
                ('member', models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='gear', to='garage.membership')),
                ('name', models.CharField(max_length=60)),
                ('kind', models.CharField(choices=[('belts', 'Belts'), ('seat', 'Seat'), ('helmet', 'Helmet'), ('head_restraint', 'Head restraint'), ('clothing', 'Fire-proof clothing'), ('window_net', 'Window net'), ('extinguisher', 'Extinguisher'), ('fuel_cell', 'Fuel cell'), ('tyres', 'Tyres'), ('papers', 'Papers of the car'), ('free', 'Something else')], max_length=20)),
                ('standard', models.CharField(blank=True, max_length=30)),
                ('label', models.CharField(blank=True, max_length=120)),
                ('meaning', models.CharField(choices=[('made', 'made'), ('until', 'not valid after'), ('serviced', 'last serviced')], default='made', max_length=10)),
                ('printed_on', models.DateField(blank=True, null=True)),
                ('precision', models.CharField(blank=True, max_length=5)),
                ('code', models.CharField(blank=True, max_length=4)),
                ('note', models.CharField(blank=True, max_length=200)),
                ('struck_at', models.DateTimeField(blank=True, null=True)),
                ('struck_note', models.CharField(blank=True, max_length=200)),
                ('passed_at', models.DateTimeField(blank=True, null=True)),
                ('passed_by', models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to='garage.membership')),
                ('passed_because', models.CharField(blank=True, max_length=200)),
                ('retired_at', models.DateTimeField(blank=True, null=True)),
                ('retired_because', models.CharField(blank=True, max_length=200)),
                ('made_at', models.DateTimeField(verbose_name='written down')),
            ],
            options={
                'ordering': ['pk'],
                'constraints': [
                    models.CheckConstraint(condition=models.Q(('name__length__gte', 1), ('name__length__lte', 60)), name='gear_name_length'),
                    models.CheckConstraint(condition=models.Q(('label__length__gte', 0), ('label__length__lte', 120)), name='gear_label_length'),
                    models.CheckConstraint(condition=models.Q(('code__length__gte', 0), ('code__length__lte', 4)), name='gear_code_length'),
                    models.CheckConstraint(condition=models.Q(('note__length__gte', 0), ('note__length__lte', 200)), name='gear_note_length'),
                    models.CheckConstraint(condition=models.Q(('struck_note__length__gte', 0), ('struck_note__length__lte', 200)), name='gear_struck_note_length'),
                    models.CheckConstraint(condition=models.Q(('passed_because__length__gte', 0), ('passed_because__length__lte', 200)), name='gear_passed_because_length'),
                    models.CheckConstraint(condition=models.Q(('retired_because__length__gte', 0), ('retired_because__length__lte', 200)), name='gear_retired_because_length'),
                    models.CheckConstraint(condition=models.Q(('kind__in', ['belts', 'seat', 'helmet', 'head_restraint', 'clothing', 'window_net', 'extinguisher', 'fuel_cell', 'tyres', 'papers', 'free'])), name='gear_kind_known'),
                    models.CheckConstraint(condition=models.Q(('standard__in', ['', 'sfi-16', 'fia-8853-98', 'fia-8853-2016', 'fia-8855-1999', 'fia-8862-2009', 'fia-8855-2021', 'snell-sa', 'sfi-38', 'sfi-27', 'serviced-24-months', 'fia-ft3', 'tyre-code'])), name='gear_standard_known'),
                    models.CheckConstraint(condition=models.Q(('meaning__in', ['made', 'until', 'serviced'])), name='gear_meaning_known'),
                    models.CheckConstraint(condition=models.Q(('precision__in', ['', 'day', 'month', 'year', 'week'])), name='gear_precision_known'),
                    models.CheckConstraint(condition=models.Q(('vehicle', None), ('member', None), _connector='OR'), name='gear_of_a_car_or_a_person'),
                    models.CheckConstraint(condition=models.Q(models.Q(('precision', ''), ('printed_on', None)), models.Q(('printed_on__isnull', False), models.Q(('precision', ''), _negated=True)), _connector='OR'), name='gear_date_with_precision'),
                    models.CheckConstraint(condition=models.Q(('printed_on', None), models.Q(('printed_on__gte', datetime.date(1980, 1, 1)), ('printed_on__lte', datetime.date(2100, 12, 31))), _connector='OR'), name='gear_printed_on_range'),
                    models.CheckConstraint(condition=models.Q(('passed_at', None), models.Q(('passed_by__isnull', False), models.Q(('passed_because', ''), _negated=True)), _connector='OR'), name='gear_passed_by_somebody_with_a_reason'),
                ],
            },
        ),
        migrations.CreateModel(
            name='GearRule',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('event', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='gear_rules', to='garage.event')),
                ('kind', models.CharField(choices=[('belts', 'Belts'), ('seat', 'Seat'), ('helmet', 'Helmet'), ('head_restraint', 'Head restraint'), ('clothing', 'Fire-proof clothing'), ('window_net', 'Window net'), ('extinguisher', 'Extinguisher'), ('fuel_cell', 'Fuel cell'), ('tyres', 'Tyres'), ('papers', 'Papers of the car'), ('free', 'Something else')], max_length=20)),
                ('way', models.CharField(choices=[('printed', 'as printed on the label'), ('exact', 'so many years to the day'), ('end_of_month', 'so many years, to the end of the month'), ('end_of_year', 'so many years, to 31 December')], default='printed', max_length=15)),
                ('years', models.PositiveSmallIntegerField(default=0)),
            ],
            options={
                'ordering': ['pk'],
                'constraints': [
                    models.UniqueConstraint(fields=('event', 'kind'), name='gear_rule_once'),
                    models.CheckConstraint(condition=models.Q(('kind__in', ['belts', 'seat', 'helmet', 'head_restraint', 'clothing', 'window_net', 'extinguisher', 'fuel_cell', 'tyres', 'papers', 'free'])), name='gear_rule_kind_known'),
                    models.CheckConstraint(condition=models.Q(('way__in', ['printed', 'exact', 'end_of_month', 'end_of_year'])), name='gear_rule_way_known'),
                    models.CheckConstraint(condition=models.Q(models.Q(('years__gte', 0), ('years__lte', 30)), ('years__isnull', True), _connector='OR'), name='gear_rule_years_range'),
                ],
            },
        ),
        migrations.CreateModel(
            name='NeededGear',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('vehicle', models.OneToOneField(on_delete=django.db.models.deletion.CASCADE, related_name='needed_gear', to='garage.vehicle')),
                ('kinds', models.JSONField(default=list)),
                ('chosen_by', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='+', to='garage.membership')),
                ('chosen_at', models.DateTimeField()),
            ],
        ),
        migrations.CreateModel(
            name='Station',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('garage', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='stations', to='garage.garage')),
                ('slug', models.SlugField(max_length=40)),
                ('name', models.CharField(max_length=40)),
                ('capacity', models.PositiveSmallIntegerField(default=1)),
                ('always_open', models.BooleanField(default=True)),
            ],
            options={
                'ordering': ['name'],
                'constraints': [
                    models.UniqueConstraint(fields=('garage', 'slug'), name='station_once'),
                    models.CheckConstraint(condition=models.Q(('slug__length__gte', 1), ('slug__length__lte', 40)), name='station_slug_length'),
                    models.CheckConstraint(condition=models.Q(('name__length__gte', 1), ('name__length__lte', 40)), name='station_name_length'),
                    models.CheckConstraint(condition=models.Q(models.Q(('capacity__gte', 1), ('capacity__lte', 50)), ('capacity__isnull', True), _connector='OR'), name='station_capacity_range'),
                ],
            },
        ),
        migrations.CreateModel(
            name='MemberHours',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('weekday', models.PositiveSmallIntegerField(choices=[(0, 'Monday'), (1, 'Tuesday'), (2, 'Wednesday'), (3, 'Thursday'), (4, 'Friday'), (5, 'Saturday'), (6, 'Sunday')])),
                ('from_minute', models.PositiveSmallIntegerField()),
                ('until_minute', models.PositiveSmallIntegerField()),
                ('member', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='weekly_hours', to='garage.membership')),
            ],
            options={
                'ordering': ['weekday', 'from_minute'],
                'abstract': False,
                'constraints': [
                    models.CheckConstraint(condition=models.Q(models.Q(('weekday__gte', 0), ('weekday__lte', 6)), ('weekday__isnull', True), _connector='OR'), name='memberhours_weekday_range'),
                    models.CheckConstraint(condition=models.Q(models.Q(('until_minute__gte', 1), ('until_minute__lte', 1440)), ('until_minute__isnull', True), _connector='OR'), name='memberhours_until_minute_range'),
                    models.CheckConstraint(condition=models.Q(('from_minute__lt', models.F('until_minute'))), name='memberhours_from_minute_before_until_minute'),
                ],
            },
        ),
        migrations.CreateModel(
            name='StationHours',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('weekday', models.PositiveSmallIntegerField(choices=[(0, 'Monday'), (1, 'Tuesday'), (2, 'Wednesday'), (3, 'Thursday'), (4, 'Friday'), (5, 'Saturday'), (6, 'Sunday')])),
                ('from_minute', models.PositiveSmallIntegerField()),
                ('until_minute', models.PositiveSmallIntegerField()),
                ('station', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='weekly_hours', to='garage.station')),
            ],
            options={
                'ordering': ['weekday', 'from_minute'],
                'abstract': False,
                'constraints': [
                    models.CheckConstraint(condition=models.Q(models.Q(('weekday__gte', 0), ('weekday__lte', 6)), ('weekday__isnull', True), _connector='OR'), name='stationhours_weekday_range'),
                    models.CheckConstraint(condition=models.Q(models.Q(('until_minute__gte', 1), ('until_minute__lte', 1440)), ('until_minute__isnull', True), _connector='OR'), name='stationhours_until_minute_range'),
                    models.CheckConstraint(condition=models.Q(('from_minute__lt', models.F('until_minute'))), name='stationhours_from_minute_before_until_minute'),
                ],
            },
        ),
        migrations.CreateModel(
            name='DayHours',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('member', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='day_hours', to='garage.membership')),
                ('day', models.DateField()),
                ('kind', models.CharField(choices=[('off', 'day off'), ('extra', 'extra session'), ('instead', 'these hours instead')], max_length=10)),
                ('from_minute', models.PositiveSmallIntegerField(blank=True, null=True)),
                ('until_minute', models.PositiveSmallIntegerField(blank=True, null=True)),
                ('note', models.CharField(blank=True, max_length=120)),
            ],
            options={
                'ordering': ['day', 'from_minute'],
                'constraints': [
                    models.CheckConstraint(condition=models.Q(('kind__in', ['off', 'extra', 'instead'])), name='dayhours_kind_known'),
                    models.CheckConstraint(condition=models.Q(('note__length__gte', 0), ('note__length__lte', 120)), name='dayhours_note_length'),
                    models.UniqueConstraint(condition=models.Q(('kind__in', ['off', 'instead'])), fields=('member', 'day'), name='dayhours_one_rule_a_day'),
                    models.CheckConstraint(condition=models.Q(models.Q(('from_minute', None), ('kind', 'off'), ('until_minute', None)), models.Q(('from_minute__lt', models.F('until_minute')), ('kind__in', ['extra', 'instead']), ('until_minute__lte', 1440)), _connector='OR'), name='dayhours_hours_fit_kind'),
                ],
            },
        ),
        migrations.CreateModel(
            name='Photo',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('garage', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='photos', to='garage.garage')),
                ('name', models.UUIDField(unique=True)),
                ('width', models.PositiveSmallIntegerField()),
                ('height', models.PositiveSmallIntegerField()),
                ('bytes', models.PositiveIntegerField(verbose_name='of all its files')),
                ('caption', models.CharField(blank=True, max_length=200, verbose_name='what it shows')),
                ('by', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='photos', to='garage.membership')),
                ('at', models.DateTimeField()),
            ],
            options={
                'ordering': ['at', 'pk'],
                'constraints': [
                    models.CheckConstraint(condition=models.Q(('caption__length__gte', 0), ('caption__length__lte', 200)), name='photo_caption_length'),
                    models.CheckConstraint(condition=models.Q(models.Q(('width__gte', 1), ('width__lte', 1600)), ('width__isnull', True), _connector='OR'), name='photo_width_range'),
                    models.CheckConstraint(condition=models.Q(models.Q(('height__gte', 1), ('height__lte', 1600)), ('height__isnull', True), _connector='OR'), name='photo_height_range'),
                ],
            },
        ),
        migrations.CreateModel(
            name='VehiclePhoto',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('photo', models.OneToOneField(on_delete=django.db.models.deletion.CASCADE, related_name='%(class)s', to='garage.photo')),
                ('of', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='photos', to='garage.vehicle')),
            ],
            options={
                'abstract': False,
            },
        ),
        migrations.CreateModel(
            name='Receipt',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('person', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='+', to=settings.AUTH_USER_MODEL)),
                ('key', models.UUIDField()),
                ('digest', models.CharField(max_length=64)),
                ('location', models.CharField(blank=True, max_length=500)),
                ('at', models.DateTimeField(auto_now_add=True)),
            ],
            options={
                'indexes': [
                    models.Index(fields=['at'], name='receipt_by_age'),
                ],
                'constraints': [
                    models.UniqueConstraint(fields=('person', 'key'), name='receipt_once'),
                    models.CheckConstraint(condition=models.Q(('digest__length__gte', 64), ('digest__length__lte', 64)), name='receipt_digest_length'),
                    models.CheckConstraint(condition=models.Q(('location__length__gte', 0), ('location__length__lte', 500)), name='receipt_location_length'),
                ],
            },
        ),
        migrations.CreateModel(
            name='Share',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('garage', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='shares', to='garage.garage')),
                ('vehicle', models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.CASCADE, to='garage.vehicle')),
                ('event', models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.CASCADE, to='garage.event')),
                ('label', models.CharField(blank=True, max_length=60)),
                ('digest', models.CharField(max_length=64, unique=True)),
                ('tail', models.CharField(max_length=4)),
                ('made_by', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, to='garage.membership')),
                ('made_at', models.DateTimeField()),
                ('expires_at', models.DateTimeField()),
                ('revoked_at', models.DateTimeField(blank=True, null=True)),
            ],
            options={
                'ordering': ['-made_at'],
                'constraints': [
                    models.CheckConstraint(condition=models.Q(('label__length__gte', 0), ('label__length__lte', 60)), name='share_label_length'),
                    models.CheckConstraint(condition=models.Q(('digest__length__gte', 64), ('digest__length__lte', 64)), name='share_digest_length'),
                    models.CheckConstraint(condition=models.Q(models.Q(('event__isnull', False), ('vehicle__isnull', True)), models.Q(('event__isnull', True), ('vehicle__isnull', False)), _connector='OR'), name='share_of_one_thing'),
                ],
            },
        ),
    ]
