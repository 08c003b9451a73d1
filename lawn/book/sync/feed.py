"""The change feed of one household: one counter, taken first, held to the end (S7, S10).

A `Feed` is one transaction on the book. It knows the rows its ops name, gathers what they write, and writes it
together: many small ops then cost few queries. What one op gathered can be taken back without touching the database.
"""

import uuid
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from typing import Any

from django.db import connection, transaction
from django.db.models import Model

from lawn.book.merging import digest
from lawn.book.people import access
from lawn.book.sync import record
from lawn.models import Change, Conflict, Entry, Household
from lawn.models.record import Kept

# The first write of every transaction that changes a book: it is lock and allocator in one. Reading the number and
# saving it again loses rows under several writers, on every database.
_TAKE = (
    f"UPDATE {Household._meta.db_table} SET seq = seq + %s WHERE id = %s RETURNING seq, digest_a, digest_b, taken_bytes"  # noqa: S608
)

Key = tuple[str, uuid.UUID]


class Feed:
    """The numbers one transaction may give out, the running digest, and what waits to be written. See `changing`."""

    def __init__(self, household_id: uuid.UUID, most: int, top: int, sums: digest.Sums, taken_bytes: int) -> None:
        """Hold the numbers top - most + 1 .. top of a household."""
        # what its phones have written so far, and how many writes of this transaction met a concurrent one
        self.taken_bytes, self.losses = taken_bytes, 0
        self.household_id = household_id
        self.seq = top - most
        self._top = top
        self._sums = sums
        # where each record asked about now stands in the order of changes; None where it is not in the book
        self._places: dict[Key, int | None] = {}
        self._rows: dict[Key, Kept] = {}
        # what waits to be written: change rows to make or to move, new rows, columns of known rows, conflicts
        self._born: dict[Key, int] = {}
        self._moved: dict[Key, int] = {}
        self._new: dict[Key, Kept] = {}
        self._changed: dict[Key, frozenset[str]] = {}
        self._conflicts: dict[Key, Conflict] = {}
        # (dict, key, what stood there): how an attempt is taken back
        self._journal: list[tuple[dict[Key, Any], Key, Any]] = []

    # --- looking -------------------------------------------------------------------------------
    def foresee(self, keys: Iterable[Key]) -> None:
        """Look up many records and their places at once, so that nothing need be read while ops are applied."""
        wanted: dict[str, list[uuid.UUID]] = {}
        for key in keys:
            if key not in self._places:
                self._places[key] = None
                wanted.setdefault(key[0], []).append(key[1])
        for t, ids in wanted.items():
            found = access.rows(Change, self.household_id).filter(t=t, id__in=ids).values_list("id", "seq")
            self._places.update({(t, record_id): seq for record_id, seq in found})
            if t in record.KEPT_MODELS and found:
                model: type[Any] = record.KEPT_MODELS[t]
                rows = access.rows(model, self.household_id)
                self._rows.update({(t, row.id): row for row in rows.filter(id__in=[one for one, _ in found])})

    def place_of(self, t: str, record_id: uuid.UUID) -> int | None:
        """Return a record's number in the order of changes; None where the book has no such record."""
        if (t, record_id) not in self._places:
            self.foresee([(t, record_id)])
        return self._places[(t, record_id)]

    def row_of(self, t: str, record_id: uuid.UUID) -> Kept | None:
        """Return a record as it stands, with what was gathered; to change it, `put` another in its place."""
        self.place_of(t, record_id)
        return self._rows.get((t, record_id))

    def count_of(self, t: str) -> int:
        """Return how many records of a kind the book has, those that wait to be written included."""
        model: type[Any] = record.KEPT_MODELS[t]
        return access.rows(model, self.household_id).count() + sum(key[0] == t for key in self._new)

    @property
    def entries(self) -> dict[record.Place, Model]:
        """The log entries met, at the places where they now stand; their columns travel as they came."""
        met = ((key, self._places[key], row) for key, row in self._rows.items() if isinstance(row, Entry))
        return {(*key, place): row for key, place, row in met if place is not None}

    # --- gathering -----------------------------------------------------------------------------
    def put(self, t: str, row: Kept, columns: Iterable[str]) -> None:
        """Gather a record: all of a new one, the named columns of a known one."""
        key = (t, row.id)
        if self._rows.get(key) is None or key in self._new:
            self._set(self._new, key, row)
        else:
            self._set(self._changed, key, self._changed.get(key, frozenset()) | frozenset(columns))
        self._set(self._rows, key, row)

    def keep(self, conflict: Conflict) -> None:
        """Gather a conflict and give it its place."""
        key = ("conflict", conflict.id)
        self._set(self._places, key, None)  # new by its making: it need not be looked for
        self._set(self._conflicts, key, conflict)
        self.losses += 1
        self.touch(*key)

    def touch(self, t: str, record_id: uuid.UUID) -> int:
        """Move a record's change row to the next number and return it; raise ValueError when they have run out."""
        if self.seq >= self._top:
            raise ValueError("more changes than numbers taken")
        key, old = (t, record_id), self.place_of(t, record_id)
        self.seq += 1
        self._set(self._places, key, self.seq)
        self._set(self._born if old is None or key in self._born else self._moved, key, self.seq)
        if old is not None:
            self._sums = digest.without_row(self._sums, digest.of_row(t, str(record_id), old))
        self._sums = digest.with_row(self._sums, digest.of_row(t, str(record_id), self.seq))
        return self.seq

    def _set(self, where: dict[Key, Any], key: Key, value: Any) -> None:
        self._journal.append((where, key, where.get(key, _ABSENT)))
        where[key] = value

    @contextmanager
    def attempt(self) -> Iterator[None]:
        """When the body raises, take back all it gathered; attempts may stand within attempts."""
        before, mark = (self.seq, self._sums, self.taken_bytes, self.losses), len(self._journal)
        try:
            yield
        except BaseException:
            self.seq, self._sums, self.taken_bytes, self.losses = before
            for where, key, old in reversed(self._journal[mark:]):
                if old is _ABSENT:
                    del where[key]
                else:
                    where[key] = old
            del self._journal[mark:]
            raise

    # --- writing -------------------------------------------------------------------------------
    def flush(self) -> None:
        """Write what was gathered, in few queries. In an attempt, this must be its last act."""
        for t in dict.fromkeys(key[0] for key in self._new):
            access.add([row for key, row in self._new.items() if key[0] == t])
        for (t, record_id), columns in self._changed.items():
            row = self._rows[(t, record_id)]
            values = {name: getattr(row, name) for name in sorted(columns)}
            model: type[Any] = record.KEPT_MODELS[t]
            access.rows(model, self.household_id).filter(id=record_id).update(**values)
        access.add(list(self._conflicts.values()))
        access.insert(Change, [self._columns(key, seq) for key, seq in self._born.items()])
        access.move([Change(**self._columns(key, seq)) for key, seq in self._moved.items()])
        for gathered in (self._new, self._changed, self._conflicts, self._born, self._moved):
            gathered.clear()
        self._journal.clear()

    def _columns(self, key: Key, seq: int) -> dict[str, Any]:
        """Return the columns of a record's change row."""
        return {"household_id": self.household_id, "t": key[0], "id": key[1], "seq": seq}

    def settle(self) -> None:
        """Give back the numbers not used and store the digest; the row is still locked by the first write."""
        self.flush()
        access.rows(Household, self.household_id).update(
            seq=self.seq, digest_a=self._sums.a, digest_b=self._sums.b, taken_bytes=self.taken_bytes
        )


_ABSENT = object()


def _take(household_id: uuid.UUID, most: int) -> tuple[int, digest.Sums, int]:
    key = Household._meta.pk.get_db_prep_value(household_id, connection)
    with connection.cursor() as cursor:
        cursor.execute(_TAKE, [most, key])
        taken = cursor.fetchall()
    if not taken:
        raise Household.DoesNotExist(str(household_id))
    top, a, b, taken_bytes = taken[0]
    return top, digest.Sums(a, b), taken_bytes


@contextmanager
def changing(household_id: uuid.UUID, most: int) -> Iterator[Feed]:
    """Open a transaction whose first write takes up to `most` change numbers of the household.

    Raises Household.DoesNotExist for an unknown household.
    """
    with transaction.atomic():
        feed = Feed(household_id, most, *_take(household_id, most))
        yield feed
        feed.settle()
