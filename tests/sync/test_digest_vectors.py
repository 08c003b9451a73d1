"""The digest against published hash values and against vectors that both languages read (P4)."""

import json
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lawn.book.merging import digest
from lawn.book.merging.digest import Sums
from lawn.book.sync import repair

VECTORS: dict[str, Any] = json.loads(
    (Path(__file__).resolve().parents[2] / "fixtures" / "sync" / "digest.json").read_text()
)


@pytest.mark.parametrize("vector", VECTORS["fnv1a_32"], ids=lambda vector: repr(vector["text"]))
def test_fnv1a_equals_the_published_values(vector: dict[str, str]) -> None:
    """Source: Fowler, Noll, Vo, Eastlake, Hansen, Internet-Draft draft-eastlake-fnv, and its test programs."""
    assert f"{digest.fnv1a(vector['text'], 2166136261):08x}" == vector["hex"]


@pytest.mark.parametrize("case", VECTORS["cases"], ids=lambda case: case["name"])
def test_digest_equals_the_shared_vectors(case: dict[str, Any]) -> None:
    sums = Sums()
    for row in case["rows"]:
        sums = digest.with_row(sums, digest.of_row(**{"t": row["t"], "record_id": row["id"], "seq": row["seq"]}))
    assert sums.text == case["digest"]


rows = st.tuples(st.sampled_from(["zone", "entry"]), st.uuids().map(str), st.integers(1, 2**53))


@given(st.lists(rows, max_size=8), st.data())
def test_rows_may_come_and_go_in_any_order(found: list[tuple[str, str, int]], data: st.DataObject) -> None:
    sums = Sums()
    for row in [*found, *data.draw(st.permutations(found))]:
        sums = digest.with_row(sums, digest.of_row(*row))
    for row in data.draw(st.permutations(found)):
        sums = digest.without_row(sums, digest.of_row(*row))
    once = Sums()
    for row in found:
        once = digest.with_row(once, digest.of_row(*row))
    assert sums == once


@pytest.mark.parametrize("vector", VECTORS["bucket_of"], ids=lambda vector: vector["bucket"])
def test_f52_a_records_bucket_equals_the_shared_vectors(vector: dict[str, str]) -> None:
    assert digest.bucket_of(vector["t"], vector["id"]) == vector["bucket"]


def book_of_the_vectors() -> list[repair.Row]:
    buckets = VECTORS["buckets"]
    rows = [("entry", f"0190bbbb-0000-7000-8000-{n:012x}", n) for n in range(1, buckets["entries"] + 1)]
    return rows + [(row["t"], row["id"], row["seq"]) for row in buckets["rows"]]


@pytest.mark.parametrize("answer", VECTORS["buckets"]["answers"], ids=lambda answer: answer["prefix"] or "whole")
def test_f52_buckets_equal_the_shared_vectors(answer: dict[str, Any]) -> None:
    parts = repair.parted(book_of_the_vectors(), answer["prefix"])
    rows = [row for part in parts.values() for row in part]
    assert (len(rows), repair.whole(rows).text) == (answer["count"], answer["digest"])
    if "records" in answer:
        assert sorted(f"{t}|{record_id}" for t, record_id, _ in rows) == answer["records"]
    else:
        assert parts.pop("") == []  # what has no further digit
        found = {digit: {"count": len(part), "digest": repair.whole(part).text} for digit, part in parts.items()}
        assert found == answer["children"]
