"""What a phone has not yet seen, a page at a time (S10). Reads only: no pull takes SQLite's write lock (S12)."""

import uuid
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from typing import Any

from django.db import connection, transaction
from django.db.models import Model

from lawn.book.merging.digest import Sums
from lawn.book.people import access
from lawn.book.sync import record
from lawn.book.sync.record import NOTHING_AT_HAND, Place
from lawn.models import Change, Household

PAGE = 1000
# A page ends at a megabyte, however few records that may be: what one answer takes of memory has an end.
MOST_BYTES = 1_000_000
# So few, none larger than a push, need not be weighed.
_FEW = 3
# A photo carries a picture of up to 8 kB: a page holds as many fewer of them.
_WEIGHTS = {"photo": 20}


def weight(t: str) -> int:
    """Return how many ordinary records one of this kind counts for in a page."""
    return _WEIGHTS.get(t, 1)


@dataclass(frozen=True)
class Pulled:
    """One page of changes; `digest` is of the whole book at `head`, `reset` asks to begin again from cursor 0."""

    changes: list[dict[str, Any]]
    cursor: int
    head: int
    has_more: bool
    digest: str | None
    epoch: str | None
    reset: bool


@contextmanager
def snapshot() -> Iterator[None]:
    """Open a transaction in which every read sees the same moment and nothing waits for a writer.

    SQLite is set to begin transactions as IMMEDIATE, which takes the write lock; for reading, DEFERRED is right.
    PostgreSQL's default shows each statement a newer moment; REPEATABLE READ holds one.
    """
    if connection.in_atomic_block:
        yield
        return
    with _deferred(), transaction.atomic():
        if connection.vendor == "postgresql":
            with connection.cursor() as cursor:
                cursor.execute("SET TRANSACTION ISOLATION LEVEL REPEATABLE READ, READ ONLY")
        yield


@contextmanager
def _deferred() -> Iterator[None]:
    """Let this thread's next SQLite transaction begin as DEFERRED; elsewhere do nothing."""
    if connection.vendor != "sqlite":
        yield
        return
    sqlite: Any = connection
    sqlite.ensure_connection()  # the mode is read from the settings on connecting
    usual, sqlite.transaction_mode = sqlite.transaction_mode, "DEFERRED"
    try:
        yield
    finally:
        sqlite.transaction_mode = usual


def page(
    household_id: uuid.UUID, cursor: int, limit: int = PAGE, at_hand: Mapping[Place, Model] = NOTHING_AT_HAND
) -> Pulled:
    """Return the changes after `cursor`, oldest first, at most `limit` of them (1 .. 1,000).

    What a push of the same request has just written is `at_hand`: it is not read back.

    A cursor beyond the head was given by a server that has since been restored from a backup: the answer is empty and
    says `reset`, and the phone pulls again from 0, keeping its outbox.
    """
    with snapshot():
        household = access.rows(Household, household_id).get()
        head, reset = household.seq, cursor > household.seq
        found = [] if reset else _after(household_id, cursor, head, limit)
        fits = _fitting(household_id, found, limit)
        changes = record.wired(household_id, found[:fits], at_hand)
    has_more = len(found) > fits
    reached = changes[-1]["seq"] if has_more else head
    sums = Sums(household.digest_a, household.digest_b)
    return Pulled(changes, 0 if reset else reached, head, has_more or reset, sums.text, str(household.epoch), reset)


def _after(household_id: uuid.UUID, cursor: int, head: int, limit: int) -> list[Place]:
    """Return (t, id, seq) of up to limit + 1 changes; the one too many tells that there are more."""
    found = access.rows(Change, household_id).filter(seq__gt=cursor, seq__lte=head).order_by("seq")
    return list(found.values_list("t", "id", "seq")[: limit + 1])


def _fitting(household_id: uuid.UUID, found: list[Place], limit: int) -> int:
    """Return how many of the changes a page holds, by their weight and their bytes; one at least."""
    total, fits = 0, len(found)
    for count, (t, _, _) in enumerate(found):
        total += weight(t)
        if total > limit and count > 0:
            fits = count
            break
    if fits <= _FEW:
        return fits
    return max(1, record.fitting(record.sizes(household_id, found[:fits]), MOST_BYTES))
