"""Operations from phones, applied to a household's book (S7, S8).

`push` is the one way in: for the sync endpoint, and for whatever else writes into a book as a phone would (see
`lawn.book.author`). What each op does to a record is in `lawn.book.edit`; this file is about order and answers.

An op is a dict {op, dseq, hlc, schema, hash, m}: its id (UUIDv7 text), its number in the phone's line, its stamp, the
schema it was made under, the phone's SHA-256 over the rest, and its items. An item is {t, id, body?, set?, base?}.
"""

import hashlib
import json
import logging
import uuid
from collections.abc import Iterable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, field
from datetime import datetime
from typing import Any

from django.db import InterfaceError, OperationalError

from lawn.book import access, edit
from lawn.book.edit import Author, Parked
from lawn.book.feed import Feed, changing
from lawn.models import Device, Member, Op, ParkedOp, Stream

log = logging.getLogger(__name__)

Wire = dict[str, Any]

_REUSED = {
    "code": "op_reused",
    "message": "Another entry was already sent under this number. This one is kept aside, whole.",
}
_TROUBLE = {
    "code": "server_trouble",
    "message": "The server could not work with this entry. It is kept aside, whole, for the operator to look at.",
}
_UNREADABLE = {
    "code": "unreadable_text",
    "message": "A text in this entry holds characters that cannot be stored. The entry is kept aside, whole.",
}


@dataclass
class Pushed:
    """What became of a push: a result an op, and where the phone's line stands."""

    results: list[Wire] = field(default_factory=list)
    acked_dseq: int = 0
    need_from: int | None = None
    fork_detected: bool = False


def push(
    household_id: uuid.UUID,
    device: Device,
    incarnation: uuid.UUID,
    member: Member,
    ops: Sequence[Wire],
    now: datetime,
    confirmed_dseq: int = 0,
) -> Pushed:
    """Apply ops of one phone in the order of their numbers; return their results.

    The whole push is one transaction and each op a savepoint in it, so that one bad op takes nothing with it. The
    envelope of every op must be well formed (the serializers see to it); what is inside may be anything.
    Raises Household.DoesNotExist. Database trouble (locked, gone, full) is raised, never written down as a verdict.
    """
    most = sum(edit.most_changes(op.get("m")) for op in ops)
    with changing(household_id, most) as feed:
        feed.foresee(key for op in ops for key in edit.keys_of(op.get("m")))
        line = _Line(feed, device, incarnation, member, now)
        line.recall(op["op"] for op in ops)
        for op in sorted(ops, key=lambda op: op["dseq"]):
            if not line.take(op):
                break
        line.close(confirmed_dseq)
    return line.pushed


def standing(household_id: uuid.UUID, device: Device, incarnation: uuid.UUID) -> Pushed:
    """Return where a phone's line stands, for a sync that pushes nothing; reads only."""
    found = access.rows(Stream, household_id).filter(device_id=device.id, incarnation=incarnation).first()
    return Pushed(acked_dseq=found.acked_dseq if found else 0)


def content_hash(op: Wire) -> str:
    """Return a hash of what an op says, leaving out its number: after a fork the same op comes under a new one."""
    said = {key: op.get(key) for key in ("op", "hlc", "schema", "m")}
    return hashlib.sha256(json.dumps(said, sort_keys=True, separators=(",", ":")).encode()).hexdigest()


class _Line:
    """One phone's numbered line of ops, as far as the server has answered it."""

    def __init__(self, feed: Feed, device: Device, incarnation: uuid.UUID, member: Member, now: datetime) -> None:
        self._feed, self._device, self._member, self._now = feed, device, member, now
        key = {"device_id": device.id, "incarnation": incarnation}
        found = access.rows(Stream, feed.household_id).filter(**key).first()
        if found is None:
            found = Stream(household_id=feed.household_id, **key)
            found.save(force_insert=True)
        self._stream = found
        self.pushed = Pushed(acked_dseq=found.acked_dseq)
        self._known: dict[uuid.UUID, Op] = {}
        self._new: list[Op] = []

    def recall(self, ids: Iterable[str]) -> None:
        """Look up which of these ops were answered before."""
        known = access.rows(Op, self._feed.household_id).filter(id__in=[uuid.UUID(op) for op in ids])
        self._known = {op.id: op for op in known}

    def take(self, op: Wire) -> bool:
        """Answer one op; return False where the line stops: a gap, or a number another op has used (S8)."""
        if op["dseq"] > self.pushed.acked_dseq + 1:
            self.pushed.need_from = self.pushed.acked_dseq + 1
            return False
        known = self._known.get(uuid.UUID(op["op"]))
        if known is None and op["dseq"] <= self.pushed.acked_dseq:
            self.pushed.fork_detected = True
            return False
        result = self._first_time(op) if known is None else self._again(op, known)
        self.pushed.results.append(result)
        self.pushed.acked_dseq = max(self.pushed.acked_dseq, op["dseq"])
        return True

    def close(self, confirmed_dseq: int) -> None:
        """Store the answers given, and where the line stands."""
        access.add(self._new)
        access.rows(Stream, self._feed.household_id).filter(
            device_id=self._stream.device_id, incarnation=self._stream.incarnation
        ).update(acked_dseq=self.pushed.acked_dseq, confirmed_dseq=confirmed_dseq)
        access.rows(Device, self._feed.household_id).filter(id=self._device.id).update(last_seen_at=self._now)

    def _again(self, op: Wire, known: Op) -> Wire:
        if op["hash"] == known.hash or content_hash(op) == known.content_hash:
            # What was parked stays "parked" in every answer: the phone must list it however often the answer was lost.
            verdict = known.result["s"] if known.result["s"] == "parked" else "duplicate"
            return {**known.result, "s": verdict, "was": known.result["s"]}
        return self._park(op, _REUSED)

    def _first_time(self, op: Wire) -> Wire:
        result = self._park(op, _UNREADABLE) if _unreadable(op) else self._apply(op)
        answered = Op(
            household_id=self._feed.household_id,
            id=uuid.UUID(op["op"]),
            device_id=self._device.id,
            incarnation=self._stream.incarnation,
            dseq=op["dseq"],
            member_id=self._member.id,
            hlc=op["hlc"],
            schema=op["schema"],
            hash=op["hash"],
            content_hash=content_hash(op),
            result=result,
            received_at=self._now,
        )
        self._known[answered.id] = answered
        self._new.append(answered)
        return result

    def _apply(self, op: Wire) -> Wire:
        author = Author(self._member, op["op"], op["hlc"], self._now)
        try:
            with self._feed.attempt(), _trouble_parks(op):
                lost = edit.apply_items(self._feed, author, op.get("m"))
        except Parked as parked:
            return self._park(op, parked.why)
        return {
            "op": op["op"],
            "s": "applied" if lost is None else "merged",
            "seq": self._feed.seq,
            "lost": lost.groups if lost else [],
            "why": lost.why if lost else None,
        }

    def _park(self, op: Wire, why: Wire) -> Wire:
        kept = {"hash": op["hash"], "op": uuid.UUID(op["op"])}
        if not access.rows(ParkedOp, self._feed.household_id).filter(**kept).exists():
            ParkedOp(
                household_id=self._feed.household_id,
                device_id=self._device.id,
                member_id=self._member.id,
                raw={"text": json.dumps(op)} if _unreadable(op) else op,
                why=why,
                received_at=self._now,
                **kept,
            ).save(force_insert=True)
        return {"op": op["op"], "s": "parked", "seq": None, "lost": [], "why": why}


@contextmanager
def _trouble_parks(op: Wire) -> Iterator[None]:
    """Turn an error nobody foresaw into a parked op (F15); a database in trouble means "later" instead (S9)."""
    try:
        yield
    except (Parked, OperationalError, InterfaceError):
        raise
    except Exception as error:
        log.exception("Op %s could not be applied", op["op"])
        raise Parked(_TROUBLE) from error


def _unreadable(op: Wire) -> bool:
    """Whether a text holds NUL or half a surrogate pair, which PostgreSQL or UTF-8 cannot store."""
    text = json.dumps(op, ensure_ascii=False)
    if "\\u0000" in text and "\x00" in "".join(_texts(op)):
        return True
    return any("\ud800" <= letter <= "\udfff" for letter in text)


def _texts(value: object) -> Iterator[str]:
    """Yield every text in a JSON value, names of fields included."""
    if isinstance(value, str):
        yield value
    elif isinstance(value, dict):
        for name, inner in value.items():
            yield str(name)
            yield from _texts(inner)
    elif isinstance(value, list):
        for inner in value:
            yield from _texts(inner)
