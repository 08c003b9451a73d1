"""The log: what was done, seen and counted."""

from django.db import models
from django.db.models import CheckConstraint, Index, Q

from lawn.contract.kinds import entry_kinds
from lawn.models.record import Record


class Entry(Record):
    """A log entry: an unchanging body, and overlay groups by which it is struck out, noted or re-dated.

    Three times stand beside it (S6): occurred_at, which people may edit and code only shows and sums by;
    the stamp of each overlay in `overlays`; and received_at.
    """

    body = models.JSONField()
    # {group: {field: value}}: overlays known to fixtures/kinds/; unknown ones live in `extra`
    overlays = models.JSONField(default=dict)
    # Read from body and overlays when they are written, so that queries need not open the JSON.
    kind = models.CharField(max_length=20)
    occurred_at = models.DateTimeField()
    void = models.BooleanField(default=False)

    class Meta:
        verbose_name_plural = "entries"
        constraints = [
            CheckConstraint(condition=Q(kind__in=entry_kinds()), name="entry_kind_allowed"),
        ]
        indexes = [
            # "the household's standing entries up to a day", folded into totals
            Index(fields=["household", "occurred_at"], name="entry_by_time"),
        ]

    def __str__(self) -> str:
        return f"{self.kind} {self.occurred_at:%Y-%m-%d}"
