"""What phones were promised, held against the database's own rows. Shares no code with what it checks.

`saved` is noted when a phone stores an entry, `acknowledged` when an answer with a verdict on it has arrived. At the
end: what was acknowledged is there, once, in the order its phone wrote it; and nothing is there that nobody wrote.
"""

import uuid
from dataclasses import dataclass, field

from tests.live.server import Hosted


@dataclass
class History:
    """Of one household; phones are told apart by any name."""

    written: dict[str, list[str]] = field(default_factory=dict)
    ops: dict[str, str] = field(default_factory=dict)
    acknowledged: set[str] = field(default_factory=set)

    def saved(self, phone: str, op: str, entry: str) -> None:
        """A phone has stored an entry, said by an op."""
        self.written.setdefault(phone, []).append(entry)
        self.ops[op] = entry

    def heard(self, op: str) -> None:
        """A phone has got an answer with a verdict on an op."""
        if op in self.ops:
            self.acknowledged.add(self.ops[op])

    def check_kept(self, server: Hosted, household: str) -> None:
        """Fail unless everything acknowledged is in the book, once, in order."""
        Book.read(server, household).check(self.written, self.acknowledged)

    def check_whole(self, server: Hosted, household: str) -> None:
        """Fail unless, besides, everything that was saved has been acknowledged by now."""
        everything = {entry for entries in self.written.values() for entry in entries}
        assert everything - self.acknowledged == set()
        self.check_kept(server, household)


@dataclass
class Book:
    """One household's rows as they lie in the database."""

    entries: list[str]
    places: dict[str, int]
    numbers: list[int]
    seq: int
    ops: list[str]
    lines: list[tuple[str, str, int]]

    @staticmethod
    def read(server: Hosted, household: str) -> "Book":
        """Read them past the program."""
        key = household if server.database else household.replace("-", "")
        where = f"household_id = '{key}'"
        with server.raw() as ask:
            changes = ask(f"SELECT t, id, seq FROM lawn_change WHERE {where}")
            ops = ask(f"SELECT id, device_id, incarnation, dseq FROM lawn_op WHERE {where}")
            return Book(
                entries=[_id(row[0]) for row in ask(f"SELECT id FROM lawn_entry WHERE {where}")],
                places={_id(record): seq for t, record, seq in changes if t == "entry"},
                numbers=[seq for _, _, seq in changes],
                seq=ask(f"SELECT seq FROM lawn_household WHERE id = '{key}'")[0][0],
                ops=[_id(row[0]) for row in ops],
                lines=[(_id(device), _id(incarnation), number) for _, device, incarnation, number in ops],
            )

    def check(self, written: dict[str, list[str]], acknowledged: set[str]) -> None:
        """Fail where the rows break a promise."""
        everything = {entry for entries in written.values() for entry in entries}
        assert acknowledged - set(self.entries) == set(), "acknowledged and lost"
        assert set(self.entries) - everything == set(), "in the book, and nobody wrote it"
        assert len(self.entries) == len(set(self.entries)), "twice in the book"
        assert set(self.entries) == set(self.places), "an entry without its place among the changes"
        assert len(self.numbers) == len(set(self.numbers)), "a change number given twice"
        assert max(self.numbers) <= self.seq, "a change beyond the counter"
        assert len(self.ops) == len(set(self.ops)), "an op answered twice"
        assert len(self.lines) == len(set(self.lines)), "a number of a phone's line used twice"
        for phone, entries in written.items():
            places = [self.places[entry] for entry in entries if entry in self.places]
            assert places == sorted(places), f"the entries of {phone} are not in the order it wrote them"


def _id(value: object) -> str:
    return str(uuid.UUID(str(value)))
