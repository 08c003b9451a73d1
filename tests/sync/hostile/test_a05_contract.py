"""A5, A6, A8 over HTTP: what the contract forbids never reaches the table; what stands there harms no phone."""

import json
import uuid
from typing import Any

import pytest

from lawn.book.sync import edit
from lawn.models import Product, Zone
from tests.domain.test_kinds import ID
from tests.sync.conftest import House

MOW = {"kind": "mow", "occurred_at": "2026-05-01T18:30:00+02:00", "zone_ids": [ID]}


SORTS = {"zone": {}, "product": {"sort": "lime"}, "spreader": {"sort": "drop"}, "mower": {}}


def new(t: str, number: int, name: str = "New") -> dict[str, Any]:
    return {"t": t, "id": str(uuid.UUID(int=number)), "set": {"name": {"name": name, **SORTS[t]}}}


@pytest.mark.parametrize("t", ["zone", "product", "spreader", "mower"])
def test_a08_a_book_holds_no_more_than_the_engine_takes_and_says_so(
    house: House,
    monkeypatch: pytest.MonkeyPatch,
    t: str,
) -> None:
    assert edit.MOST_RECORDS[t] == 1000
    monkeypatch.setitem(edit.MOST_RECORDS, t, 3)
    ops = [house.mine.save(new(t, number)) for number in range(1, 6)]
    house.mine.sync()
    assert [house.mine.results[op["op"]]["s"] for op in ops] == ["applied"] * 3 + ["parked"] * 2
    why = house.mine.results[ops[-1]["op"]]["why"]
    assert (why["code"], "3" in why["message"]) == ("too_many", True)
    house.mine.save(new(t, 1, "Changed"))
    assert house.mine.sync()["results"][0]["s"] in ("applied", "merged")


def test_a05_what_shadows_a_checked_field_and_stands_in_the_table_is_not_handed_on(house: House) -> None:
    house.mine.write("product", ID, granules={"granules": "fine", "newer": 1}, analysis={"n_percent": 24})
    house.mine.sync()
    extra = Product.objects.get().extra
    Product.objects.update(extra={"granules": {**extra["granules"], "n_percent": 0, "keep_off_hours": 0}})
    house.theirs.sync()
    assert house.theirs.see("product", ID, "granules") == {"granules": "fine", "newer": 1}
    assert Product.objects.get().extra["granules"]["n_percent"] == 0  # nothing is taken away


def test_a06_no_push_of_such_fields_reaches_the_table(house: House) -> None:
    house.mine.save({"t": "entry", "id": ID, "body": {**MOW, "zones": 5}})
    house.mine.save({"t": "product", "id": ID, "set": {"granules": {"granules": "fine", "n_percent": 0}}})
    house.mine.sync()
    assert {result["s"] for result in house.mine.results.values()} == {"parked"}
    assert not Product.objects.exists()
    assert not Zone.objects.exists()
    assert json.dumps(house.mine.results).count("does not belong") >= 2
