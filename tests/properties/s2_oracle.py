"""What sync.md says of merging, S2 and S8, written a second time: it shares no code with the server.

One `Oracle` is one book. It is told each op in the order in which it reaches the server, and says what the answer
must be, what stands then, and what must have been kept aside. Only ops whose items are sound may be told to it.
"""

from dataclasses import dataclass, field
from typing import Any, NamedTuple

MINUTE_MS = 60_000


class Stands(NamedTuple):
    """The value of one group that stands: which op wrote it, its stamp as kept, and what it says."""

    op: str
    stamp: str
    value: dict[str, Any]


class Aside(NamedTuple):
    """A write that does not stand, kept for people to see; `won` is the op that does."""

    t: str
    id: str
    group: str
    op: str
    won: str


class Verdict(NamedTuple):
    """An answer, without its number."""

    s: str
    lost: list[str]


def held_to(stamp: str, now_ms: int) -> str:
    """A stamp no later than a minute after the server's clock (S2 b)."""
    return f"{min(int(stamp[:13]), now_ms + MINUTE_MS):013d}{stamp[13:]}"


def after(stamp: str, other: str) -> str:
    """A stamp that follows the other: itself, or the other's time with its counter one on, by the same phone."""
    if stamp > other:
        return stamp
    time, counter, _ = other.split("-")
    return f"{time}-{int(counter, 16) + 1:04x}-{stamp.split('-')[2]}"


@dataclass
class Oracle:
    """What one book must hold."""

    bodies: dict[str, dict[str, Any]] = field(default_factory=dict)
    groups: dict[tuple[str, str], dict[str, Stands]] = field(default_factory=dict)
    aside: list[Aside] = field(default_factory=list)
    moved: set[tuple[str, str]] = field(default_factory=set)  # records the last op changed

    def hear(self, op: dict[str, Any], now_ms: int) -> Verdict:
        """Take one op for the first time."""
        self.moved = set()
        kept = len(self.aside)
        stamp = held_to(op["hlc"], now_ms)
        for item in op["m"]:
            key = (item["t"], item["id"])
            if "body" in item and self.bodies.setdefault(item["id"], item["body"]) != item["body"]:
                return Verdict("parked", [])
            if key not in self.groups:
                self.groups[key] = {}
                self.moved.add(key)
            before = dict(self.groups[key])
            self._write(key, op["op"], stamp, item)
            if self.groups[key] != before:
                self.moved.add(key)
        mine = [one.group for one in self.aside[kept:] if one.op == op["op"]]
        return Verdict("merged" if len(self.aside) > kept else "applied", sorted(mine))

    def _write(self, key: tuple[str, str], op: str, stamp: str, item: dict[str, Any]) -> None:
        stood, base = dict(self.groups[key]), item.get("base", {})
        for group, value in item.get("set", {}).items():
            old = stood.get(group)
            saw = old is not None and base.get(group) == old.op
            if group == "deleted" and value["deleted"] and self._would_stand(old, saw, stamp, op):
                unseen = [one for name, one in stood.items() if name != group and base.get(name) != one.op]
                if unseen:
                    # an edit beats a deletion that did not know of it (S2 c)
                    self.aside.append(Aside(*key, group, op, max(unseen, key=lambda one: (one.stamp, one.op)).op))
                    continue
            self._meet(key, group, Stands(op, stamp, value), saw)
        gone = stood.get("deleted")
        if gone and gone.value["deleted"] and "deleted" not in item.get("set", {}) and base.get("deleted") != gone.op:
            self.groups[key]["deleted"] = Stands(op, after(stamp, gone.stamp), {"deleted": False})
            self.aside.append(Aside(*key, "deleted", gone.op, op))

    @staticmethod
    def _would_stand(old: Stands | None, saw: bool, stamp: str, op: str) -> bool:
        return old is None or saw or (stamp, op) > (old.stamp, old.op)

    def _meet(self, key: tuple[str, str], group: str, new: Stands, saw: bool) -> None:
        old = self.groups[key].get(group)
        if old is None:
            self.groups[key][group] = new
        elif saw:
            self.groups[key][group] = new._replace(stamp=after(new.stamp, old.stamp))
        else:
            loses, stands = sorted((old, new), key=lambda one: (one.stamp, one.op))
            self.groups[key][group] = stands
            self.aside.append(Aside(*key, group, loses.op, stands.op))
