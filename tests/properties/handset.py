"""A phone for the book machine: it writes as tests/sync/phone.py does, and its names are drawn from no chance."""

import hashlib
import uuid
from collections.abc import Set
from datetime import datetime
from typing import Any

from lawn.book.sync import apply, pull
from lawn.models import Device, Member
from tests.sync.phone import Phone, canonical_hash

Op = dict[str, Any]


def name_of(*parts: object) -> str:
    """A UUID that tells nothing of the order in which it was made."""
    digits = hashlib.sha256(repr(parts).encode()).hexdigest()
    return f"{digits[:8]}-{digits[8:12]}-7{digits[12:15]}-a{digits[15:18]}-{digits[18:30]}"


class Handset(Phone):
    """One device in one book, pushed and pulled without HTTP. `line` holds every op it ever numbered."""

    def __init__(self, member: Member, device: Device, number: int, clock_ms: int) -> None:
        super().__init__(self._no_post, device.id, clock_ms)
        self.member, self.row, self.number = member, device, number
        self.incarnation = name_of("line", number)
        # no node of its own: two phones can then make the same stamp, and the ids of their ops decide (S2 b)
        self.node = "00000000"
        self.line: list[Op] = []
        self.heard: Set[str] = frozenset()  # the ops that had reached the book when it last pulled
        self.after: dict[str, frozenset[str]] = {}  # for each op, what its author had heard of

    @staticmethod
    def _no_post(_body: dict[str, Any]) -> dict[str, Any]:
        raise AssertionError("this phone has no network")

    def make_op(self, *items: dict[str, Any], **parts: Any) -> Op:
        """An op under the next number; its id is a name of the phone and the number."""
        op = {"op": name_of(self.number, self.dseq + 1), "dseq": self.dseq + 1, "hlc": self.stamp(), "schema": 1}
        op.update({"m": list(items), **parts})
        return {**op, "hash": canonical_hash(op)}

    def save(self, *items: dict[str, Any]) -> Op:
        """Save an op; remember what was known."""
        op = super().save(*items)
        self.line.append(op)
        self.after[op["op"]] = frozenset(self.heard) | {one["op"] for one in self.line}
        return op

    def push(self, ops: list[Op], now: datetime) -> apply.Pushed:
        """Hand in ops; nothing is taken from the outbox."""
        return apply.push(self.member.household_id, self.row, uuid.UUID(self.incarnation), self.member, ops, now)

    def answered(self, pushed: apply.Pushed) -> None:
        """Take the answer to a push: what was judged no longer waits."""
        judged = {result["op"] for result in pushed.results}
        self.outbox = [op for op in self.outbox if op["op"] not in judged]

    def pull(self, limit: int) -> bool:
        """Take one page; return whether more follow."""
        page = pull.page(self.member.household_id, self.cursor, limit)
        for change in page.changes:
            self.hear(change)
            self.records[f"{change['t']}:{change['id']}"] = change
        self.cursor = page.cursor
        return page.has_more
