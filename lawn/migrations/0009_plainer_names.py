"""Names that say so: the counters of the throttles, and what is pending review."""

from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies = [("lawn", "0008_the_edge_at_the_water")]

    operations = [
        migrations.RemoveIndex(model_name="parkedop", name="parked_held"),
        migrations.RenameField(model_name="parkedop", old_name="held", new_name="pending"),
        migrations.AddIndex(
            model_name="parkedop",
            index=models.Index(fields=["household", "pending", "received_at"], name="parked_pending"),
        ),
        migrations.RenameModel(old_name="Knock", new_name="ThrottleCount"),
        migrations.RenameIndex(model_name="throttlecount", old_name="knock_by_due", new_name="throttle_by_due"),
        migrations.RemoveConstraint(model_name="throttlecount", name="knock_due_after_1970"),
        migrations.AddConstraint(
            model_name="throttlecount",
            constraint=models.CheckConstraint(condition=models.Q(due__gt=0), name="throttle_due_after_1970"),
        ),
    ]
