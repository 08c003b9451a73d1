"""Operations from phones, applied to a household's book (S7, S8).

`push` is the one way in: for the sync endpoint, and for whatever else writes into a book as a phone would (see
`lawn.book.sync.author`). What each op does to a record is in `lawn.book.sync.edit`; this file is about order and
answers.

An op is a dict {op, dseq, hlc, schema, hash, m}: its id (UUIDv7 text), its number in the phone's line, its stamp, the
schema it was made under, the phone's SHA-256 over the rest, and its items. An item is {t, id, body?, set?, base?}.
"""

import json
import logging
import uuid
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager, nullcontext
from dataclasses import dataclass, field
from datetime import datetime
from typing import Any

from django.conf import settings
from django.db import InterfaceError, OperationalError, transaction
from django.db.models import Model

from lawn.book.people import access
from lawn.book.sync import edit, reasons
from lawn.book.sync.edit import Author, Parked
from lawn.book.sync.feed import Feed, changing
from lawn.book.sync.record import Place
from lawn.contract import content
from lawn.models import Device, Hole, Member, Op, ParkedOp, Stream

log = logging.getLogger(__name__)

Wire = dict[str, Any]

# What a former member may hand in for the keeper to look at; more is refused for now and stays on their phone.
MOST_PENDING = 2_000
MOST_PENDING_BYTES = 8_000_000
# A push that has met as many concurrent writes ends there; what it holds besides comes with the phone's next.
MOST_CONFLICTS = 500
ONLY_A_KEEPER = "Only a keeper of the household decides about entries to review."

_LATER = (OperationalError, InterfaceError)  # locked, gone, full: never a verdict on an op (S9)


class TooManyPending(Exception):
    """A former member has handed in as much as is held for one person."""


class BookFull(Exception):
    """The household's phones have written as much as this server keeps for one."""


@dataclass
class Pushed:
    """What became of a push: a result an op, where the phone's line stands, and the entries as they now are."""

    results: list[Wire] = field(default_factory=list)
    acked_dseq: int = 0
    need_from: int | None = None
    fork_detected: bool = False
    entries: dict[Place, Model] = field(default_factory=dict)


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

    The whole push is one transaction; what an op that cannot be applied has begun is taken back, and it takes nothing
    with it. The envelope of every op must be well formed (the serializers see to it); what is inside may be anything.
    Membership and phone count as they stand once the lock is held (A11): NoAccess where either ended while it was
    waited for. Raises Household.DoesNotExist, and BookFull with nothing done. Database trouble (locked, gone, full) is
    raised, never written down as a verdict.
    """
    most = sum(edit.most_changes(op.get("m")) for op in ops)
    with changing(household_id, most) as feed:
        member = access.as_now(member)
        device = access.device_of(member, device.id)
        feed.foresee(key for op in ops for key in edit.keys_of(op.get("m")))
        begin = _beginning(feed, device, incarnation, member, ops, now)
        line = _together(begin, feed, ops) or _singly(begin(), ops)
        line.close(confirmed_dseq)
        line.pushed.entries = feed.entries
    return line.pushed


def hold(
    household_id: uuid.UUID,
    device: Device,
    incarnation: uuid.UUID,
    member: Member,
    ops: Sequence[Wire],
    now: datetime,
) -> Pushed:
    """Keep the ops of someone no longer in the household for a keeper to look at (S22); each is answered as parked.

    Raises TooManyPending when this person has handed in MOST_PENDING, or MOST_PENDING_BYTES: what does not fit stays on
    their phone; NoAccess where they are in the household again by now: their next round is a push like any other.
    Raises BookFull as `push` does.
    """
    with changing(household_id, 0) as feed:
        if access.rows(Member, household_id).filter(id=member.id, active=True).exists():
            raise access.NoAccess("pending_review")
        handed_in = list(
            access.rows(ParkedOp, household_id).filter(pending=True, member_id=member.id).values_list("id", flat=True)
        )
        weight = sum(access.sizes(ParkedOp, household_id, handed_in).values())
        weight += sum(len(content.text_of(op)) for op in ops)
        if len(handed_in) + len(ops) > MOST_PENDING or weight > MOST_PENDING_BYTES:
            raise TooManyPending
        line = _beginning(feed, device, incarnation, member, ops, now)()
        line.pending = True
        line.take_all(ops)
        line.close(0)
    return line.pushed


def apply_late(feed: Feed, parked: ParkedOp) -> Wire:
    """Apply an op that was parked, as its author's, and answer its phone so from now on; return the result.

    When it still cannot be applied it stays parked, under the reason it now has.
    """
    op = said_by(parked)
    feed.foresee(edit.keys_of(op.get("m")))
    member = access.rows(Member, feed.household_id).get(id=parked.member_id)
    author = Author(member, op["op"], op["hlc"], parked.received_at)
    try:
        unfit = _unfit(op)
        if unfit:
            raise Parked(unfit)
        result = _applied(feed, author, op, write=True)
    except Parked as still:
        access.rows(ParkedOp, feed.household_id).filter(id=parked.id).update(why=still.why)
        return _verdict_parked(op, still.why)
    access.rows(Op, feed.household_id).filter(id=parked.op).update(result=result)
    return result


def said_by(parked: ParkedOp) -> Wire:
    """Return a parked op as it came."""
    op: Wire = json.loads(parked.raw["text"]) if set(parked.raw) == {"text"} else parked.raw
    return op


def accept_pending(keeper: Member, pending_id: uuid.UUID, now: datetime) -> Wire:
    """Apply an op pending review as its author's; return the result.

    Raises NoAccess for what is not pending here or is settled, PermissionError for who is no keeper by now (A11).
    """
    most = edit.most_changes(said_by(_pending(keeper.household_id, pending_id)).get("m"))
    with changing(keeper.household_id, most) as feed:
        access.keeper_now(keeper, ONLY_A_KEEPER)
        parked = _pending(keeper.household_id, pending_id)  # again, under the lock: it may have been settled meanwhile
        result = apply_late(feed, parked)
        if result["s"] != "parked":
            settle(parked, "accepted", now, keeper.id)
    return result


def decline_pending(keeper: Member, pending_id: uuid.UUID, now: datetime) -> None:
    """Mark an op pending review as declined; it stays, whole. Raises as `accept_pending` does."""
    with changing(keeper.household_id, 0):
        access.keeper_now(keeper, ONLY_A_KEEPER)
        settle(_pending(keeper.household_id, pending_id), "declined", now, keeper.id)


def settle(parked: ParkedOp, how: str, now: datetime, by: uuid.UUID | None = None) -> None:
    """Mark a parked op as accepted, declined or applied."""
    access.rows(ParkedOp, parked.household_id).filter(id=parked.id).update(
        settled_at=now, settled_as=how, settled_by=by
    )


def _pending(household_id: uuid.UUID, pending_id: uuid.UUID) -> ParkedOp:
    found = access.rows(ParkedOp, household_id).filter(id=pending_id, pending=True, settled_at=None).first()
    if found is None:
        raise access.NoAccess("pending_review")
    return found


def standing(household_id: uuid.UUID, device: Device, incarnation: uuid.UUID) -> Pushed:
    """Return where a phone's line stands, for a sync that pushes nothing; reads only."""
    found = access.rows(Stream, household_id).filter(device_id=device.id, incarnation=incarnation).first()
    return Pushed(acked_dseq=found.acked_dseq if found else 0)


def _beginning(
    feed: Feed, device: Device, incarnation: uuid.UUID, member: Member, ops: Sequence[Wire], now: datetime
) -> Callable[[], "_Line"]:
    """Look up where a phone's line stands; return what begins it there, as often as it is asked."""
    key = {"device_id": device.id, "incarnation": incarnation}
    stream = access.rows(Stream, feed.household_id).filter(**key).first()
    if stream is None:
        stream = Stream(household_id=feed.household_id, **key)
        access.add([stream])
    ids = [uuid.UUID(op["op"]) for op in ops]
    known = {str(op.id): vars(op) for op in access.rows(Op, feed.household_id).filter(id__in=ids)}
    return lambda: _Line(feed, device, stream, member, now, known)


def _together(begin: Callable[[], "_Line"], feed: Feed, ops: Sequence[Wire]) -> "_Line | None":
    """Apply the ops and write what they gathered in few queries; None, with nothing done, where the database objects.

    Then one of them says what it cannot hold, and `_singly` finds out which.
    """
    line = begin()
    try:
        with feed.attempt(), transaction.atomic():
            line.take_all(ops)
            feed.flush()
    except (BookFull, *_LATER):
        raise
    except Exception:
        log.exception("A push could not be written at once; its ops are tried one by one")
        return None
    return line


def _singly(line: "_Line", ops: Sequence[Wire]) -> "_Line":
    """Apply the ops one by one, each with a savepoint of its own."""
    line.write = True
    line.take_all(ops)
    return line


def _applied(feed: Feed, author: Author, op: Wire, write: bool) -> Wire:
    """Apply an op and return its result; raise Parked. With `write` the database is asked to hold it at once."""
    with feed.attempt(), _trouble_parks(op), transaction.atomic() if write else nullcontext():
        lost = edit.apply_items(feed, author, op.get("m"))
        if write:
            feed.flush()
    return {
        "op": op["op"],
        "s": "applied" if lost is None else "merged",
        "seq": feed.seq,
        "lost": lost.groups if lost else [],
        "why": lost.why if lost else None,
    }


def _unfit(op: Wire, text: str | None = None) -> Wire | None:
    """Return why an op cannot be looked into at all; None for one that can."""
    if content.unreadable(op, text):
        return reasons.UNREADABLE
    if content.is_too_deep(op, text):
        return reasons.TOO_DEEP
    return reasons.TOO_LARGE if content.is_too_large(op, text) else None


def _verdict_parked(op: Wire, why: Wire) -> Wire:
    return {"op": op["op"], "s": "parked", "seq": None, "lost": [], "why": why}


class _Line:
    """One phone's numbered line of ops, as far as the server has answered it."""

    pending = False  # whether every op is kept for a keeper
    write = False  # whether each op is written as it is taken

    def __init__(
        self, feed: Feed, device: Device, stream: Stream, member: Member, now: datetime, known: dict[str, Wire]
    ) -> None:
        self._feed, self._device, self._stream, self._member, self._now = feed, device, stream, member, now
        self.pushed = Pushed(acked_dseq=stream.acked_dseq)
        self._known = dict(known)
        self._new: list[Wire] = []  # ledger rows, by their columns
        self._parked: dict[tuple[uuid.UUID, str], ParkedOp] = {}
        self._holes: list[Hole] = []

    def take_all(self, ops: Sequence[Wire]) -> None:
        """Answer ops in the order of their numbers, until the line stops."""
        for op in sorted(ops, key=lambda op: op["dseq"]):
            if self._feed.losses >= MOST_CONFLICTS or not self.take(op):
                break

    def take(self, op: Wire) -> bool:
        """Answer one op; return False where the line stops: a gap, or a number another op has used (S8)."""
        if op["dseq"] > self.pushed.acked_dseq + 1:
            self.pushed.need_from = self.pushed.acked_dseq + 1
            return False
        known = self._known.get(op["op"])
        if known is None and op["dseq"] <= self.pushed.acked_dseq:
            self.pushed.fork_detected = True
            return False
        result = self._first_time(op) if known is None else self._again(op, known)
        self.pushed.results.append(result)
        self.pushed.acked_dseq = max(self.pushed.acked_dseq, op["dseq"])
        return True

    def close(self, confirmed_dseq: int) -> None:
        """Store the answers given, and where the line stands."""
        access.insert(Op, self._new)
        access.add(list(self._parked.values()))
        access.add(self._holes)
        access.rows(Stream, self._feed.household_id).filter(
            device_id=self._stream.device_id, incarnation=self._stream.incarnation
        ).update(acked_dseq=self.pushed.acked_dseq, confirmed_dseq=confirmed_dseq)
        access.rows(Device, self._feed.household_id).filter(id=self._device.id).update(last_seen_at=self._now)

    def _again(self, op: Wire, known: Wire) -> Wire:
        if op["hash"] == known["hash"] or content.hash_of(content.text_of(op)) == known["content_hash"]:
            # What was parked stays "parked" in every answer: the phone must list it however often the answer was lost.
            was = known["result"]["s"]
            return {**known["result"], "s": was if was == "parked" else "duplicate", "was": was}
        self._take_in(content.text_of(op))
        return self._park(op, reasons.REUSED)

    def _first_time(self, op: Wire) -> Wire:
        text = content.text_of(op)
        self._take_in(text)
        result = self._answer(op, text)
        answered = {
            "household_id": self._feed.household_id,
            "id": uuid.UUID(op["op"]),
            "device_id": self._device.id,
            "incarnation": self._stream.incarnation,
            "dseq": op["dseq"],
            "member_id": self._member.id,
            "hlc": op["hlc"],
            "schema": op["schema"],
            "hash": op["hash"],
            "content_hash": content.hash_of(text),
            "result": result,
            "received_at": self._now,
        }
        self._known[op["op"]] = answered
        self._new.append(answered)
        return result

    def _take_in(self, text: str) -> None:
        """Count what is written towards what a household may write; raise BookFull."""
        self._feed.taken_bytes += len(text)
        if self._feed.taken_bytes > settings.BOOK_BYTES:
            raise BookFull

    def _answer(self, op: Wire, text: str) -> Wire:
        if op.get("m") == []:
            return self._hole(op)
        if self.pending:
            return self._park(op, reasons.PENDING)
        unfit = _unfit(op, text)
        if unfit:
            return self._park(op, unfit)
        try:
            author = Author(self._member, op["op"], op["hlc"], self._now)
            return _applied(self._feed, author, op, self.write)
        except Parked as parked:
            return self._park(op, parked.why)

    def _hole(self, op: Wire) -> Wire:
        """List a number that carries nothing, so that the numbers after it go on (F56)."""
        self._holes.append(
            Hole(
                household_id=self._feed.household_id,
                device_id=self._device.id,
                incarnation=self._stream.incarnation,
                dseq=op["dseq"],
                op=uuid.UUID(op["op"]),
                at=self._now,
            )
        )
        return {"op": op["op"], "s": "applied", "seq": None, "lost": [], "why": reasons.HOLE}

    def _park(self, op: Wire, why: Wire) -> Wire:
        key = (uuid.UUID(op["op"]), op["hash"])
        kept = {"op": key[0], "hash": key[1]}
        if key not in self._parked and not access.rows(ParkedOp, self._feed.household_id).filter(**kept).exists():
            self._parked[key] = ParkedOp(
                household_id=self._feed.household_id,
                device_id=self._device.id,
                member_id=self._member.id,
                raw={"text": json.dumps(op)} if content.unreadable(op) else op,
                why=why,
                pending=why is reasons.PENDING,
                received_at=self._now,
                **kept,
            )
        return _verdict_parked(op, why)


@contextmanager
def _trouble_parks(op: Wire) -> Iterator[None]:
    """Turn an error nobody foresaw into a parked op (F15); a database in trouble means "later" instead (S9)."""
    try:
        yield
    except (Parked, *_LATER):
        raise
    except Exception as error:
        log.exception("Op %s could not be applied", op["op"])
        raise Parked(reasons.TROUBLE) from error
