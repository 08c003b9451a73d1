"""Stamps that no phone could have been given, and putting them right: they came past the book, or by an older build.

A bad stamp decides nothing any more (`clock.rank`), but it travels to every phone with its record. Mending gives it
the time at which its write reached the server, and moves the record on, so that each phone hears of it.
"""

import copy
import uuid
from collections.abc import Iterator, Mapping
from datetime import datetime
from typing import Any

from lawn.book.merging import clock
from lawn.book.people import access
from lawn.book.sync.feed import Feed, Key, changing
from lawn.book.sync.record import KEPT_MODELS
from lawn.models import Conflict, Op

# A server's own clock may once have been a little ahead; a stamp further ahead than this was never drawn back.
SLACK_MS = 24 * 3600 * 1000


def is_wrong(stamp: object, now: datetime) -> bool:
    """Whether a stamp in the table is none, or is of a time no write can have come from."""
    return not clock.is_stamp(stamp) or int(str(stamp)[:13]) > _ms(now) + clock.AHEAD_MS + SLACK_MS


def wrong_in(household_id: uuid.UUID, now: datetime) -> Iterator[Key]:
    """Yield the records of a household that hold a wrong stamp."""
    for t, model in KEPT_MODELS.items():
        rows: Any = access.rows(model, household_id)
        for record_id, versions in rows.order_by("id").values_list("id", "versions").iterator():
            if any(is_wrong(kept.get("hlc"), now) for kept in versions.values()):
                yield t, record_id
    for record_id, lost in access.rows(Conflict, household_id).order_by("id").values_list("id", "lost").iterator():
        if is_wrong(lost.get("hlc"), now):
            yield "conflict", record_id


def mend(household_id: uuid.UUID, now: datetime) -> int:
    """Put right every wrong stamp of a household; return in how many records. Nothing else of them changes."""
    found = list(wrong_in(household_id, now))
    if not found:
        return 0
    with changing(household_id, len(found)) as feed:
        still = set(wrong_in(household_id, now))  # again, under the lock
        for key in found:
            if key in still:
                (_mend_lost if key[0] == "conflict" else _mend_kept)(feed, key, now)
                feed.touch(*key)
    return len(still)


def _mend_kept(feed: Feed, key: Key, now: datetime) -> None:
    known = feed.row_of(*key)
    if known is None:
        return
    row = copy.copy(known)
    row.versions = {group: _mended(feed, kept, row.received_at, now) for group, kept in known.versions.items()}
    feed.put(key[0], row, ["versions"])


def _mend_lost(feed: Feed, key: Key, now: datetime) -> None:
    rows = access.rows(Conflict, feed.household_id).filter(id=key[1])
    for lost, at in rows.values_list("lost", "at"):
        rows.update(lost=_mended(feed, lost, at, now))


def _mended(feed: Feed, kept: Mapping[str, Any], at: datetime, now: datetime) -> dict[str, Any]:
    """Return a group's mark with its stamp as the book would have kept it when the write came."""
    stamp = kept.get("hlc")
    if not is_wrong(stamp, now):
        return dict(kept)
    came = access.rows(Op, feed.household_id).filter(id=kept["version"]).values_list("received_at", flat=True)
    sound = str(stamp) if clock.is_stamp(stamp) else ""
    return {**kept, "hlc": clock.clamp(sound, _ms(next(iter(came), at)))}


def _ms(moment: datetime) -> int:
    return int(moment.timestamp() * 1000)
