"""python -m tests.bench.fill HOUSEHOLD COUNT: entries of its keeper into a household's book, by the book's own code.

For a bench's own database only. What goes over HTTP in pushes of 200 goes straight in here, many at a time.
"""

import json
import sys
import uuid
from typing import Any

import django

AT_ONCE = 2_000


def fill(household_id: uuid.UUID, count: int) -> None:
    """Push `count` small mows from a new phone of the household's first member."""
    from django.utils import timezone

    from lawn.book.people import access, devices
    from lawn.book.sync import apply
    from lawn.models import Member
    from tests.bench.entries import mows

    member = access.rows(Member, household_id).order_by("id")[0]
    device, incarnation = devices.register(member, "Bench", timezone.now()), uuid.uuid4()
    entries = mows(count)
    for at in range(0, count, AT_ONCE):
        ops = [_op(at + place + 1, entry) for place, entry in enumerate(entries[at : at + AT_ONCE])]
        pushed = apply.push(household_id, device, incarnation, member, ops, timezone.now())
        if any(result["s"] != "applied" for result in pushed.results):
            raise AssertionError(json.dumps(pushed.results[:3]))


def _op(dseq: int, entry: dict[str, Any]) -> dict[str, Any]:
    said = {"op": str(uuid.uuid4()), "dseq": dseq, "hlc": f"{1_600_000_000_000 + dseq:013d}-0000-abcdef01", "schema": 1}
    return {**said, "m": [{"t": "entry", **entry}], "hash": f"{dseq:064x}"}


if __name__ == "__main__":
    django.setup()
    fill(uuid.UUID(sys.argv[1]), int(sys.argv[2]))
