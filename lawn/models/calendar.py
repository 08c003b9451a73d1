"""The secret link by which a member's own calendar reads the steps of the plan."""

import uuid
from typing import Any

from django.db import models
from django.db.models import UniqueConstraint


class CalendarLink(models.Model):
    """One link a member. Only the hash of its token is kept: a stolen table opens no calendar."""

    pk: Any = models.CompositePrimaryKey("household_id", "member_id")
    household = models.ForeignKey("lawn.Household", on_delete=models.CASCADE, related_name="+", db_index=False)
    member_id = models.UUIDField()
    token_hash = models.CharField(max_length=64)
    made_at = models.DateTimeField()

    household_id: uuid.UUID

    class Meta:
        constraints = [
            # serves "whose link is this?", asked before any household is known
            UniqueConstraint(fields=["token_hash"], name="calendar_link_token_once"),
        ]

    def __str__(self) -> str:
        return f"Calendar link of {self.made_at:%Y-%m-%d}"
