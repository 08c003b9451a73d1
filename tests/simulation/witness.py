"""What was promised, and what is really there: the simulation's independent memory.

The witness sees what the phones' disks committed, what the phones told their people and what the server's tables
hold. It uses nothing of the code it watches: no merging, no reading of rows, no digest of the book's.
"""

import uuid
from dataclasses import dataclass
from typing import Any

from django.apps import apps

from lawn.models import Conflict
from tests.simulation.desk import Desk

Row = dict[str, Any]
Tables = dict[str, dict[str, Row]]
DAY_MS = 86_400_000
MOST_TOLD = 5  # of one promise in one run
KEPT_DAYS = 30  # how long a phone keeps what was acknowledged (S11)


@dataclass
class Said:
    """One op: what a phone stored, and whether it told the person so."""

    op: str
    phone: str
    dseq: int
    m: list[Row]
    at: int
    told: bool = False
    # withdrawn or discarded by the person, or lost in a way no program can help: then with the reason
    gone: str | None = None
    # its phone's storage was taken away or put back after it was made
    wiped: bool = False

    def wrote(self, key: str, group: str) -> bool:
        """Whether the op itself says something of a record's group."""
        return any(f"{item['t']}:{item['id']}" == key and group in (item.get("set") or {}) for item in self.m)


class Witness:
    """Memory of one run. `faults` holds each broken promise as "P1 …: sentence"."""

    def __init__(self, desk: Desk, watches: bool = True) -> None:
        self.desk, self.watches = desk, watches
        self.disks: dict[str, Tables] = {}
        self.ops: dict[str, Said] = {}
        self.faults: list[str] = []
        self.stood: dict[tuple[str, str], list[str]] = {}
        self.numbers: set[int] = set()
        self.head = 0
        self.restored = False
        self._shown: dict[str, dict[str, dict[str, list[str | None]]]] = {}
        self._damaged: set[tuple[str, str]] = set()
        self._ever_damaged: set[str] = set()
        self._taken: list[tuple[str, str]] = []
        self._back: list[tuple[str, str, str, str | None, str | None]] = []
        self._moved: set[str] = set()
        self._pages: set[str] = set()
        self._changes: tuple[Any, dict[str, int]] = (None, {})

    def broken(self, promise: str, what: str) -> None:
        """Note a broken promise."""
        if sum(fault.startswith(promise) for fault in self.faults) < MOST_TOLD:
            self.faults.append(f"{promise} {what}")

    # What the phones' disks say --------------------------------------------------------------------------------

    def table(self, phone: str, name: str) -> dict[str, Row]:
        """Return a table of a phone's disk as it is committed."""
        return self.disks.setdefault(phone, {}).setdefault(name, {})

    def state(self, phone: str) -> Row:
        """Return the phone's counters; {} before there are any."""
        return self.table(phone, "meta").get("state", {})

    def committed(self, how: str, phone: str, writes: list[list[Any]], at: int) -> None:
        """Take note of what a disk did: "commit", or what befell it."""
        if how == "whole":
            self.disks[phone] = {}
        tables = self.disks.setdefault(phone, {})
        for name, key, row in writes:
            table = tables.setdefault(name, {})
            if how == "commit":
                if self.watches:
                    self._noted(phone, name, key, row, at)
                elif name == "outbox" and row is not None and row["m"]:
                    self._stored(phone, row, at)
            if row is None:
                table.pop(key, None)
            else:
                table[key] = row
            if how == "damage":
                self._ever_damaged.add(key)
        self._moved.add(phone)
        if how != "commit":
            self._shown[phone] = {
                key: {group: [said.get("version")] for group, said in row["groups"].items()}
                for key, row in self.table(phone, "live").items()
            }
            # a mended row may be missing again in what came back
            base = self.table(phone, "base")
            self._damaged = {(other, key) for other, key in self._damaged if other != phone}
            self._damaged |= {(phone, key) for key in self._ever_damaged if key not in base}

    def _noted(self, phone: str, name: str, key: str, row: Row | None, at: int) -> None:
        if name in ("outbox", "parked") and row is None:
            self._taken.append((phone, key))
        elif name == "acked" and row is None:
            self._taken += [(phone, op["op"]) for op in self.table(phone, name).get(key, {"ops": []})["ops"]]
        elif name == "outbox" and row is not None and row["m"]:
            self._stored(phone, row, at)
        elif name == "base":
            self._damaged.discard((phone, key))
            self._pages.add(phone)
        elif name == "meta" and key == "state" and row is not None:
            if row["cursor"] != self.state(phone).get("cursor"):
                self._pages.add(phone)
        elif name == "live" and row is not None:
            self._display(phone, key, row)

    def _stored(self, phone: str, row: Row, at: int) -> None:
        known = self.ops.get(row["op"])
        if known is None:
            self.ops[row["op"]] = Said(row["op"], phone, row["dseq"], row["m"], at)
        elif not row["sent"] and row["dseq"] > self.state(phone).get("sent", 0):
            known.m, known.dseq = row["m"], row["dseq"]

    def _display(self, phone: str, key: str, row: Row) -> None:
        shown = self._shown.setdefault(phone, {}).setdefault(key, {})
        versions = {group: said.get("version") for group, said in row["groups"].items()}
        for group in {*shown, *versions}:
            history, version = shown.setdefault(group, []), versions.get(group)
            if history and history[-1] == version:
                continue
            if history and (version is None or version in history):
                self._back.append((phone, key, group, history[-1], version))
                history.clear()
            history.append(version)

    def told(self, phone: str, op: str) -> None:
        """The phone said "saved"."""
        if op not in self.ops:
            return self.broken("P1", f"{phone} said that {op} is saved before it was")
        self.ops[op].told = True

    # Promises at every step ------------------------------------------------------------------------------------

    def settle(self) -> None:
        """Check what must hold after every step."""
        if not self.watches:
            return
        for phone, op in self._taken:
            said = self.ops.get(op)
            if said is not None and said.gone is None and not self.holds(phone, op) and not self.desk.has_op(op):
                self.broken("P9", f"{phone} let go of {op}, which the server does not have")
        for phone, key, group, before, now in self._back:
            self._went_back(phone, key, group, before, now)
        for phone in self._moved:
            self._own_writes_stand(phone)
        for phone in self._pages:
            self._cursor_is_honest(phone)
        self._taken, self._back = [], []
        self._moved, self._pages = set(), set()

    def holds(self, phone: str, op: str) -> bool:
        """Whether a phone still has an op, waiting, kept after its acknowledgement, or set aside."""
        if any(op in self.table(phone, name) for name in ("outbox", "parked")):
            return True
        return any(op == kept["op"] for row in self.table(phone, "acked").values() for kept in row["ops"])

    def _went_back(self, phone: str, key: str, group: str, before: str | None, now: str | None) -> None:
        said = self.ops.get(before or "")
        if self.restored and (said is None or said.phone != phone):
            return  # somebody else's write, which its own phone brings back
        if self.restored and said and now in self.ops and self.ops[now].at >= said.at:
            return  # a later write, forgotten by the restored server, which its own phone has brought back
        if self.restored and said and not said.wrote(key, group):
            return  # the server wrote it in this op's name, where it met a deletion that the restored one never saw
        if said is not None and (said.gone or self.desk.parked(said.op) or said.op in self.table(phone, "parked")):
            return
        if (key, group, before) in self.lost() or (phone, key) in self._damaged:
            return
        self.broken("P3", f"on {phone} {group} of {key} went back from {before}")

    def lost(self) -> set[tuple[str, str, str | None]]:
        """Return (record, group, version) of everything the server kept as a conflict."""
        rows = self.desk.store.plain(Conflict)
        return {(f"{row['t']}:{row['record_id']}", row["group"], row["lost"]["version"]) for row in rows}

    def _own_writes_stand(self, phone: str) -> None:
        last: dict[tuple[str, str], Row] = {}
        # what only goes out again to a restored server may have lost, or been overwritten, long ago
        waits = [row for row in self.table(phone, "outbox").values() if not row.get("again")]
        for row in sorted(waits, key=lambda row: row["dseq"]):
            for item in row["m"]:
                last.update({(f"{item['t']}:{item['id']}", group): row for group in item.get("set") or {}})
        live = self.table(phone, "live")
        for (key, group), row in last.items():
            shown = live.get(key, {}).get("groups", {}).get(group, {}).get("version")
            if shown != row["op"]:
                self.broken("P3", f"{phone} shows {shown} in {group} of {key}, not its own {row['op']} that waits")

    def changes(self) -> dict[str, int]:
        """Return {"t:id": seq} of the server's book."""
        head = self.desk.head()
        mark = (head["epoch"], head["seq"])
        if self._changes[0] != mark:
            self._changes = (mark, self.desk.changes())
        return self._changes[1]

    def _cursor_is_honest(self, phone: str) -> None:
        state, base = self.state(phone), self.table(phone, "base")
        if state.get("epoch") != str(self.desk.head()["epoch"]):
            return
        changes, cursor = self.changes(), state["cursor"]
        for key, seq in changes.items():
            if seq <= cursor and (phone, key) not in self._damaged:
                found = base.get(key, {}).get("record", {}).get("seq")
                if found != seq:
                    self.broken("P5", f"{phone} is at {cursor} and holds {key} at {found}, not {seq}")

    # What the server says --------------------------------------------------------------------------------------

    def served(self) -> None:
        """Look at what a request changed on the server."""
        if not self.watches:
            return
        head = self.desk.head()["seq"]
        if head == self.head:
            return
        for key, seq in self.changes().items():
            if seq > self.head:
                self._moved_on(key, seq)
        self.head = head

    def _moved_on(self, key: str, seq: int) -> None:
        if seq in self.numbers:
            self.broken("P2", f"the number {seq} was given twice")
        self.numbers.add(seq)
        t, _, record = key.partition(":")
        if t == "conflict":
            return
        versions = self.desk.store.one(model_of(t), self.desk.household, uuid.UUID(record))["versions"]
        for group, kept in versions.items():
            stood = self.stood.setdefault((key, group), [])
            if kept["version"] in stood[:-1]:
                self.broken("P2", f"{group} of {key} was written by {kept['version']} a second time")
            if not stood or stood[-1] != kept["version"]:
                stood.append(kept["version"])

    # What takes storage away -----------------------------------------------------------------------------------

    def wiped(self, phone: str, why: str) -> None:
        """A phone's storage was taken away or put back: what only it had is lost, and nobody can help it."""
        for said in self.ops.values():
            if said.gone is None and not any(self.holds(other, said.op) for other in self.disks):
                said.wiped = True
                if not self.desk.has_op(said.op):
                    said.gone = why

    def rolled_back(self, at: int) -> None:
        """The server's tables are those of a backup; what it lost must come from the phones that wrote it."""
        self.stood, self.numbers, self.head = {}, set(), 0
        self.restored = True
        self._shown = {}
        for said in self.ops.values():
            old = said.wiped or at - said.at > KEPT_DAYS * DAY_MS
            held = any(self.holds(other, said.op) for other in self.disks)
            if said.gone is None and old and not held and not self.desk.has_op(said.op):
                said.gone = "server restored, and the phone had it no more"


def model_of(t: str) -> Any:
    """Return the model of a kind of record."""
    return apps.get_model("lawn", t)
