"""Writing into a book from the server as a phone would: for demo data, imports and tests.

Nothing here is a way around the rules: what is written goes through `apply.push` like everything else.
"""

import hashlib
import json
import uuid
from collections.abc import Iterable, Sequence
from datetime import datetime
from typing import Any

from lawn.book.sync import apply
from lawn.contract import kinds
from lawn.models import Device, Member
from lawn.models.ids import new_id

Item = dict[str, Any]

_BATCH = 200


class Pen:
    """One device's line of ops, begun afresh: `write` takes items and returns the results of the push."""

    def __init__(self, member: Member, device: Device) -> None:
        self.member, self.device = member, device
        self.incarnation = uuid.uuid4()
        self.dseq = 0

    def op(self, items: Sequence[Item], at: datetime, count: int = 0) -> dict[str, Any]:
        """Return the next op of this line, saying `items`, stamped `at`."""
        self.dseq += 1
        stamp = f"{int(at.timestamp() * 1000):013d}-{count:04x}-{self.incarnation.hex[:8]}"
        said = {"op": str(new_id()), "dseq": self.dseq, "hlc": stamp, "schema": kinds.schema(), "m": list(items)}
        return {**said, "hash": hash_of(said)}

    def write(self, entries: Iterable[Sequence[Item]], now: datetime) -> list[dict[str, Any]]:
        """Push one op for each list of items; return their results. Raises ValueError when the line breaks."""
        ops = [self.op(items, now, count % 0xFFFF) for count, items in enumerate(entries)]
        results: list[dict[str, Any]] = []
        for start in range(0, len(ops), _BATCH):
            batch = ops[start : start + _BATCH]
            household_id = self.member.household_id
            pushed = apply.push(household_id, self.device, self.incarnation, self.member, batch, now)
            if pushed.fork_detected or pushed.need_from is not None:
                raise ValueError("this line of ops is written by another hand as well")
            results.extend(pushed.results)
        return results


def hash_of(said: dict[str, Any]) -> str:
    """Return the SHA-256 a phone sends with an op: of the canonical JSON of {op, dseq, hlc, schema, m}."""
    text = json.dumps(said, sort_keys=True, separators=(",", ":"), ensure_ascii=False)
    return hashlib.sha256(text.encode(errors="surrogatepass")).hexdigest()
