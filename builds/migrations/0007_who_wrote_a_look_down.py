"""A look says who wrote it down, and whether somebody from outside looked."""
import django.db.models.deletion
from django.db import migrations, models


class Migration(migrations.Migration):

    dependencies = [
        ('builds', '0006_plans_follow'),
        ('garage', '0006_may_sign_is_given'),
    ]

    operations = [
        migrations.AddField(
            model_name='holdpoint',
            name='outsider',
            field=models.CharField(blank=True, max_length=60, verbose_name='who looked from outside'),
        ),
        migrations.AddField(
            model_name='holdpoint',
            name='written_by',
            field=models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to='garage.membership'),
        ),
        migrations.AddField(
            model_name='job',
            name='signed_outsider',
            field=models.CharField(blank=True, max_length=60, verbose_name='who looked from outside'),
        ),
        migrations.AddField(
            model_name='job',
            name='signed_written_by',
            field=models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to='garage.membership'),
        ),
        migrations.AddField(
            model_name='jointmark',
            name='outsider',
            field=models.CharField(blank=True, max_length=60, verbose_name='who looked from outside'),
        ),
        migrations.AddField(
            model_name='jointmark',
            name='written_by',
            field=models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to='garage.membership'),
        ),
        migrations.AddConstraint(
            model_name='holdpoint',
            constraint=models.CheckConstraint(condition=models.Q(('outsider__length__gte', 0), ('outsider__length__lte', 60)), name='holdpoint_outsider_length'),
        ),
        migrations.AddConstraint(
            model_name='holdpoint',
            constraint=models.CheckConstraint(condition=models.Q(('outsider', ''), ('signed_at__isnull', False), _connector='OR'), name='holdpoint_outsider_signed'),
        ),
        migrations.AddConstraint(
            model_name='job',
            constraint=models.CheckConstraint(condition=models.Q(('signed_outsider__length__gte', 0), ('signed_outsider__length__lte', 60)), name='job_signed_outsider_length'),
        ),
        migrations.AddConstraint(
            model_name='job',
            constraint=models.CheckConstraint(condition=models.Q(('signed_outsider', ''), ('signed_at__isnull', False), _connector='OR'), name='job_outsider_signed'),
        ),
        migrations.AddConstraint(
            model_name='jointmark',
            constraint=models.CheckConstraint(condition=models.Q(('outsider__length__gte', 0), ('outsider__length__lte', 60)), name='jointmark_outsider_length'),
        ),
        migrations.AddConstraint(
            model_name='jointmark',
            constraint=models.CheckConstraint(condition=models.Q(('outsider', ''), ('signs__isnull', False), _connector='OR'), name='jointmark_outsider_signed'),
        ),
    ]
