"""What keeps a household's phones alike: the change feed, the ledger of operations, and what did not merge."""

import uuid
from typing import Any

from django.db import models
from django.db.models import CheckConstraint, Index, Q, UniqueConstraint

from lawn.models.ids import new_id


class Change(models.Model):
    """One row per record, moved to the newest seq whenever the record changes (S10)."""

    pk: Any = models.CompositePrimaryKey("household_id", "t", "id")
    household = models.ForeignKey("lawn.Household", on_delete=models.CASCADE, related_name="+", db_index=False)
    t = models.CharField(max_length=20)
    id = models.UUIDField()
    seq = models.BigIntegerField()

    household_id: uuid.UUID

    class Meta:
        constraints = [
            # serves "changes after a cursor, in order", and trips if the counter is ever taken twice (S7)
            UniqueConstraint(fields=["household", "seq"], name="change_seq_once"),
            CheckConstraint(condition=Q(seq__gte=1), name="change_seq_from_one"),
        ]

    def __str__(self) -> str:
        return f"{self.seq}: {self.t} {self.id}"


class Stream(models.Model):
    """The numbered line of operations of one incarnation of one device: 1, 2, 3 ... (S5)."""

    pk: Any = models.CompositePrimaryKey("household_id", "device_id", "incarnation")
    household = models.ForeignKey("lawn.Household", on_delete=models.CASCADE, related_name="+", db_index=False)
    device_id = models.UUIDField()
    incarnation = models.UUIDField()
    acked_dseq = models.BigIntegerField(default=0)
    confirmed_dseq = models.BigIntegerField(default=0)

    household_id: uuid.UUID

    class Meta:
        constraints = [
            CheckConstraint(condition=Q(acked_dseq__gte=0), name="stream_acked_not_negative"),
        ]

    def __str__(self) -> str:
        return f"{self.device_id} at {self.acked_dseq}"


class Op(models.Model):
    """An operation the server has answered for good; sent again, it gets the same answer (S8)."""

    pk: Any = models.CompositePrimaryKey("household_id", "id")
    household = models.ForeignKey("lawn.Household", on_delete=models.CASCADE, related_name="+", db_index=False)
    id = models.UUIDField()
    device_id = models.UUIDField()
    incarnation = models.UUIDField()
    dseq = models.BigIntegerField()
    member_id = models.UUIDField()
    hlc = models.CharField(max_length=40)
    schema = models.IntegerField()
    # as the phone computed it, over the number in its line as well
    hash = models.CharField(max_length=64)
    # as the server computed it, without the number: a renumbered op after a fork is still the same op
    content_hash = models.CharField(max_length=64)
    result = models.JSONField()
    received_at = models.DateTimeField()

    household_id: uuid.UUID

    class Meta:
        constraints = [
            # a second op under a number already used means that the phone was restored or cloned
            UniqueConstraint(
                fields=["household", "device_id", "incarnation", "dseq"],
                name="op_number_once",
            ),
            CheckConstraint(condition=Q(dseq__gte=1), name="op_dseq_from_one"),
        ]

    def __str__(self) -> str:
        return f"{self.id} ({self.result.get('s')})"


class Hole(models.Model):
    """A number in a phone's line whose op was never sent: it could not be, or was discarded there (F56)."""

    pk: Any = models.CompositePrimaryKey("household_id", "device_id", "incarnation", "dseq")
    household = models.ForeignKey("lawn.Household", on_delete=models.CASCADE, related_name="+", db_index=False)
    device_id = models.UUIDField()
    incarnation = models.UUIDField()
    dseq = models.BigIntegerField()
    op = models.UUIDField()
    at = models.DateTimeField()

    household_id: uuid.UUID

    class Meta:
        constraints = [
            CheckConstraint(condition=Q(dseq__gte=1), name="hole_dseq_from_one"),
        ]

    def __str__(self) -> str:
        return f"{self.device_id} without {self.dseq}"


# How a parked op left the keeper's list: a keeper's yes or no, or the server's own second try.
SETTLED_AS = ["accepted", "declined", "applied"]


class ParkedOp(models.Model):
    """An operation that could not be applied, whole and as it came, with the reason a person can read."""

    pk: Any = models.CompositePrimaryKey("household_id", "id")
    household = models.ForeignKey("lawn.Household", on_delete=models.CASCADE, related_name="parked_ops", db_index=False)
    id = models.UUIDField(default=new_id)
    op = models.UUIDField()
    hash = models.CharField(max_length=64)
    device_id = models.UUIDField()
    member_id = models.UUIDField()
    raw = models.JSONField()
    why = models.JSONField()
    received_at = models.DateTimeField()
    # handed in by someone no longer in the household: it waits for a keeper (S22)
    pending = models.BooleanField(default=False)
    # once it was applied after all, or declined; the row stays either way (P7)
    settled_at = models.DateTimeField(null=True, blank=True)
    settled_as = models.CharField(max_length=20, null=True, blank=True)
    # the keeper who settled it; null where the server did, having learned the kind
    settled_by = models.UUIDField(null=True, blank=True)

    household_id: uuid.UUID

    class Meta:
        constraints = [
            # "is this op, with this content, parked already?"
            UniqueConstraint(fields=["household", "op", "hash"], name="parked_once"),
            CheckConstraint(condition=Q(settled_as__in=SETTLED_AS), name="parked_settled_as_allowed"),
            CheckConstraint(
                condition=Q(settled_at__isnull=True, settled_as__isnull=True)
                | Q(settled_at__isnull=False, settled_as__isnull=False),
                name="parked_settled_whole",
            ),
        ]
        indexes = [
            # "what waits for the keeper, in the order it came?"
            Index(fields=["household", "pending", "received_at"], name="parked_pending"),
        ]

    def __str__(self) -> str:
        return f"{self.op}: {self.why.get('code')}"


class Conflict(models.Model):
    """A group that lost against another phone's, kept so that it can be restored (P7)."""

    pk: Any = models.CompositePrimaryKey("household_id", "id")
    household = models.ForeignKey("lawn.Household", on_delete=models.CASCADE, related_name="conflicts", db_index=False)
    id = models.UUIDField(default=new_id)
    t = models.CharField(max_length=20)
    record_id = models.UUIDField()
    group = models.CharField(max_length=60)
    # {"value": {...}, "version": op or null, "hlc": stamp, "by": member}
    lost = models.JSONField()
    won = models.UUIDField()
    at = models.DateTimeField()

    household_id: uuid.UUID

    class Meta:
        indexes = [
            # "what was lost on this record?", shown beside the record
            Index(fields=["household", "t", "record_id"], name="conflict_by_record"),
        ]

    def __str__(self) -> str:
        return f"{self.t} {self.record_id}: {self.group}"
