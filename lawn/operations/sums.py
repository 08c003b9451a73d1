"""The digest of each household worked out anew from its change rows, past every model and running sum."""

import uuid
from dataclasses import dataclass, field

from django.db import connections

from lawn.book.merging import digest
from lawn.models import Household


@dataclass
class Counted:
    """A household's change rows added up, and what its own row says."""

    stored: digest.Sums
    seq: int
    summed: digest.Sums = field(default_factory=digest.Sums)
    rows: int = 0
    highest: int = 0


def count(using: str = "default", household_id: uuid.UUID | None = None) -> dict[uuid.UUID, Counted]:
    """Return each household, or one, with its rows counted; read in one snapshot for a true answer."""
    connection = connections[using]
    key = Household._meta.pk.get_db_prep_value(household_id, connection)
    one, values = ("", []) if household_id is None else ("WHERE {} = %s", [key])
    with connection.cursor() as cursor:
        cursor.execute(f"SELECT id, digest_a, digest_b, seq FROM lawn_household {one.format('id')}", values)  # noqa: S608
        found = {_id(key): Counted(digest.Sums(a, b), seq) for key, a, b, seq in cursor.fetchall()}
        cursor.execute(f"SELECT household_id, t, id, seq FROM lawn_change {one.format('household_id')}", values)  # noqa: S608
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
