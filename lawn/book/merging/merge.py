"""How writes of several phones become one record. Pure: no rows, no clock, no chance.

Fields that mean something only together form a group, and a group merges whole (S1). Two views of one rule:

* `Known` is the whole truth about a group: the writes nobody has replaced ("heads") and every version ever seen.
  `join` of two of them is associative, commutative and idempotent, so any number of books can be brought together
  in any order. Its current value is the head with the largest (stamp, op id); the other heads are the losers.
* `place` is what the server does with one arriving write and only the current one at hand (S2). Where every stamp is
  later than those its author had seen (the hybrid clock's law), it ends in the same current value as `join`, and
  each loser is kept.
"""

from collections.abc import Mapping
from typing import Any, NamedTuple

from lawn.book.merging import clock

DELETED = "deleted"


class Write(NamedTuple):
    """One value of one group: the version is the id of the op that wrote it."""

    version: str
    hlc: str
    value: dict[str, Any]
    by: str | None = None

    @property
    def rank(self) -> tuple[str, str]:
        """What decides between concurrent writes."""
        return (clock.rank(self.hlc), self.version)


class Known(NamedTuple):
    """Everything known about one group: {version: write} not yet replaced, and all versions seen."""

    heads: dict[str, Write]
    seen: frozenset[str]

    @property
    def current(self) -> Write | None:
        """The write that stands."""
        return max(self.heads.values(), key=lambda write: write.rank, default=None)

    @property
    def losers(self) -> list[Write]:
        """The concurrent writes that do not stand, oldest first."""
        return sorted(self.heads.values(), key=lambda write: write.rank)[:-1]


NOTHING = Known({}, frozenset())


def written(known: Known, write: Write, base: str | None) -> Known:
    """Return what is known after a write by someone who had seen `base` stand."""
    if write.version in known.seen:
        return known
    heads = {version: head for version, head in known.heads.items() if version != base}
    return Known({**heads, write.version: write}, known.seen | {write.version})


def join(one: Known, other: Known) -> Known:
    """Return what both know together: a head falls when the other side has seen it replaced."""
    heads = {
        version: head
        for mine, theirs in ((one, other), (other, one))
        for version, head in mine.heads.items()
        if version in theirs.heads or version not in theirs.seen
    }
    return Known(heads, one.seen | other.seen)


class Placed(NamedTuple):
    """What became of one arriving write."""

    current: Write
    lost: Write | None


def place(current: Write | None, write: Write, base: str | None) -> Placed:
    """Return what stands after `write` arrives, and what lost (S2).

    (a) its author had seen what stands: it applies, whatever the clocks say, and its stamp is moved past the old one;
    (b) it was made at the same time as what stands: the larger (stamp, op id) wins, the other is handed back to keep.
    """
    if current is None:
        return Placed(write, None)
    if base == current.version:
        return Placed(write._replace(hlc=clock.later(write.hlc, current.hlc)), None)
    if write.rank > current.rank:
        return Placed(write, current)
    return Placed(current, write)


class Sets(NamedTuple):
    """What one op does to one record: whole groups, and the versions its author had before their eyes.

    `base` may name groups the op does not write: that is how a deletion tells which edits its author had seen.
    """

    op: str
    hlc: str
    by: str | None
    groups: Mapping[str, dict[str, Any]]
    base: Mapping[str, str | None]

    def write(self, group: str) -> Write:
        """Return this op's write of one group."""
        return Write(self.op, self.hlc, dict(self.groups[group]), self.by)


class Lost(NamedTuple):
    """A write that did not stand, and the version that did."""

    group: str
    write: Write
    won: str


class Merged(NamedTuple):
    """A record after an op: its groups, which of them are new, and what lost on the way."""

    groups: dict[str, Write]
    changed: tuple[str, ...]
    lost: tuple[Lost, ...]


def merge_record(groups: Mapping[str, Write], sets: Sets) -> Merged:
    """Return a record after one op, group by group, then edit against delete (S2 a, b, c)."""
    after, lost = dict(groups), []
    for group in sorted(sets.groups):
        placed = place(groups.get(group), sets.write(group), sets.base.get(group))
        after[group] = placed.current
        if placed.lost is not None:
            lost.append(Lost(group, placed.lost, placed.current.version))
    kept = _keep_edited(groups, after, sets)
    if kept is not None:
        if kept.write.version == sets.op:
            # the deletion is taken back: what stood before it stands again, and has not lost to it
            lost = [one for one in lost if one.group != DELETED]
        lost.append(kept)
    changed = tuple(group for group in sorted(after) if after[group] != groups.get(group))
    return Merged(after, changed, tuple(lost))


def _keep_edited(before: Mapping[str, Write], after: dict[str, Write], sets: Sets) -> Lost | None:
    """Let an edit win against a deletion that did not know of it (S2 c); `after` is put right in place."""
    standing = before.get(DELETED)
    if DELETED in sets.groups:
        unseen = _unseen(before, sets)
        if not _says_deleted(after[DELETED]) or after[DELETED].version != sets.op or unseen is None:
            return None
        deletion = after.pop(DELETED)
        if standing is not None:
            after[DELETED] = standing
        return Lost(DELETED, deletion, unseen.version)
    if standing is None or not _says_deleted(standing) or sets.base.get(DELETED) == standing.version:
        return None
    after[DELETED] = Write(sets.op, clock.later(sets.hlc, standing.hlc), {DELETED: False}, sets.by)
    return Lost(DELETED, standing, sets.op)


def _says_deleted(write: Write) -> bool:
    return write.value.get(DELETED) is True


def _unseen(before: Mapping[str, Write], sets: Sets) -> Write | None:
    """Return the latest write that the author of a deletion had not seen; None when `base` tells nothing of it."""
    if all(group in sets.groups for group in sets.base):
        return None
    others = [(group, write) for group, write in before.items() if group not in sets.groups]
    missed = [write for group, write in others if write.version != sets.base.get(group)]
    return max(missed, key=lambda write: write.rank, default=None)
