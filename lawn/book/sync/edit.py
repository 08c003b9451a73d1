"""What one op does to the records it names: check, then merge, then write."""

import copy
import json
import uuid
from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import datetime
from typing import Any

from lawn.book.merging import clock
from lawn.book.merging.merge import Lost, Merged, Sets, merge_record
from lawn.book.sync import record
from lawn.book.sync.feed import Feed, Key
from lawn.contract import kinds
from lawn.contract.forms import is_id
from lawn.models import Conflict, Entry, Member
from lawn.models.record import Kept

Item = dict[str, Any]


# Of each kind a book holds as many records as the engine takes in one list, those taken out of it included.
MOST_RECORDS = {
    "zone": 1000,
    "product": 1000,
    "spreader": 1000,
    "mower": 1000,
    "weather_month": 600,
    "plan": 200,
    "step": 5000,
}
# What one record may hold of groups, and of fields this build does not know; how many records and groups one op may
# write.
MOST_GROUPS = 40
MOST_UNKNOWN_BYTES = 16_000
MOST_WRITES = 500
# As a conflict's group has room for (lawn.models.change).
_LONGEST_NAME = 60


class Parked(Exception):
    """The op cannot be applied; `why` = {code, message, fields?} is for a person to read."""

    def __init__(self, why: dict[str, Any]) -> None:
        super().__init__(why["code"])
        self.why = why


@dataclass(frozen=True)
class Author:
    """Who wrote an op, which op it is, its stamp, and when it reached the server."""

    member: Member
    op: str
    hlc: str
    now: datetime

    @property
    def stamp(self) -> str:
        """The op's stamp, held to the server's clock (S2 b)."""
        return clock.clamp(self.hlc, int(self.now.timestamp() * 1000))


@dataclass
class Losses:
    """What met a concurrent write: `groups` are those in which this op's value does not stand."""

    groups: list[str] = field(default_factory=list)

    @property
    def why(self) -> dict[str, Any]:
        """The sentence shown with a merged op."""
        if self.groups:
            message = "Someone else changed the same thing at the same time, and theirs stands. Yours is kept."
        else:
            message = "Someone else changed the same thing at the same time. Yours stands; theirs is kept."
        return {"code": "merged", "message": message}


def most_changes(items: object) -> int:
    """Return the most change rows an op can move: each item's record, and a conflict for each group and a deletion."""
    if not isinstance(items, list):
        return 0
    sets = [item.get("set") for item in items if isinstance(item, dict)]
    return sum(2 + (len(groups) if isinstance(groups, dict) else 0) for groups in sets)


def knows(items: object) -> bool:
    """Whether this server knows the kind of every record an op names."""
    named = items if isinstance(items, list) else []
    kinds_named = [item.get("t") for item in named if isinstance(item, dict)]
    return all(isinstance(t, str) and t in record.KEPT_MODELS for t in kinds_named)


def keys_of(items: object) -> list[Key]:
    """Return the records an op names, as far as it is well formed."""
    named = [item for item in items if isinstance(item, dict)] if isinstance(items, list) else []
    known = [item for item in named if isinstance(item.get("t"), str) and item["t"] in record.KEPT_MODELS]
    return [(item["t"], uuid.UUID(item["id"])) for item in known if is_id(item.get("id"))]


def apply_items(feed: Feed, author: Author, items: object) -> Losses | None:
    """Apply every item of an op; return what met a concurrent write, or None. Raises Parked: then nothing is done."""
    if not isinstance(items, list):
        raise _parked("malformed", "The entry says nothing.")
    formed = [_well_formed(item) for item in items]
    if sum(1 + len(item["set"]) for item in formed) > MOST_WRITES:
        raise _parked("too_much", f"The entry writes more than {MOST_WRITES} records and groups at once.")
    if len({(item["t"], item["id"]) for item in formed}) < len(formed):
        raise _parked("malformed", "The entry names one record twice.")
    met = [_apply_item(feed, author, item) for item in formed]
    told = [merged for merged in met if merged.lost]
    if not told:
        return None
    return Losses([lost.group for merged in told for lost in merged.lost if lost.write.version == author.op])


def _parked(code: str, message: str, fields: dict[str, str] | None = None) -> Parked:
    return Parked({"code": code, "message": message, **({"fields": fields} if fields else {})})


def _well_formed(item: object) -> Item:
    """Return the item with every part present; raise Parked for one of the wrong form."""
    if not isinstance(item, dict) or not isinstance(item.get("t"), str) or not is_id(item.get("id")):
        raise _parked("malformed", "The entry names no record.")
    sets, base = item.get("set") or {}, item.get("base") or {}
    if not isinstance(sets, dict) or not isinstance(base, dict) or not (sets or "body" in item):
        raise _parked("malformed", "The entry changes nothing.")
    if not all(0 < len(name) <= _LONGEST_NAME for name in _names(item, sets)):
        raise _parked("malformed", f"A kind, group or field has a name that is not 1 to {_LONGEST_NAME} letters long.")
    if item["t"] not in record.KEPT_MODELS:
        if item["t"] == "conflict":
            raise _parked("not_allowed", "Only the server writes conflicts.")
        raise _parked("unknown_kind", f"This server does not know “{item['t']}” yet. The entry is kept aside, whole.")
    return {**item, "set": sets, "base": base}


def _names(item: Item, sets: dict[str, Any]) -> Iterator[str]:
    """Yield what names a part of the item: they are stored, or told in an answer, and so have a limit."""
    yield item["t"]
    yield from sets
    for fields in (item.get("body"), *sets.values()):
        if isinstance(fields, dict):
            yield from fields


def _apply_item(feed: Feed, author: Author, item: Item) -> Merged:
    t, record_id = item["t"], uuid.UUID(item["id"])
    _check(author, item)
    known = feed.row_of(t, record_id)
    if known is None:
        _check_room(feed, t)
        row = _new_row(feed.household_id, author, item)
    else:
        row = copy.copy(known)
        if "body" in item:
            _same_body(row, item["body"])
    sets = Sets(author.op, author.stamp, str(author.member.id), item["set"], item["base"])
    merged = merge_record(record.groups_of(row, t), sets)
    if known is None or merged.changed:
        columns = _write(row, t, merged)
        _check_measure(row, known)
        feed.put(t, row, columns)
        feed.touch(t, record_id)
    for lost in merged.lost:
        _keep(feed, author, item, lost, merged)
    return merged


def _check(author: Author, item: Item) -> None:
    """Raise Parked for what this member may not write, or what the contract forbids."""
    member = author.member
    t, sets = item["t"], item["set"]
    if t == "household" and not member.is_keeper:
        raise _parked("not_allowed", "Only a keeper changes the household.")
    if t == "member" and item["id"] != str(member.id):
        raise _parked("not_allowed", "Members change only their own name and units.")
    if any(kinds.server_only(t, group) for group in sets):
        raise _parked("not_allowed", "Roles and membership are changed on the server.")
    wrong: dict[str, str] = {}
    for group, value in sets.items():
        wrong.update(kinds.check_group(t, group, value, author.now))
    if "body" in item:
        wrong.update(
            kinds.check_body(item["body"], author.now) if t == "entry" else {"body": "Only log entries have a body."}
        )
    if wrong:
        raise _parked("invalid", " ".join(wrong.values()), wrong)


def _check_measure(row: Kept, known: Kept | None) -> None:
    """Raise Parked where a record has grown past what one may hold; what was larger before may be changed as ever."""
    if len(row.versions) > MOST_GROUPS and (known is None or len(row.versions) > len(known.versions)):
        raise _parked(
            "too_much", f"A record holds at most {MOST_GROUPS} groups of fields. This one is kept aside, whole."
        )
    size = _unknown_bytes(row)
    if size > MOST_UNKNOWN_BYTES and (known is None or size > _unknown_bytes(known)):
        message = (
            f"This server does not know {size} bytes of what this record holds, and keeps {MOST_UNKNOWN_BYTES}. "
            "The entry is kept aside, whole."
        )
        raise _parked("too_much", message)


def _unknown_bytes(row: Kept) -> int:
    unknown: list[Any] = [row.extra] if row.extra else []
    if isinstance(row, Entry):
        known = kinds.body_fields(row.kind)
        unknown += [[name, value] for name, value in row.body.items() if name not in known]
    return sum(len(json.dumps(one)) for one in unknown)


def _check_room(feed: Feed, t: str) -> None:
    """Raise Parked where the book has no room for one more record of a kind."""
    most = MOST_RECORDS.get(t)
    if most is not None and feed.count_of(t) >= most:
        message = (
            f"A book has room for {most} records of the kind {t}, those taken out of it included. This one is kept "
            "aside, whole: change one that is there in its place."
        )
        raise _parked("too_many", message)


def _new_row(household_id: uuid.UUID, author: Author, item: Item) -> Kept:
    """Return a row not yet saved; raise Parked where a phone may not bring it, or brings it without its body."""
    if item["t"] in record.SERVER_MADE:
        raise _parked("unknown_record", "This household has no such record.")
    row = record.KEPT_MODELS[item["t"]](received_at=author.now, made_by=author.member.id)
    row.household_id = household_id  # type: ignore[attr-defined]
    row.id = uuid.UUID(item["id"])
    if isinstance(row, Entry):
        if "body" not in item:
            raise _parked("unknown_record", "The log entry this belongs to is not in the book.")
        row.body, row.kind = item["body"], item["body"]["kind"]
        row.occurred_at = record.moment_of(row.body["occurred_at"])
    return row


def _same_body(row: Kept, body: object) -> None:
    if isinstance(row, Entry) and row.body != body:
        raise _parked("body_differs", "A log entry with this id is in the book already and says something else.")


def _write(row: Kept, t: str, merged: Merged) -> list[str]:
    """Set the columns of the groups that changed, and no others; return their names."""
    columns = record.columns(t, row, {group: merged.groups[group] for group in merged.changed})
    for name, value in columns.items():
        setattr(row, name, value)
    return list(columns)


def _keep(feed: Feed, author: Author, item: Item, lost: Lost, merged: Merged) -> None:
    """Keep a losing write as a conflict record, which travels to every phone (P7), with who wrote either side."""
    won_by = next((write.by for write in merged.groups.values() if write.version == lost.won), None)
    write = lost.write
    feed.keep(
        Conflict(
            household_id=feed.household_id,
            t=item["t"],
            record_id=uuid.UUID(item["id"]),
            group=lost.group,
            lost={"value": write.value, "version": write.version, "hlc": write.hlc, "by": write.by, "won_by": won_by},
            won=uuid.UUID(lost.won),
            at=author.now,
        )
    )
