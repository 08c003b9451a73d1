"""What must be so when all is quiet: P1, P2, P4, P6 and P7, from the server's tables and the phones' disks."""

import json
from collections import Counter
from dataclasses import dataclass, field
from datetime import UTC, datetime
from functools import cache
from pathlib import Path

from lawn.models import Change, Conflict, Op, ParkedOp
from tests.simulation.witness import Row, Said, Witness, model_of

_KINDS = Path(__file__).resolve().parents[2] / "fixtures" / "kinds"


@dataclass
class Outcome:
    """What became of one seed."""

    seed: int
    lost: int = 0
    doubled: int = 0
    converged: bool = True
    # lost with an evicted or restored storage, which no program can help
    gone: int = 0
    ops: int = 0
    parked: int = 0
    conflicts: int = 0
    requests: int = 0
    phones: int = 0
    faults: list[str] = field(default_factory=list)
    trace: str = ""

    @property
    def failed(self) -> bool:
        """Whether any promise was broken."""
        return bool(self.lost or self.doubled or not self.converged or self.faults)


@cache
def _fields() -> dict[str, dict[str, list[str]]]:
    kinds = {path.stem: json.loads(path.read_text()) for path in _KINDS.glob("*.json")}
    return {t: {group: list(rules) for group, rules in kind["groups"].items()} for t, kind in kinds.items()}


def _moment(at: datetime) -> str:
    return at.astimezone(UTC).isoformat().replace("+00:00", "Z")


def _present(fields: Row) -> Row:
    return {name: value for name, value in fields.items() if value is not None}


def book(witness: Witness) -> dict[str, Row]:
    """Return the server's records as a phone must hold them, from the bare columns."""
    store = witness.desk.store
    found: dict[str, Row] = {}
    seqs = {(row["t"], row["id"]): row["seq"] for row in store.plain(Change)}
    for t in {t for t, _ in seqs}:
        for row in store.plain(model_of(t)):
            if (t, row["id"]) in seqs:
                record = _conflict(row) if t == "conflict" else _record(t, row)
                record.update(t=t, id=str(row["id"]), seq=seqs[(t, row["id"])])
                found[f"{t}:{row['id']}"] = record
    return found


def _conflict(row: Row) -> Row:
    names = {"t": row["t"], "id": str(row["record_id"]), "group": row["group"], "lost": row["lost"]}
    body = {**names, "won": str(row["won"]), "at": _moment(row["at"])}
    return {"by": row["lost"].get("by"), "received_at": _moment(row["at"]), "groups": {}, "body": body}


def _record(t: str, row: Row) -> Row:
    groups = {}
    for group, kept in row["versions"].items():
        known = row["overlays"].get(group, {}) if t == "entry" else {n: row[n] for n in _fields()[t].get(group, [])}
        value = {**_present(known), **row["extra"].get(group, {})}
        groups[group] = {"value": value, "version": kept["version"], "hlc": kept["hlc"]}
    record: Row = {"by": str(row["made_by"]) if row["made_by"] else None, "received_at": _moment(row["received_at"])}
    record["groups"] = groups
    if t == "entry":
        record["body"] = row["body"]
    return record


class Verdict:
    """The last look at one run."""

    def __init__(self, witness: Witness, seed: int) -> None:
        self.witness, self.found = witness, Outcome(seed)
        store = witness.desk.store
        self.book = book(witness)
        self.answered = {str(row["id"]): row for row in store.plain(Op)}
        self.set_aside = {str(row["op"]): row for row in store.plain(ParkedOp)}
        losers = [
            ((f"{row['t']}:{row['record_id']}", row["group"], row["lost"]["version"]), row["lost"]["value"])
            for row in store.plain(Conflict)
        ]
        self.conflicts = Counter(what for what, _ in losers)
        self.losers = {what: _present(value) for what, value in losers}
        # which versions somebody replaced knowingly: they had them before their eyes
        self.replaced = {
            (f"{item['t']}:{item['id']}", group, version)
            for said in witness.ops.values()
            if said.op in self.answered
            for item in said.m
            for group, version in (item.get("base") or {}).items()
            if group in (item.get("set") or {})
        }

    def reach(self, current: dict[str, bool]) -> Outcome:
        """Judge; `current` says of each phone whether it must be up to date (False: no longer a member's)."""
        found = self.found
        for said in self.witness.ops.values():
            self._judge(said, current)
        for what, count in self.conflicts.items():
            if count > 1:
                found.doubled += 1
                self.witness.broken("P2", f"{what} lost {count} times")
            key, group, version = what
            if self.book.get(key, {}).get("groups", {}).get(group, {}).get("version") == version:
                self.witness.broken("P2", f"{version} stands in {group} of {key}, and is kept as lost as well")
        for phone, must in current.items():
            if must:
                self._alike(phone)
        found.ops = len(self.witness.ops)
        found.parked = len(self.set_aside)
        found.conflicts = len(self.conflicts)
        found.phones = len(current)
        found.faults = self.witness.faults
        return found

    # P1, P6, P7: each op -----------------------------------------------------------------------------------------

    def _judge(self, said: Said, current: dict[str, bool]) -> None:
        row = self.answered.get(said.op)
        if row is None:
            return self._unanswered(said, current)
        verdict = row["result"]["s"]
        if verdict == "parked":
            self._parked(said, row["result"])
        elif verdict in ("applied", "merged"):
            for item in said.m:
                self._kept(said, item)
        else:
            self.witness.broken("P6", f"{said.op} ended as {verdict}")

    def _unanswered(self, said: Said, current: dict[str, bool]) -> None:
        if said.gone is not None:
            self.found.gone += said.told and said.gone not in ("withdrawn", "discarded")
            return
        holders = [phone for phone in self.witness.disks if self.witness.holds(phone, said.op)]
        if any(said.op in self.witness.table(phone, "parked") for phone in holders):
            return  # it never got through, or the server that set it aside was restored: listed, and can be sent again
        if any(not current.get(phone, False) for phone in holders):
            return
        if said.told:
            self.found.lost += 1
            where = f"it still waits on {holders}" if holders else "nobody has it"
            self.witness.broken("P8" if holders else "P1", f"{said.op} of {said.phone} is not on the server: {where}")

    def _parked(self, said: Said, result: Row) -> None:
        kept = self.set_aside.get(said.op)
        raw = None if kept is None else kept["raw"]
        whole = json.loads(raw["text"]) if raw and "text" in raw else raw
        if whole is None or whole["m"] != said.m:
            self.found.lost += 1
            self.witness.broken("P1", f"{said.op} was parked, and is not kept whole")
        if not (result.get("why") or {}).get("message"):
            self.witness.broken("P6", f"{said.op} was parked without a reason")
        listed = said.op in self.witness.table(said.phone, "parked")
        if (
            not listed
            and not said.wiped
            and said.gone is None
            and said.op not in self.witness.table(said.phone, "outbox")
        ):
            self.witness.broken("P6", f"{said.op} was parked, and {said.phone} does not list it")

    def _kept(self, said: Said, item: Row) -> None:
        key = f"{item['t']}:{item['id']}"
        record = self.book.get(key)
        if record is None:
            self.found.lost += 1
            return self.witness.broken("P1", f"{said.op} was applied, and {key} is not in the book")
        if "body" in item and record.get("body") != item["body"]:
            self.found.lost += 1
            self.witness.broken("P1", f"the body of {key} is not what {said.op} said")
        for group, value in (item.get("set") or {}).items():
            standing = record["groups"].get(group, {})
            if standing.get("version") == said.op:
                if standing["value"] != _present(value):
                    self.found.lost += 1
                    self.witness.broken("P1", f"{group} of {key} is not what {said.op} said")
            elif (key, group, said.op) in self.conflicts:
                if self.losers[(key, group, said.op)] != _present(value):
                    self.witness.broken("P7", f"the conflict of {group} of {key} is not what {said.op} said")
            elif (key, group, said.op) not in self.replaced:
                self.found.lost += 1
                self.witness.broken("P7", f"what {said.op} wrote in {group} of {key} vanished")

    # P4: each phone ------------------------------------------------------------------------------------------------

    def _alike(self, phone: str) -> None:
        witness = self.witness
        theirs = {key: row["record"] for key, row in witness.table(phone, "base").items()}
        different = [key for key in {*theirs, *self.book} if theirs.get(key) != self.book.get(key)]
        shown = witness.table(phone, "live")
        for key, record in self.book.items():
            row = shown.get(key, {})
            if row.get("groups") != record["groups"] or row.get("body") != record.get("body") or row.get("pending"):
                different.append(f"what is shown of {key}")
        waits = [op for op, row in witness.table(phone, "outbox").items() if row["m"]]
        sums = "".join(f"{part:08x}" for part in witness.state(phone).get("digest", (0, 0)))
        if different or waits or sums != digest(self.book):
            self.found.converged = False
            witness.broken("P4", f"{phone} differs in {sorted(different)[:4]}, {len(waits)} wait, its digest is {sums}")


def digest(records: dict[str, Row]) -> str:
    """Return the digest of records, done again here: FNV-1a of "t|id|seq" from two bases, summed modulo 2**32."""
    sums = [0, 0]
    for record in records.values():
        text = f"{record['t']}|{record['id']}|{record['seq']}".encode()
        for number, basis in enumerate((2166136261, 2166136261 ^ 0x5BD1E995)):
            value = basis
            for byte in text:
                value = (value ^ byte) * 16777619 % 2**32
            sums[number] = (sums[number] + value) % 2**32
    return f"{sums[0]:08x}{sums[1]:08x}"
