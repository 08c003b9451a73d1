import django.db.models.deletion
import lawn.models.ids
import hashlib
import uuid
from django.conf import settings
from django.contrib.sessions.backends.db import SessionStore
from django.db import migrations, models
from django.utils import timezone


def give_each_its_id(apps, schema_editor):
    """A default is worked out once for all rows that are there; each needs one of its own."""
    for invitation in apps.get_model("lawn", "Invitation").objects.all():
        invitation.id = uuid.uuid4()
        invitation.save(update_fields=["id"])


def keep_people_signed_in(apps, schema_editor):
    """Bring the sessions that still run into the new table, each under the hash of its key."""
    rows = apps.get_model("sessions", "Session").objects.filter(expire_date__gt=timezone.now())
    kept = apps.get_model("lawn", "Session")
    read = SessionStore()
    for row in rows.iterator():
        person = read.decode(row.session_data).get("_auth_user_id")
        if person:
            key = hashlib.sha256(row.session_key.encode()).hexdigest()
            kept.objects.create(
                session_key=key, session_data=row.session_data, expire_date=row.expire_date, person_id=person
            )


class Migration(migrations.Migration):

    dependencies = [
        ('sessions', '0001_initial'),
        ('lawn', '0005_store_mark'),
    ]

    operations = [
        migrations.CreateModel(
            name='Knock',
            fields=[
                ('key', models.CharField(max_length=64, primary_key=True, serialize=False)),
                ('due', models.FloatField()),
            ],
        ),
        migrations.CreateModel(
            name='Session',
            fields=[
                ('session_key', models.CharField(max_length=64, primary_key=True, serialize=False)),
                ('session_data', models.TextField()),
                ('expire_date', models.DateTimeField()),
                ('person_id', models.UUIDField(null=True)),
            ],
        ),
        migrations.CreateModel(
            name='SignIn',
            fields=[
                ('id', models.UUIDField(default=lawn.models.ids.new_id, editable=False, primary_key=True, serialize=False)),
                ('at', models.DateTimeField()),
                ('ok', models.BooleanField()),
                ('address_part', models.CharField(blank=True, max_length=49)),
                ('agent_part', models.CharField(blank=True, max_length=80)),
                ('session', models.CharField(blank=True, max_length=64)),
            ],
            options={
                'verbose_name': 'sign-in',
            },
        ),
        migrations.AddField(
            model_name='device',
            name='closed_at',
            field=models.DateTimeField(null=True),
        ),
        migrations.AddField(
            model_name='device',
            name='session',
            field=models.CharField(blank=True, default='', max_length=64),
        ),
        migrations.AddField(
            model_name='invitation',
            name='id',
            field=models.UUIDField(default=uuid.uuid4, editable=False, null=True),
        ),
        migrations.RunPython(give_each_its_id, migrations.RunPython.noop),
        migrations.AlterField(
            model_name='invitation',
            name='id',
            field=models.UUIDField(default=uuid.uuid4, editable=False),
        ),
        migrations.AddField(
            model_name='invitation',
            name='withdrawn_at',
            field=models.DateTimeField(blank=True, null=True),
        ),
        migrations.AddConstraint(
            model_name='invitation',
            constraint=models.UniqueConstraint(fields=('household', 'id'), name='invitation_id_once'),
        ),
        migrations.AddIndex(
            model_name='knock',
            index=models.Index(fields=['due'], name='knock_by_due'),
        ),
        migrations.AddConstraint(
            model_name='knock',
            constraint=models.CheckConstraint(condition=models.Q(('due__gt', 0)), name='knock_due_after_1970'),
        ),
        migrations.AddIndex(
            model_name='session',
            index=models.Index(fields=['person_id'], name='session_by_person'),
        ),
        migrations.AddIndex(
            model_name='session',
            index=models.Index(fields=['expire_date'], name='session_by_end'),
        ),
        migrations.AddField(
            model_name='signin',
            name='person',
            field=models.ForeignKey(db_index=False, null=True, on_delete=django.db.models.deletion.CASCADE, related_name='+', to=settings.AUTH_USER_MODEL),
        ),
        migrations.AddIndex(
            model_name='signin',
            index=models.Index(fields=['person', 'at'], name='sign_in_by_person'),
        ),
        migrations.AddIndex(
            model_name='signin',
            index=models.Index(fields=['at'], name='sign_in_by_age'),
        ),
        migrations.RunPython(keep_people_signed_in, migrations.RunPython.noop),
    ]
