"""The store itself: which database server holds it."""

from django.db import models
from django.db.models import CheckConstraint, Q


class StoreMark(models.Model):
    """The database server, and the line of its history, that this store was last seen on; one row (S11).

    A standby that was promoted, or a cluster brought back to an earlier moment, goes on along a new line and may lack
    what was acknowledged before. `lawn.operations.epoch` compares.
    """

    id = models.SmallIntegerField(primary_key=True, default=1)
    mark = models.CharField(max_length=80)
    seen_at = models.DateTimeField()

    class Meta:
        constraints = [CheckConstraint(condition=Q(id=1), name="store_mark_is_one_row")]

    def __str__(self) -> str:
        return self.mark
