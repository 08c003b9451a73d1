"""A7: numbers that are not finite, nesting without end, long names: a reason each, and the line flows on."""

import json
from typing import Any

import pytest
from django.db import connection

from lawn.book.people import membership
from lawn.book.sync import apply
from lawn.models import Op, ParkedOp, Zone
from tests.factories import NOW
from tests.sync.conftest import House, signed_in

ZONE = "0190aaaa-0000-7000-8000-0000000000a7"
FIELDS = ["area_m2", "method", "measured", "outline", "unknown"]


def nested(depth: int) -> Any:
    found: Any = 1
    for _ in range(depth):
        found = [found]
    return found


def push(house: House, text: str) -> Any:
    client = signed_in(house.keeper)
    client.raise_request_exception = False
    return client.post(house.path, text.encode(), content_type="application/json")


def with_field(house: House, field: str, written: str) -> str:
    """A push of one zone in which a field's value stands as written, JSON or not quite."""
    ground = {"area_m2": 40, "method": "typed", field: "HERE"}
    item = {"t": "zone", "id": ZONE, "set": {"ground": ground}, "base": {"ground": None}}
    return json.dumps({**house.mine.request(), "ops": [house.mine.make_op(item)]}).replace('"HERE"', written)


@pytest.mark.parametrize("field", FIELDS)
@pytest.mark.parametrize("number", ["1e400", "-1e400", "1E+9999", '[1, {"a": 1e999}]', "NaN", "-Infinity"])
def test_a07_a_number_that_is_not_finite_is_refused_with_a_reason(house: House, field: str, number: str) -> None:
    answer = push(house, with_field(house, field, number))
    assert (answer.status_code, answer.json()["code"]) == (400, "malformed")
    assert "number" in answer.json()["message"]
    assert (Op.objects.count(), ParkedOp.objects.count(), Zone.objects.count()) == (0, 0, 0)


@pytest.mark.parametrize("field", FIELDS)
@pytest.mark.parametrize("number", ["9" * 400, "-" + "9" * 310, '[{"a": ' + "1" * 4000 + "}]"], ids=len)
def test_a07_a_whole_number_no_phone_can_hold_is_parked_with_a_reason(house: House, field: str, number: str) -> None:
    answer = push(house, with_field(house, field, number))
    (result,) = answer.json()["results"]
    assert (result["s"], result["why"]["code"]) == ("parked", "invalid")
    assert "larger" in result["why"]["message"]
    assert len(answer.content) < 5_000
    assert Zone.objects.count() == 0


def test_a07_a_note_full_of_digits_is_a_text_and_kept(house: House) -> None:
    house.mine.log("observation", text="1e400 " + "7" * 400)
    assert house.mine.sync()["results"][0]["s"] == "applied"


@pytest.mark.parametrize("number", ["1e-400", "1e308", "0.1e1", "123456789012345678901234567890"])
def test_a07_what_is_finite_however_small_or_large_is_kept(house: House, number: str) -> None:
    answer = push(house, with_field(house, "unknown", number))
    assert answer.json()["results"][0]["s"] == "applied"


@pytest.mark.parametrize("depth", [70, 120, 200, 2_000, 50_000, 130_000])
@pytest.mark.parametrize("field", ["measured", "unknown"])
def test_a07_nesting_past_64_never_throws_and_is_parked_or_refused_with_a_reason(
    house: House, field: str, depth: int
) -> None:
    answer = push(house, with_field(house, field, "[" * depth + "]" * depth))
    if answer.status_code == 200:
        (result,) = answer.json()["results"]
        assert (result["s"], result["why"]["code"]) == ("parked", "too_deep")
        assert "64" in result["why"]["message"]
    else:
        assert (answer.status_code, answer.json()["code"]) == (400, "malformed")


def test_a07_nesting_to_64_is_kept(house: House) -> None:
    # below the op: its items, the item, what it sets, the group, the field
    answer = push(house, with_field(house, "unknown", json.dumps(nested(58))))
    assert answer.json()["results"][0]["s"] == "applied"


def test_a07_one_op_nested_too_deep_holds_up_none_before_or_after_it(house: House) -> None:
    before = house.mine.log("mow")
    bad = house.mine.write("zone", ZONE, ground={"area_m2": 40, "method": "typed", "unknown": nested(90)})
    after = house.mine.log("mow")
    house.mine.sync()
    assert [house.mine.results[op]["s"] for op in house.mine.results] == ["applied", "parked", "applied"]
    assert house.mine.results[bad["op"]]["why"]["code"] == "too_deep"
    assert {row["id"] for row in house.mine.all_of("entry")} == {before, after}
    (parked,) = ParkedOp.objects.all()
    assert apply.said_by(parked)["m"] == bad["m"]
    assert house.mine.post({**house.mine.request(), "ops": [bad]})["results"][0]["s"] == "parked"


def test_a07_held_for_a_keeper_it_can_be_read_and_refused_again(house: House) -> None:
    op = house.theirs.save({"t": "zone", "id": ZONE, "set": {"ground": {"unknown": nested(100)}}})
    membership.remove(house.keeper, house.member.id, NOW)
    assert house.theirs.sync()["results"][0]["s"] == "parked"
    client = signed_in(house.keeper)
    (held,) = client.get(house.path.replace("/sync", "/pending-review")).json()["pending_review"]
    assert held["m"] == op["m"]
    answer = client.post(house.path.replace("/sync", f"/pending-review/{held['id']}/accept"))
    assert (answer.status_code, answer.json()["why"]["code"]) == (200, "too_deep")


LONG = "x" * 100_000
HOSTILE_ITEMS: list[Any] = [
    {"t": LONG, "id": ZONE, "set": {"name": {}}},
    {"t": "zone", "id": LONG, "set": {"name": {}}},
    {"t": "zone", "id": ZONE, "set": {LONG: {}}},
    {"t": "zone", "id": ZONE, "set": {LONG: 7}},
    {"t": "zone", "id": ZONE, "set": {"name": {LONG: 1}}},
    {"t": "zone", "id": ZONE, "set": {"": {"a": 1}}},
    {"t": "zone", "id": ZONE, "set": {"name": {"name": LONG}}},
    {"t": "zone", "id": ZONE, "set": {"ground": {"area_m2": int("9" * 300), "method": "typed"}}},
    {"t": "zone", "id": ZONE, "set": {"ground": {"area_m2": True, "method": ["typed"]}}},
    {"t": "zone", "id": ZONE, "set": {"ground": {"area_m2": 40, "method": {"typed": 1}}}},
    {"t": "zone", "id": ZONE, "set": {"name": {"name": "Verge"}}, "base": {"name": ["x"]}},
    {"t": "zone", "id": ZONE, "set": {"name": {"name": "Verge"}}, "base": {"name": {"x": 1}}},
    {"t": "zone", "id": ZONE, "set": {"name": {"name": "Verge"}}, "base": {"name": 7}},
    {"t": "claim", "id": ZONE, "set": {"claim": {"job": "mow", "day": "20260501"}}},
    {"t": "claim", "id": ZONE, "set": {"claim": {"job": "mow", "day": "2026-W18-5"}}},
    {"t": "claim", "id": ZONE, "set": {"claim": {"job": ["mow"], "day": 7, "zone_ids": "all"}}},
    {"t": "photo", "id": ZONE, "set": {"photo": {"of": "zone", "of_id": ZONE, "sha256": "0" * 63 + "\n"}}},
    {"t": "entry", "id": ZONE, "body": {"kind": ["mow"], "occurred_at": "2026-05-01T18:30:00+02:00"}},
    {"t": "entry", "id": ZONE, "body": {"kind": {"a": 1}, "occurred_at": "2026-05-01T18:30:00+02:00"}},
    {"t": "entry", "id": ZONE, "body": {"kind": "mow", "occurred_at": "1900-01-01T00:00:00+23:59"}},
    {"t": "entry", "id": ZONE, "body": {"kind": "mow", "occurred_at": "2199-12-31T23:59:59.999999-23:59"}},
    {"t": "entry", "id": ZONE, "body": {"kind": "mow", "occurred_at": "2026-05-01T18:30:00+99:99"}},
    {"t": "entry", "id": ZONE, "body": {"kind": "mow", "occurred_at": "2026-05-01T18:30:00+02:00"}, "set": {"when": 1}},
    {"t": "entry", "id": ZONE, "body": {"kind": "tray_test", "catches_g": [{}, [], None]}},
    {"t": "household", "id": ZONE, "set": {"name": {"name": "Other"}}},
    {"t": "member", "id": ZONE, "set": {"role": {"role": "keeper"}}},
    {"t": "conflict", "id": ZONE, "body": {}},
    {"t": None, "id": None},
    {"t": "zone", "id": ZONE, "set": {"deleted": {"deleted": "yes"}}},
    {"t": "zone", "id": ZONE.upper(), "set": {"name": {"name": "Verge"}}},
    [],
    7,
    None,
]


@pytest.mark.parametrize("item", HOSTILE_ITEMS, ids=lambda item: json.dumps(item)[:60])
def test_a07_no_item_throws_and_the_op_after_it_is_applied(house: House, item: Any) -> None:
    bad = house.mine.save(item)
    good = house.mine.log("mow")
    answer = push(house, json.dumps(house.mine.request()))
    assert answer.status_code == 200
    first, second = answer.json()["results"]
    assert (first["op"], second["s"]) == (bad["op"], "applied")
    assert first["s"] == "applied" or first["why"]["code"] != "server_trouble", first
    assert len(answer.content) < 20_000  # what is hostile is not sent back and forth
    again = push(house, json.dumps(house.mine.request()))
    assert [result["s"] for result in again.json()["results"]][1] == "duplicate"
    for path in ("bootstrap", "digest"):
        found = signed_in(house.keeper).get(house.path.replace("/sync", f"/{path}"))
        assert found.status_code == 200
    assert any(row["id"] == good for row in again.json()["changes"])
    connection.check_constraints()


@pytest.mark.parametrize(
    "more", [{"unknown": 1}, {"why": {"deep": [1]}}, {"hash": "0" * 64}, {"m": {}}, {"m": "text"}, {"m": 7}], ids=str
)
def test_a07_odd_envelopes_get_a_verdict(house: House, more: dict[str, Any]) -> None:
    op = {**house.mine.make_op({"t": "zone", "id": ZONE, "set": {"name": {"name": "Verge"}}}), **more}
    answer = push(house, json.dumps({**house.mine.request(), "ops": [op]}))
    assert answer.status_code == 200
    assert answer.json()["results"][0]["s"] in ("applied", "parked")
