"""For tests: what a household's book adds up to, read from its rows."""

import uuid
from datetime import date
from typing import Any

from lawn.book.merging import fold
from lawn.book.people import access
from lawn.models import Entry


def totals_of(household_id: uuid.UUID, today: date) -> dict[str, Any]:
    """The totals of a household's book."""
    rows = access.rows(Entry, household_id).only("body", "overlays")
    return fold.totals((fold.as_engine_entry(str(row.id), row.body, row.overlays) for row in rows), today)
