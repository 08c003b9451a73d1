"""python -m tests.bench.fill HOUSEHOLD COUNT [PHOTOS]: entries of its keeper into a household, by the book's own code.

With PHOTOS they are ten years of its zones, and so many of them have a photo; without, the smallest there are.

For a bench's own database only. What goes over HTTP in pushes of 200 goes straight in here, many at a time.
"""

import json
import sys
import uuid
from typing import Any

import django

AT_ONCE = 2_000


def fill(household_id: uuid.UUID, count: int, photos: int = 0) -> None:
    """Push `count` entries from a new phone of the household's first member."""
    from django.utils import timezone

    from lawn.book.people import access, devices
    from lawn.book.sync import apply
    from lawn.models import Member, Zone
    from tests.bench.entries import mows, years

    member = access.rows(Member, household_id).order_by("id")[0]
    device, incarnation = devices.register(member, "Bench", timezone.now()), uuid.uuid4()
    zones = [str(zone.id) for zone in access.rows(Zone, household_id).order_by("id")]
    now_ms = int(timezone.now().timestamp() * 1000)
    entries = years(count, zones, now_ms) if photos else mows(count)
    items = [{"t": "entry", **entry} for entry in entries]
    items += [_photo(entry["id"], number) for number, entry in enumerate(entries[-photos:] if photos else [])]
    for at in range(0, len(items), AT_ONCE):
        ops = [_op(at + place + 1, item) for place, item in enumerate(items[at : at + AT_ONCE])]
        pushed = apply.push(household_id, device, incarnation, member, ops, timezone.now())
        if any(result["s"] != "applied" for result in pushed.results):
            raise AssertionError(json.dumps(pushed.results[:3]))


def _photo(entry_id: str, number: int) -> dict[str, Any]:
    """A photo's record with a thumbnail of a usual size; the picture itself is on no phone."""
    from tests import pictures
    from tests.bench.entries import new_id

    thumb = pictures.jpeg(pictures.noise(96, 96, number), quality=60)
    photo = {
        "of": "entry", "of_id": entry_id, "sha256": pictures.name(thumb), "width_px": 1600, "height_px": 1200,
        "size_bytes": 400_000, "thumb": pictures.base64_of(thumb),
    }  # fmt: skip
    return {"t": "photo", "id": new_id(1_700_000_000_000 + number), "set": {"photo": photo}, "base": {"photo": None}}


def _op(dseq: int, item: dict[str, Any]) -> dict[str, Any]:
    said = {"op": str(uuid.uuid4()), "dseq": dseq, "hlc": f"{1_600_000_000_000 + dseq:013d}-0000-abcdef01", "schema": 1}
    return {**said, "m": [item], "hash": f"{dseq:064x}"}


if __name__ == "__main__":
    django.setup()
    fill(uuid.UUID(sys.argv[1]), *(int(given) for given in sys.argv[2:]))
