"""The change feed of one household: one counter, taken first, held to the end (S7, S10)."""

import uuid
from collections.abc import Iterable, Iterator
from contextlib import contextmanager

from django.db import connection, transaction

from lawn.book import access, digest
from lawn.models import Change, Household

# The first write of every transaction that changes a book: it is lock and allocator in one. Reading the number and
# saving it again loses rows under several writers, on every database.
_TAKE = f"UPDATE {Household._meta.db_table} SET seq = seq + %s WHERE id = %s RETURNING seq, digest_a, digest_b"  # noqa: S608

Key = tuple[str, uuid.UUID]


class Feed:
    """The numbers one transaction may give out, and the running digest. Make it by `changing`."""

    def __init__(self, household_id: uuid.UUID, most: int, top: int, sums: digest.Sums) -> None:
        """Hold the numbers top - most + 1 .. top of a household."""
        self.household_id = household_id
        self.seq = top - most
        self._top = top
        self._sums = sums
        # where each record asked about now stands in the order of changes; None where it is not in the book
        self._places: dict[Key, int | None] = {}

    def foresee(self, keys: Iterable[Key]) -> None:
        """Look up many records' places at once, so that `place_of` need not ask for each."""
        wanted: dict[str, list[uuid.UUID]] = {}
        for t, record_id in keys:
            self._places[(t, record_id)] = None
            wanted.setdefault(t, []).append(record_id)
        for t, ids in wanted.items():
            found = access.rows(Change, self.household_id).filter(t=t, id__in=ids)
            self._places.update({(t, record_id): seq for record_id, seq in found.values_list("id", "seq")})

    def place_of(self, t: str, record_id: uuid.UUID) -> int | None:
        """Return a record's number in the order of changes; None where the book has no such record."""
        if (t, record_id) not in self._places:
            self.foresee([(t, record_id)])
        return self._places[(t, record_id)]

    def touch(self, t: str, record_id: uuid.UUID) -> int:
        """Move a record's change row to the next number and return it; raise ValueError when they have run out."""
        if self.seq >= self._top:
            raise ValueError("more changes than numbers taken")
        self.seq += 1
        self._move(t, record_id)
        self._sums = digest.with_row(self._sums, digest.of_row(t, str(record_id), self.seq))
        return self.seq

    def _move(self, t: str, record_id: uuid.UUID) -> None:
        old = self.place_of(t, record_id)
        self._places[(t, record_id)] = self.seq
        if old is None:
            Change(household_id=self.household_id, t=t, id=record_id, seq=self.seq).save(force_insert=True)
            return
        access.rows(Change, self.household_id).filter(t=t, id=record_id).update(seq=self.seq)
        self._sums = digest.without_row(self._sums, digest.of_row(t, str(record_id), old))

    @contextmanager
    def attempt(self) -> Iterator[None]:
        """Open a savepoint; when its body raises, numbers and digest go back with the rows."""
        before = self.seq, self._sums, dict(self._places)
        try:
            with transaction.atomic():
                yield
        except BaseException:
            self.seq, self._sums, self._places = before
            raise

    def settle(self) -> None:
        """Give back the numbers not used and store the digest; the row is still locked by the first write."""
        access.rows(Household, self.household_id).update(seq=self.seq, digest_a=self._sums.a, digest_b=self._sums.b)


def _take(household_id: uuid.UUID, most: int) -> tuple[int, digest.Sums]:
    key = Household._meta.pk.get_db_prep_value(household_id, connection)
    with connection.cursor() as cursor:
        cursor.execute(_TAKE, [most, key])
        taken = cursor.fetchall()
    if not taken:
        raise Household.DoesNotExist(str(household_id))
    top, a, b = taken[0]
    return top, digest.Sums(a, b)


@contextmanager
def changing(household_id: uuid.UUID, most: int) -> Iterator[Feed]:
    """Open a transaction whose first write takes up to `most` change numbers of the household.

    Raises Household.DoesNotExist for an unknown household.
    """
    with transaction.atomic():
        top, sums = _take(household_id, most)
        feed = Feed(household_id, most, top, sums)
        yield feed
        feed.settle()
