"""What is said of a job, what guests tick, and who wants news by mail."""

import django.db.models.deletion
from django.db import migrations, models


class Migration(migrations.Migration):

    dependencies = [
        ('builds', '0034_parts_and_drawer'),
        ('garage', '0024_what_guests_and_devices_do'),
    ]

    operations = [
        migrations.CreateModel(
            name='NewsWish',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('evenings', models.BooleanField(default=True, verbose_name='my evening moved')),
                ('points', models.BooleanField(default=True, verbose_name='a point waits for me')),
                ('parts', models.BooleanField(default=True, verbose_name='a part came')),
                ('cars', models.BooleanField(default=True, verbose_name='a car became fit or unfit')),
                ('told', models.JSONField(blank=True, default=dict)),
                ('sent_at', models.DateTimeField(blank=True, null=True)),
                ('member', models.OneToOneField(on_delete=django.db.models.deletion.CASCADE, related_name='news_wish', to='garage.membership')),
            ],
        ),
        migrations.CreateModel(
            name='GuestTick',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('name', models.CharField(max_length=60)),
                ('line', models.CharField(blank=True, max_length=200)),
                ('key', models.CharField(max_length=40)),
                ('said_at', models.DateTimeField()),
                ('state', models.CharField(choices=[('waiting', 'waits for a yes'), ('taken', 'taken'), ('refused', 'not so')], default='waiting', max_length=10)),
                ('answered_at', models.DateTimeField(null=True)),
                ('answered_by', models.ForeignKey(null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to='garage.membership')),
                ('job', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='guest_ticks', to='builds.job')),
                ('share', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='guest_ticks', to='garage.share')),
            ],
            options={
                'ordering': ['said_at', 'pk'],
                'constraints': [models.CheckConstraint(condition=models.Q(('name__length__gte', 1), ('name__length__lte', 60)), name='guesttick_name_length'), models.CheckConstraint(condition=models.Q(('line__length__gte', 0), ('line__length__lte', 200)), name='guesttick_line_length'), models.CheckConstraint(condition=models.Q(('key__length__gte', 1), ('key__length__lte', 40)), name='guesttick_key_length'), models.CheckConstraint(condition=models.Q(('state__in', ['waiting', 'taken', 'refused'])), name='guesttick_state_known'), models.UniqueConstraint(fields=('share', 'key'), name='guesttick_once'), models.UniqueConstraint(condition=models.Q(('state', 'waiting')), fields=('job',), name='guesttick_waits_once'), models.CheckConstraint(condition=models.Q(models.Q(('answered_at__isnull', True), ('answered_by__isnull', True), ('state', 'waiting')), models.Q(models.Q(('state', 'waiting'), _negated=True), ('answered_at__isnull', False), ('answered_by__isnull', False)), _connector='OR'), name='guesttick_answered')],
            },
        ),
        migrations.CreateModel(
            name='JobComment',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('guest', models.CharField(blank=True, max_length=60)),
                ('key', models.CharField(blank=True, max_length=40)),
                ('text', models.CharField(max_length=500)),
                ('at', models.DateTimeField()),
                ('by', models.ForeignKey(null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to='garage.membership')),
                ('job', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='comments', to='builds.job')),
                ('share', models.ForeignKey(null=True, on_delete=django.db.models.deletion.CASCADE, related_name='comments', to='garage.share')),
            ],
            options={
                'ordering': ['at', 'pk'],
                'constraints': [models.CheckConstraint(condition=models.Q(('text__length__gte', 1), ('text__length__lte', 500)), name='jobcomment_text_length'), models.CheckConstraint(condition=models.Q(('guest__length__gte', 0), ('guest__length__lte', 60)), name='jobcomment_guest_length'), models.CheckConstraint(condition=models.Q(('key__length__gte', 0), ('key__length__lte', 40)), name='jobcomment_key_length'), models.CheckConstraint(condition=models.Q(models.Q(('by__isnull', False), ('guest', ''), ('share__isnull', True)), models.Q(('by__isnull', True), ('share__isnull', False), models.Q(('guest', ''), _negated=True)), _connector='OR'), name='jobcomment_by_one'), models.UniqueConstraint(fields=('share', 'key'), name='jobcomment_once')],
            },
        ),
    ]
