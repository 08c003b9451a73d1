"""The digest of each household worked out anew from its change rows, past every model and running sum."""

import uuid
from dataclasses import dataclass, field

from django.db import connections

from lawn.book import digest


@dataclass
class Counted:
    """A household's change rows added up, and what its own row says."""

    stored: digest.Sums
    seq: int
    summed: digest.Sums = field(default_factory=digest.Sums)
    rows: int = 0
    highest: int = 0


def count(using: str = "default") -> dict[uuid.UUID, Counted]:
    """Return each household with its rows counted; read both tables in one snapshot for a true answer."""
    with connections[using].cursor() as cursor:
        cursor.execute("SELECT id, digest_a, digest_b, seq FROM lawn_household")
        found = {_id(key): Counted(digest.Sums(a, b), seq) for key, a, b, seq in cursor.fetchall()}
        cursor.execute("SELECT household_id, t, id, seq FROM lawn_change")
        while rows := cursor.fetchmany(2000):
            for household, t, record, seq in rows:
                _add(found[_id(household)], t, _id(record), seq)
    return found


def _add(counted: Counted, t: str, record: uuid.UUID, seq: int) -> None:
    counted.summed = digest.with_row(counted.summed, digest.of_row(t, str(record), seq))
    counted.rows += 1
    counted.highest = max(counted.highest, seq)


def _id(value: object) -> uuid.UUID:
    """Return an id as read without a model: SQLite gives text, PostgreSQL an id."""
    return value if isinstance(value, uuid.UUID) else uuid.UUID(str(value))
