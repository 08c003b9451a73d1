"""Finding what a phone holds wrongly (F52): the digest of a part of the book, in ever smaller parts.

The book is parted into buckets by the first hex digits of a hash of "t|id". A phone whose digest differs compares the
16 buckets, goes into those that differ, and at last takes the few records of one bucket whole.
"""

import uuid
from collections.abc import Iterable
from typing import Any

from lawn.book.merging import digest
from lawn.book.merging.digest import Sums
from lawn.book.people import access
from lawn.book.sync import record
from lawn.book.sync.pull import MOST_BYTES, snapshot
from lawn.models import Change, Household

# A bucket with no more records than this is sent whole; so is one that is parted as far as pays. One too heavy for an
# answer is parted to the last digit, and then not sent: the phone fetches the whole book anew.
FEW = 64
PAYS_TO = 4
LONGEST_PREFIX = 8
_DIGITS = "0123456789abcdef"

Row = tuple[str, str, int]


def whole(rows: Iterable[Row]) -> Sums:
    """Return the digest of (t, id, seq) rows, worked out anew."""
    sums = Sums()
    for row in rows:
        sums = digest.with_row(sums, digest.of_row(*row))
    return sums


def parted(rows: Iterable[Row], prefix: str) -> dict[str, list[Row]]:
    """Return {next digit: rows} of the bucket `prefix`, all 16 digits present; under "" what has no next digit."""
    found: dict[str, list[Row]] = {digit: [] for digit in ("", *_DIGITS)}
    for row in rows:
        bucket = digest.bucket_of(row[0], row[1])
        if bucket.startswith(prefix):
            found[bucket[len(prefix) : len(prefix) + 1]].append(row)
    return found


def rows_of(household_id: uuid.UUID) -> list[Row]:
    """Return (t, id, seq) of every record of a household."""
    found = access.rows(Change, household_id).order_by("seq").values_list("t", "id", "seq")
    return [(t, str(record_id), seq) for t, record_id, seq in found]


def bucket(household_id: uuid.UUID, prefix: str) -> dict[str, Any]:
    """Return {head, prefix, count, digest} of a bucket (0 .. 4 hex digits), with its `children` or its `records`."""
    with snapshot():
        head = access.rows(Household, household_id).get().seq
        children = parted(rows_of(household_id), prefix)
        rows = sorted((row for part in children.values() for row in part), key=lambda row: row[2])
        answer = {"head": head, "prefix": prefix, **_sums(rows)}
        parts = {"children": {digit: _sums(part) for digit, part in children.items() if digit}}
        if len(rows) > FEW and len(prefix) < PAYS_TO:
            return {**answer, **parts}
        found = [(t, uuid.UUID(record_id), seq) for t, record_id, seq in rows]
        if len(found) > 1 and sum(record.sizes(household_id, found)) > MOST_BYTES:
            return {**answer, **parts}
        return {**answer, "records": record.wired(household_id, found)}


def _sums(rows: list[Row]) -> dict[str, Any]:
    return {"count": len(rows), "digest": whole(rows).text}
