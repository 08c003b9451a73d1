"""What every record of a household's book has in common."""

import uuid
from typing import Any

from django.db import models


class Kept(models.Model):
    """The columns by which a record takes part in merging and in the change feed."""

    # {group: {"version": id of the winning op, "hlc": its stamp as kept}}
    versions = models.JSONField(default=dict)
    # {group: {field: value}}: fields and groups this build does not know, kept as they came (S15)
    extra = models.JSONField(default=dict)
    made_by = models.UUIDField(null=True)
    received_at = models.DateTimeField()

    id: Any

    class Meta:
        abstract = True


class Record(Kept):
    """A record whose id was made on a phone, so that it is unique only within its household (S13)."""

    pk: Any = models.CompositePrimaryKey("household_id", "id")
    household = models.ForeignKey("lawn.Household", on_delete=models.CASCADE, related_name="+", db_index=False)
    id = models.UUIDField()

    household_id: uuid.UUID

    class Meta:
        abstract = True


class SettingsRecord(Record):
    """A record of field groups that can be taken out of the book without being lost."""

    deleted = models.BooleanField(null=True)

    class Meta:
        abstract = True
