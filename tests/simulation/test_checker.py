"""The checker can fail: each planted fault in a history is found, under the promise it breaks."""

from collections.abc import Callable, Iterator
from typing import Any

import pytest

from lawn.book.merging import merge
from lawn.book.sync import apply, edit, pull, record
from lawn.contract import content
from tests.simulation import life
from tests.simulation.batch import live
from tests.simulation.memory.in_place import swapped
from tests.simulation.memory.shelf import Shelf
from tests.simulation.phones import Phones

# At most: what shows only in rare lives (a member removed, who then asks) needs some.
SEEDS = range(30)


@pytest.fixture(scope="module")
def phones(node_modules: object) -> Iterator[Phones]:
    with Phones() as started:
        yield started


def found(phones: Phones, promise: str, place: Any, name: str, plant: Callable[[Any], Any]) -> bool:
    """Whether some seed finds a promise broken while one function is another."""
    with swapped([(place, name, plant(getattr(place, name)))]):
        lives = (live(seed, phones, Shelf()) for seed in SEEDS)
        return any(fault.startswith(promise) for outcome in lives for fault in outcome.faults)


def test_p1_an_entry_the_server_answers_and_does_not_keep_is_found(phones: Phones) -> None:
    def plant(apply_items: Any) -> Any:
        return lambda feed, author, items: None if "mow" in str(items) else apply_items(feed, author, items)

    assert found(phones, "P1", edit, "apply_items", plant)


def test_p2_an_op_that_applies_each_time_it_comes_is_found(phones: Phones) -> None:
    def forget(again: Any) -> Any:
        return lambda self, op, known: self._answer(op, content.text_of(op))

    assert found(phones, "P2", apply._Line, "_again", forget)


def test_p4_a_page_that_shows_an_older_record_is_found(phones: Phones) -> None:
    def plant(wire: Any) -> Any:
        seen: dict[str, Any] = {}

        def old(row: Any, t: str, seq: int) -> Any:
            fresh = wire(row, t, seq)
            before = seen.setdefault(fresh["id"], fresh)
            return {**before, "seq": seq} if seq % 7 == 0 else fresh

        return old

    assert found(phones, "P4", record, "wire", plant)


def test_p5_a_change_that_never_travels_is_found(phones: Phones) -> None:
    def plant(after: Any) -> Any:
        return lambda *asked: [found for found in after(*asked) if found[2] % 5]

    assert found(phones, "P5", pull, "_after", plant)


def test_p7_a_losing_value_that_is_dropped_is_found(phones: Phones) -> None:
    def plant(keep: Any) -> Any:
        return lambda *said: None

    assert found(phones, "P7", edit, "_keep", plant)


def test_p7_fields_merged_one_by_one_are_found(phones: Phones) -> None:
    def plant(place: Any) -> Any:
        def mixed(current: Any, write: Any, base: Any) -> Any:
            placed = place(current, write, base)
            if current is None or placed.lost is None:
                return placed
            return placed._replace(
                current=placed.current._replace(value={**placed.lost.value, **placed.current.value, "net_typed": None})
            )

        return mixed

    assert found(phones, "P1", merge, "place", plant)


def test_p10_an_answer_to_a_former_member_is_found(phones: Phones) -> None:
    def plant(set_member: Any) -> Any:
        def only_said(self: Any, person: int, active: bool) -> None:
            (self._removed.discard if active else self._removed.add)(person)

        return only_said

    assert found(phones, "P10", life.Life, "set_member", plant)
