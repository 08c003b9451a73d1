"""The whole book in pages, for a phone that has none of it: settings first, then entries from the newest on.

A phone takes the `head` of its first page as its cursor and pulls from there once it holds the last page: whatever
changed between pages has a later number, so no page need agree with another (F13). A page says where the next begins,
so a phone that was interrupted goes on there (F51).
"""

import base64
import binascii
import json
import re
import uuid
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from django.db.models import Q

from lawn.book.people import access
from lawn.book.sync import record
from lawn.book.sync.pull import MOST_BYTES, snapshot, weight
from lawn.models import Change, Entry, Household

MOST = 2000
# Photos carry a picture each, so they come after what a person reads first.
_LATE = ("entry", "photo", "conflict")
STAGES = [t for t in record.ALL_MODELS if t not in _LATE] + list(_LATE)


# A token read as _token writes it and in no other spelling; moments of the years an entry can have, in UTC.
_LONGEST = 200
_PLACE = re.compile(
    r'\A\["(?P<t>[a-z]{1,20})", "(?P<id>[0-9a-f]{8}(?:-[0-9a-f]{4}){3}-[0-9a-f]{12})"'
    r'(?:, "(?P<at>(?:1899|19..|20..|21..|2200)-[0-9]{2}-[0-9]{2}T[0-9:]{8}(?:\.[0-9]{1,6})?\+00:00)")?\]\Z'
)


class BadToken(ValueError):
    """The token is none of ours."""


@dataclass(frozen=True)
class Booted:
    """One page: where the book stood, whole records, and the token of the next page; None on the last."""

    epoch: str
    head: int
    records: list[dict[str, Any]]
    after: str | None


def page(household_id: uuid.UUID, after: str | None, limit: int) -> Booted:
    """Return up to `limit` (1 .. 2,000) records after a token, or the first ones; raise BadToken."""
    stage, last = read(after)
    records: list[dict[str, Any]] = []
    left, token = MOST_BYTES, None
    with snapshot():
        household = access.rows(Household, household_id).get()
        for t in STAGES[STAGES.index(stage) :]:
            room = max(1, (limit - len(records)) // weight(t))
            keys = _keys(household_id, t, last, room)
            weights = record.sizes(household_id, [(t, record_id, 0) for record_id, _ in keys])
            fits = record.fitting(weights, left) or (0 if records else 1)
            records += _whole(household_id, t, keys[:fits])
            token = _token(t, *keys[fits - 1]) if fits and keys else token
            if fits < len(keys) or len(keys) == room:
                return Booted(str(household.epoch), household.seq, records, token)
            left, last = left - sum(weights), None
    return Booted(str(household.epoch), household.seq, records, None)


_Place = tuple[uuid.UUID, datetime | None]


def _keys(household_id: uuid.UUID, t: str, last: _Place | None, room: int) -> list[_Place]:
    """Return the places of up to `room` records of one kind after a place."""
    if t == "entry":
        entries = access.rows(Entry, household_id)
        if last is not None:
            entries = entries.filter(Q(occurred_at__lt=last[1]) | Q(occurred_at=last[1], id__lt=last[0]))
        return list(entries.order_by("-occurred_at", "-id").values_list("id", "occurred_at")[:room])
    rows = access.rows(Change, household_id).filter(t=t)
    if last is not None:
        rows = rows.filter(id__gt=last[0])
    return [(record_id, None) for record_id in rows.order_by("id").values_list("id", flat=True)[:room]]


def _whole(household_id: uuid.UUID, t: str, keys: list[_Place]) -> list[dict[str, Any]]:
    """Return whole records by their places, in the same order."""
    ids = [record_id for record_id, _ in keys]
    seqs = dict(access.rows(Change, household_id).filter(t=t, id__in=ids).values_list("id", "seq"))
    return record.wired(household_id, [(t, record_id, seqs[record_id]) for record_id in ids])


def _token(t: str, record_id: uuid.UUID, at: datetime | None = None) -> str:
    parts = [t, str(record_id), *([at.isoformat()] if at else [])]
    return base64.urlsafe_b64encode(json.dumps(parts).encode()).decode().rstrip("=")


def read(token: str | None) -> tuple[str, _Place | None]:
    """Return the stage and place a token names, the very beginning for none; raise BadToken."""
    if token is None:
        return STAGES[0], None
    if len(token) > _LONGEST:
        raise BadToken
    try:
        said = base64.b64decode(token.encode() + b"=" * (-len(token) % 4), altchars=b"-_", validate=True).decode()
    except (binascii.Error, ValueError) as bad:
        raise BadToken from bad
    found = _PLACE.match(said)
    if found is None or found["t"] not in STAGES or (found["t"] == "entry") != (found["at"] is not None):
        raise BadToken
    return found["t"], (uuid.UUID(found["id"]), _moment(found["at"]))


def _moment(written: str | None) -> datetime | None:
    try:
        return None if written is None else datetime.fromisoformat(written)
    except ValueError as bad:
        raise BadToken from bad
