"""A second try for ops of a kind the server did not know when they came (F43).

A phone newer than its server sends kinds the server has never heard of; they are parked, whole. After the server's own
update they are applied as if they came now, and travel to every phone; the phone that wrote one sees it come back.
"""

import uuid
from datetime import datetime

from django.apps import AppConfig
from django.db import connections
from django.db.migrations.executor import MigrationExecutor
from django.db.models import QuerySet
from django.utils import timezone

from lawn.book.people import access
from lawn.book.sync import apply, edit
from lawn.book.sync.feed import changing
from lawn.models import ParkedOp

UNKNOWN = "unknown_kind"


def again(now: datetime) -> int:
    """Apply what was parked as of an unknown kind and is known by now; return how many ops were applied."""
    return sum(_again_in(household_id, now) for household_id in access.households_with_parked(UNKNOWN))


def _again_in(household_id: uuid.UUID, now: datetime) -> int:
    """Try one household's, in the order they came; each is a transaction of its own, so one never holds up another."""
    waiting = sorted(_waiting(household_id), key=lambda one: (one.received_at, apply.said_by(one)["dseq"]))
    return sum(_again_one(household_id, parked.id, now) for parked in waiting)


def _again_one(household_id: uuid.UUID, parked_id: uuid.UUID, now: datetime) -> bool:
    parked = _waiting(household_id).get(id=parked_id)
    op = apply.said_by(parked)
    if not edit.knows(op.get("m")):
        return False
    with changing(household_id, edit.most_changes(op.get("m"))) as feed:
        # under the lock another process may be found to have been quicker
        if not _waiting(household_id).filter(id=parked_id).exists():
            return False
        result = apply.apply_late(feed, parked)
        if result["s"] == "parked":
            return False
        apply.settle(parked, "applied", now)
    return True


def _waiting(household_id: uuid.UUID) -> QuerySet[ParkedOp]:
    return access.rows(ParkedOp, household_id).filter(why__code=UNKNOWN, pending=False, settled_at=None)


def after_migrate(sender: AppConfig, using: str, **more: object) -> None:
    """Try again when a migration has brought the database up to this build: a new kind always comes with one."""
    executor = MigrationExecutor(connections[using])
    if not executor.migration_plan(executor.loader.graph.leaf_nodes()):
        again(timezone.now())
