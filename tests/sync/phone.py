"""A phone for tests: it stores, numbers, pushes and pulls as sync.md says a phone does, and nothing more.

Written from the rules, apart from the server's code: it has its own digest, hash and stamps.
"""

import hashlib
import json
import uuid
from collections.abc import Callable
from typing import Any

Post = Callable[[dict[str, Any]], dict[str, Any]]
Item = dict[str, Any]

START_MS = 1_600_000_000_000  # long before any server clock, so that nothing is drawn back by chance


def canonical_hash(op: dict[str, Any]) -> str:
    """SHA-256 over the canonical JSON of an op without its hash."""
    said = {key: op[key] for key in ("op", "dseq", "hlc", "schema", "m")}
    text = json.dumps(said, sort_keys=True, separators=(",", ":"), ensure_ascii=False)
    return hashlib.sha256(text.encode(errors="surrogatepass")).hexdigest()


def digest_of(records: dict[str, dict[str, Any]]) -> str:
    """Both sums over all rows, worked out whole: the server keeps its own row by row."""
    sums = [0, 0]
    for row in records.values():
        for which, basis in enumerate((0x811C9DC5, 0x811C9DC5 ^ 0x5BD1E995)):
            value = basis
            for byte in f"{row['t']}|{row['id']}|{row['seq']}".encode():
                value = (value ^ byte) * 0x01000193 % 2**32
            sums[which] = (sums[which] + value) % 2**32
    return f"{sums[0]:08x}{sums[1]:08x}"


class Phone:
    """One device of one member. `post` sends a sync request and returns the parsed 200 answer."""

    def __init__(self, post: Post, device: uuid.UUID, clock_ms: int = START_MS) -> None:
        self.post, self.device = post, device
        self.incarnation = str(uuid.uuid4())
        self.node = uuid.uuid4().hex[:8]
        self.clock_ms, self.count = clock_ms, 0
        self.cursor = self.dseq = self.confirmed = 0
        self.records: dict[str, dict[str, Any]] = {}
        self.outbox: list[dict[str, Any]] = []
        self.results: dict[str, dict[str, Any]] = {}
        self.answer: dict[str, Any] = {}

    # --- writing -------------------------------------------------------------------------------
    def stamp(self) -> str:
        """The next stamp of this phone's clock."""
        self.count += 1
        return f"{self.clock_ms:013d}-{self.count:04x}-{self.node}"

    def hear(self, change: dict[str, Any]) -> None:
        """Move the clock up to the stamps seen: what is written next follows them."""
        for kept in change["groups"].values():
            seen = int(kept["hlc"][:13]), int(kept["hlc"][14:18], 16)
            self.clock_ms, self.count = max((self.clock_ms, self.count), seen)

    def make_op(self, *items: Item, **parts: Any) -> dict[str, Any]:
        """An op under the next number, not put in the outbox."""
        op = {"op": str(uuid.uuid4()), "dseq": self.dseq + 1, "hlc": self.stamp(), "schema": 1, "m": list(items)}
        op.update(parts)
        return {**op, "hash": canonical_hash(op)}

    def save(self, *items: Item) -> dict[str, Any]:
        """Save an op of ready-made items in the outbox."""
        op = self.make_op(*items)
        self.dseq += 1
        self.outbox.append(op)
        return op

    def write(self, t: str, record_id: str, **groups: Any) -> dict[str, Any]:
        """Save one record's groups, based on what this phone now sees of it."""
        return self.save({"t": t, "id": record_id, "set": groups, "base": self.base(t, record_id, groups)})

    def base(self, t: str, record_id: str, groups: Any = ()) -> dict[str, str | None]:
        """The versions before this phone's eyes: the server's, with its own waiting ops on top."""
        seen: dict[str, str | None] = dict.fromkeys(groups)
        for group, kept in self.records.get(f"{t}:{record_id}", {}).get("groups", {}).items():
            seen[group] = kept["version"]
        for op in self.outbox:
            for item in op["m"]:
                if (item.get("t"), item.get("id")) == (t, record_id):
                    seen.update(dict.fromkeys(item.get("set", {}), op["op"]))
        return seen

    def log(self, kind: str, **fields: Any) -> str:
        """Save a new log entry; return its id."""
        record_id = str(uuid.uuid4())
        body = {"kind": kind, "occurred_at": "2026-05-01T18:30:00+02:00", **fields}
        self.save({"t": "entry", "id": record_id, "body": body})
        return record_id

    # --- syncing -------------------------------------------------------------------------------
    def request(self, limit: int = 1000, most: int = 200) -> dict[str, Any]:
        """The body of the next round trip."""
        return {
            "proto": 1,
            "schema": 1,
            "build": "test",
            "device": str(self.device),
            "incarnation": self.incarnation,
            "cursor": self.cursor,
            "confirmed_dseq": self.confirmed,
            "ops": self.outbox[:most],
            "limit": limit,
        }

    def take(self, answer: dict[str, Any]) -> None:
        """Store an answer: verdicts, changes and cursor together."""
        self.answer = answer
        self.results.update({result["op"]: result for result in answer["results"]})
        self.outbox = [op for op in self.outbox if op["op"] not in self.results]
        self.confirmed = answer["acked_dseq"]
        for change in answer["changes"]:
            self.hear(change)
            self.records[f"{change['t']}:{change['id']}"] = change
        self.cursor = answer["cursor"]

    def sync(self, limit: int = 1000) -> dict[str, Any]:
        """Round trips until nothing waits on either side; return the last answer."""
        for _ in range(1000):
            self.take(self.post(self.request(limit)))
            if not self.outbox and not self.answer["has_more"]:
                return self.answer
        raise AssertionError("syncing never came to rest")

    # --- looking -------------------------------------------------------------------------------
    def see(self, t: str, record_id: str, group: str) -> Any:
        """A group's value as this phone has it from the server."""
        return self.records[f"{t}:{record_id}"]["groups"][group]["value"]

    def all_of(self, t: str) -> list[dict[str, Any]]:
        """Every record of a kind."""
        return [row for row in self.records.values() if row["t"] == t]

    @property
    def digest(self) -> str:
        """The proof of what this phone holds."""
        return digest_of(self.records)
