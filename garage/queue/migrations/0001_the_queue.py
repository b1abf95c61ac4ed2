"""The table of the queue, as the package django-tasks-db 0.13 has it."""

import django_tasks_db.models
import uuid
from django.db import migrations, models


class Migration(migrations.Migration):

    initial = True

    dependencies = [
    ]

    operations = [
        migrations.CreateModel(
            name='DBTaskResult',
            fields=[
                ('id', models.UUIDField(default=uuid.uuid4, editable=False, primary_key=True, serialize=False)),
                ('status', models.CharField(choices=[('READY', 'Ready'), ('RUNNING', 'Running'), ('FAILED', 'Failed'), ('SUCCESSFUL', 'Successful')], default='READY', max_length=10, verbose_name='status')),
                ('enqueued_at', models.DateTimeField(auto_now_add=True, verbose_name='enqueued at')),
                ('started_at', models.DateTimeField(null=True, verbose_name='started at')),
                ('finished_at', models.DateTimeField(null=True, verbose_name='finished at')),
                ('args_kwargs', models.JSONField(verbose_name='args kwargs')),
                ('priority', models.IntegerField(default=0, verbose_name='priority')),
                ('task_path', models.TextField(verbose_name='task path')),
                ('worker_ids', models.JSONField(default=list, verbose_name='worker id')),
                ('queue_name', models.CharField(default='default', max_length=32, verbose_name='queue name')),
                ('backend_name', models.CharField(max_length=32, verbose_name='backend name')),
                ('run_after', models.DateTimeField(verbose_name='run after')),
                ('return_value', models.JSONField(default=None, null=True, verbose_name='return value')),
                ('exception_class_path', models.TextField(verbose_name='exception class path')),
                ('traceback', models.TextField(verbose_name='traceback')),
            ],
            options={
                'verbose_name': 'Task Result',
                'verbose_name_plural': 'Task Results',
                'ordering': [models.OrderBy(models.F('priority'), descending=True), models.OrderBy(models.F('run_after')), models.OrderBy(models.F('enqueued_at'))],
                'indexes': [django_tasks_db.models.ConditionalPartialIndex(models.F('status'), models.OrderBy(models.F('priority'), descending=True), models.OrderBy(models.F('run_after')), models.OrderBy(models.F('enqueued_at')), condition=models.Q(('status', 'READY')), name='tasks_db_new_ordering_idx'), models.Index(fields=['queue_name'], name='django_task_queue_n_99c321_idx'), models.Index(fields=['backend_name'], name='django_task_backend_071754_idx')],
                'constraints': [models.CheckConstraint(condition=models.Q(('priority__range', (-100, 100))), name='priority_range')],
            },
            bases=(django_tasks_db.models.GenericBase, models.Model),
        ),
    ]
