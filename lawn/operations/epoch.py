"""A new epoch for every household when the store may lack what it once acknowledged (S11, F55).

The phones then push again what they keep of the last 30 days; what the store has is known again by its ids.

After `restore` that is plain. A PostgreSQL standby that is promoted says nothing of itself, and with asynchronous
replication the last seconds of its primary are gone. But it begins a new timeline (PostgreSQL documentation, 26.3.5
"Timelines"), as does a cluster recovered to an earlier moment, and a cluster loaded from a dump has another system
identifier. Both are compared on every new connection, before it serves anyone.
"""

import logging
import uuid
from typing import Any

from django.db import ProgrammingError, connections, transaction
from django.db.backends.base.base import BaseDatabaseWrapper
from django.utils import timezone

from lawn.models import Household, StoreMark

log = logging.getLogger(__name__)

# The timeline is read from the name of the file now written. The control file would tell it too, but only from the
# first checkpoint after the promotion on, seconds too late. While in recovery nothing is written: no mark.
_MARK = """
    SELECT CASE WHEN pg_is_in_recovery() THEN NULL ELSE
        (SELECT system_identifier FROM pg_control_system()) || '/' || left(pg_walfile_name(pg_current_wal_lsn()), 8)
    END
"""
# The mark this process has compared last: the same again needs no look at the table.
_compared: dict[str, str] = {}


def begin_new(using: str = "default") -> int:
    """Give every household a new epoch, in one transaction; return how many there are."""
    with transaction.atomic(using=using):
        found = list(Household.objects.using(using).select_for_update().only("id", "epoch").order_by("id"))
        for household in found:
            household.epoch = uuid.uuid4()
        Household.objects.using(using).bulk_update(found, ["epoch"], batch_size=500)
    return len(found)


def mark_of(connection: BaseDatabaseWrapper) -> str | None:
    """Return "system identifier/timeline" of a PostgreSQL server that takes writes.

    None on SQLite, on a standby, and where a hosted server does not let us ask (`doctor` says so).
    """
    if connection.vendor != "postgresql":
        return None
    try:
        with connection.cursor() as cursor:
            cursor.execute(_MARK)
            found = cursor.fetchone()
    except ProgrammingError as refused:
        log.debug("The server does not say which one it is: %s", refused)
        return None
    return str(found[0]) if found and found[0] else None


def compare(using: str = "default") -> int:
    """Begin a new epoch where the store stands on another server or timeline; return how many households got one.

    Whoever comes first moves the mark and the epochs in one transaction; all others wait for it and find it done.
    """
    mark = mark_of(connections[using])
    if mark is None or _compared.get(using) == mark:
        return 0
    changed = _move(using, mark)
    _compared[using] = mark
    return changed


def _move(using: str, mark: str) -> int:
    marks, now = StoreMark.objects.using(using), timezone.now()
    with transaction.atomic(using=using):
        if not marks.filter(id=1).exclude(mark=mark).update(mark=mark, seen_at=now):
            marks.bulk_create([StoreMark(id=1, mark=mark, seen_at=now)], ignore_conflicts=True)
            return 0
        changed = begin_new(using)
    words = "The database is another server or was recovered (%s): %d households begin a new epoch and phones refill."
    log.warning(words, mark, changed)
    return changed


def on_connection(connection: BaseDatabaseWrapper, **_: Any) -> None:
    """Compare on a new connection. A store that is not migrated yet has no mark, and nothing to lose."""
    if connection.alias not in connections:
        return  # one that Django makes to create or drop databases
    try:
        compare(connection.alias)
    except ProgrammingError:
        if StoreMark._meta.db_table in connection.introspection.table_names():
            raise
