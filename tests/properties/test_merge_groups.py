"""Merging groups: joining is associative, commutative and idempotent, and the server's shortcut agrees with it (S2).

A history is a set of writes, each based on an earlier one that its author saw stand. Its stamps obey the hybrid
clock's law: a write is stamped later than what it is based on. Everything else about clocks is left to chance.
"""

from typing import NamedTuple

from hypothesis import example, given
from hypothesis import strategies as st

from lawn.book.merging import merge
from lawn.book.merging.merge import NOTHING, Known, Write, join, place, written


class Act(NamedTuple):
    """A write and the version it is based on."""

    write: Write
    base: str | None


History = list[Act]


def act(number: int, hlc_ms: int, base: str | None) -> Act:
    version = f"op-{number:02d}"
    return Act(Write(version, f"{hlc_ms:013d}-0000-00000000", {"said": number}), base)


@st.composite
def histories(draw: st.DrawFn, most: int = 7) -> History:
    """Writes in an order in which each comes after its base; ids are shuffled so that they tell nothing of order."""
    count = draw(st.integers(0, most))
    numbers = draw(st.permutations(range(count)))
    acts: History = []
    for number in numbers:
        base = draw(st.sampled_from([None, *acts]))
        floor = int(base.write.hlc[:13]) + 1 if base else 0
        acts.append(act(number, draw(st.integers(floor, floor + 3)), base.write.version if base else None))
    return acts


@st.composite
def orders(draw: st.DrawFn) -> tuple[History, History]:
    """A history in two orders, both causally valid: no write arrives before its base."""
    first = draw(histories())
    waiting: History = list(first)
    second: History = []
    while waiting:
        arrived = {item.write.version for item in second}
        ready = [item for item in waiting if item.base is None or item.base in arrived]
        chosen = draw(st.sampled_from(ready))
        waiting.remove(chosen)
        second.append(chosen)
    return first, second


def book_of(history: History) -> Known:
    """What one book knows after the writes, in this order."""
    known = NOTHING
    for item in history:
        known = written(known, item.write, item.base)
    return known


@st.composite
def books(draw: st.DrawFn, count: int) -> list[Known]:
    """Several books of one household, each having heard a causally closed part of one history."""
    history = draw(histories())
    found = []
    for _ in range(count):
        heard: History = []
        for item in history:
            known = {one.write.version for one in heard}
            if (item.base is None or item.base in known) and draw(st.booleans()):
                heard.append(item)
        found.append(book_of(heard))
    return found


@given(books(3))
def test_joining_is_associative(three: list[Known]) -> None:
    a, b, c = three
    assert join(join(a, b), c) == join(a, join(b, c))


@given(books(2))
def test_joining_is_commutative(two: list[Known]) -> None:
    a, b = two
    assert join(a, b) == join(b, a)


@given(books(2))
def test_joining_is_idempotent(two: list[Known]) -> None:
    a, b = two
    assert join(a, a) == a
    assert join(join(a, b), b) == join(a, b)


@given(histories())
def test_joining_the_writes_one_by_one_equals_hearing_them_all(history: History) -> None:
    """Each write alone, with its ancestors as its past, joined in reverse: the same book."""
    alone, known = [], NOTHING
    for item in history:
        known = written(known, item.write, item.base)
        alone.append(known)
    joined = NOTHING
    for one in reversed(alone):
        joined = join(joined, one)
    assert joined == book_of(history)


@given(orders())
def test_a_book_does_not_depend_on_the_order_of_arrival(both: tuple[History, History]) -> None:
    first, second = both
    assert book_of(first) == book_of(second)


@given(histories())
def test_hearing_a_write_twice_changes_nothing(history: History) -> None:
    once = book_of(history)
    for item in history:
        assert written(once, item.write, item.base) == once


class Server(NamedTuple):
    """What the server holds by its shortcut: the current write, and every loser it put aside."""

    current: Write | None
    kept: frozenset[str]


def served(history: History) -> Server:
    current, kept = None, set()
    for item in history:
        placed = place(current, item.write, item.base)
        current = placed.current
        kept |= {placed.lost.version} if placed.lost else set()
    return Server(current, frozenset(kept))


# Two write at once, and the loser's author writes on without having heard of it.
_LOSER_GOES_ON = [act(1, 10, None), act(2, 5, None), act(3, 7, "op-02")]


@given(orders())
@example((_LOSER_GOES_ON, [_LOSER_GOES_ON[1], _LOSER_GOES_ON[2], _LOSER_GOES_ON[0]]))
def test_s02_the_server_ends_with_the_same_value_in_every_order(both: tuple[History, History]) -> None:
    first, second = both
    one, other = served(first).current, served(second).current
    assert (one and one.version) == (other and other.version)


@given(histories())
@example(_LOSER_GOES_ON)
def test_s02_the_servers_shortcut_agrees_with_the_whole_truth(history: History) -> None:
    current, known = served(history).current, book_of(history)
    assert (current and current.version) == (known.current and known.current.version)


@given(histories())
@example(_LOSER_GOES_ON)
def test_p07_every_loser_is_kept_by_the_server(history: History) -> None:
    assert {write.version for write in book_of(history).losers} <= served(history).kept


@given(histories())
def test_p07_every_write_stands_was_built_upon_or_is_kept(history: History) -> None:
    server = served(history)
    built_upon = {item.base for item in history}
    for item in history:
        stands = server.current is not None and server.current.version == item.write.version
        assert stands or item.write.version in built_upon or item.write.version in server.kept


def test_s02_a_a_write_that_saw_the_current_one_applies_and_is_stamped_after_it() -> None:
    """F25: the clock of the second phone is years behind."""
    old = Write("op-a", "2000000000000-0003-aaaaaaaa", {"v": 1})
    new = Write("op-b", "1000000000000-0000-bbbbbbbb", {"v": 2})
    placed = place(old, new, "op-a")
    assert placed.lost is None
    assert placed.current == new._replace(hlc="2000000000000-0004-bbbbbbbb")


def test_s02_b_equal_stamps_are_decided_by_the_op_id() -> None:
    one, other = (Write(op, "1000000000000-0000-aaaaaaaa", {}) for op in ("op-a", "op-b"))
    assert place(one, other, None).current == other
    assert place(other, one, None).current == other


def sets_of(number: int, group: str, value: dict[str, object], base: dict[str, str | None]) -> merge.Sets:
    return merge.Sets(f"op-{number:02d}", f"{number:013d}-0000-00000000", None, {group: value}, base)


_START = {
    "name": Write("op-00", "0000000000000-0000-00000000", {"name": "Verge"}),
    "deleted": Write("op-00", "0000000000000-0000-00000000", {"deleted": False}),
}
_SEEN: dict[str, str | None] = {"name": "op-00", "deleted": "op-00"}


@given(st.permutations(range(3)), st.permutations([1, 2, 3]))
@example([0, 1, 2], [1, 2, 3])
def test_s02_c_a_record_deleted_and_edited_at_once_stays_in_every_order(order: list[int], numbers: list[int]) -> None:
    """F31: two edits and a deletion, none knowing of the others, whatever their stamps."""
    ops = [
        sets_of(numbers[0], "deleted", {"deleted": True}, _SEEN),
        sets_of(numbers[1], "name", {"name": "Long side"}, _SEEN),
        sets_of(numbers[2], "cut", {"cut_height_mm": 70}, {**_SEEN, "cut": None}),
    ]
    groups = dict(_START)
    lost: list[merge.Lost] = []
    for index in order:
        merged = merge.merge_record(groups, ops[index])
        groups = merged.groups
        lost += merged.lost
    assert groups["deleted"].value == {"deleted": False}
    assert groups["name"].value == {"name": "Long side"}
    assert groups["cut"].value == {"cut_height_mm": 70}
    assert f"op-{numbers[0]:02d}" in {one.write.version for one in lost if one.group == "deleted"}


def test_merging_leaves_its_arguments_alone() -> None:
    groups = dict(_START)
    merge.merge_record(groups, sets_of(4, "name", {"name": "Other"}, _SEEN))
    assert groups == _START
