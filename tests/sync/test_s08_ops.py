"""S8: ops in the order of their numbers, each on its own, each with a verdict; P1, P2, P6, P8."""

import uuid
from datetime import timedelta
from typing import Any

import pytest
from django.utils import timezone

from lawn.book.merging.merge import merge_record
from lawn.models import Op, ParkedOp, Zone
from tests.sync.conftest import House, phone_of

ZONE = "0190aaaa-0000-7000-8000-000000000001"


def name(text: str) -> dict[str, Any]:
    return {"name": {"name": text}}


def verdicts(house: House) -> list[str]:
    return [result["s"] for result in house.mine.answer["results"]]


def test_s08_ops_apply_and_are_acknowledged(house: House) -> None:
    op = house.mine.write("zone", ZONE, **name("Verge"))
    answer = house.mine.sync()
    assert answer["results"] == [{"op": op["op"], "s": "applied", "seq": answer["head"], "lost": [], "why": None}]
    assert answer["acked_dseq"] == 1
    assert house.mine.see("zone", ZONE, "name") == {"name": "Verge"}


def test_s08_p02_f04_same_op_twice_is_duplicate(house: House) -> None:
    """F4: the answer was lost after the commit, so the phone sends again; the book does not change again."""
    house.mine.write("zone", ZONE, **name("Verge"))
    request = house.mine.request()
    first, head = house.mine.post(request)["results"][0], house.household.seq
    again = house.mine.post(request)["results"][0]
    assert (first["s"], again["s"], again["seq"]) == ("applied", "duplicate", first["seq"])
    assert house.household.seq == head
    assert Op.objects.count() == 1


def test_s08_same_id_with_other_content_is_parked_as_op_reused(house: House) -> None:
    op = house.mine.write("zone", ZONE, **name("Verge"))
    house.mine.sync()
    house.mine.save({"t": "zone", "id": ZONE, "set": name("Other"), "base": {}})
    changed = house.mine.make_op(house.mine.outbox[0]["m"][0], op=op["op"], dseq=2)
    house.mine.outbox = [changed]
    house.mine.take(house.mine.post(house.mine.request()))
    assert verdicts(house) == ["parked"]
    assert house.mine.answer["results"][0]["why"]["code"] == "op_reused"
    assert house.mine.answer["acked_dseq"] == 2
    assert house.mine.see("zone", ZONE, "name") == {"name": "Verge"}
    assert ParkedOp.objects.get().raw["m"] == changed["m"]


def test_s08_f23_f24_a_number_used_before_is_a_fork_and_nothing_of_it_is_lost(house: House) -> None:
    """A phone restored from a backup, or cloned, writes something else under a number already used."""
    house.mine.write("zone", ZONE, **name("Verge"))
    house.mine.sync()
    restored = phone_of(house.keeper)
    restored.device, restored.incarnation = house.mine.device, house.mine.incarnation
    other = str(uuid.uuid4())
    restored.write("zone", other, **name("Long side"))
    answer = restored.post(restored.request())
    assert answer["fork_detected"] is True
    assert answer["results"] == []
    assert not Zone.objects.filter(id=other).exists()
    restored.incarnation = str(uuid.uuid4())
    restored.sync()
    assert restored.see("zone", other, "name") == {"name": "Long side"}


def test_s08_after_a_fork_an_op_already_applied_is_known_under_its_new_number(house: House) -> None:
    first = house.mine.write("zone", ZONE, **name("Verge"))
    second = house.mine.write("zone", ZONE, **name("Street verge"))
    house.mine.sync()
    clone = phone_of(house.keeper)
    clone.device, clone.dseq = house.mine.device, 0
    # the clone still holds the second op, and numbers it anew, so that its hash is another
    clone.outbox = [clone.make_op(*second["m"], op=second["op"], hlc=second["hlc"], dseq=1)]
    assert clone.outbox[0]["hash"] != second["hash"]
    answer = clone.post(clone.request())
    assert [(r["op"], r["s"]) for r in answer["results"]] == [(second["op"], "duplicate")]
    assert answer["acked_dseq"] == 1
    assert ParkedOp.objects.count() == 0
    assert first["op"] != second["op"]


def test_s08_a_gap_stops_and_asks_for_the_missing_number(house: House) -> None:
    house.mine.write("zone", ZONE, **name("Verge"))
    house.mine.write("zone", ZONE, **name("Street verge"))
    house.mine.write("zone", ZONE, **name("The verge"))
    request = house.mine.request()
    missing = request["ops"].pop(1)
    answer = house.mine.post(request)
    assert [r["s"] for r in answer["results"]] == ["applied"]
    assert (answer["need_from"], answer["acked_dseq"]) == (2, 1)
    answer = house.mine.post({**request, "ops": [missing, request["ops"][1]]})
    assert [r["s"] for r in answer["results"]] == ["applied", "applied"]
    assert answer["need_from"] is None


def test_s08_p03_ops_apply_in_device_order_however_they_lie_in_the_request(house: House) -> None:
    for text in ("One", "Two", "Three"):
        house.mine.write("zone", ZONE, **name(text))
    request = house.mine.request()
    request["ops"].reverse()
    house.mine.take(house.mine.post(request))
    assert verdicts(house) == ["applied"] * 3
    assert house.mine.see("zone", ZONE, "name") == {"name": "Three"}


@pytest.mark.parametrize(
    ("item", "code"),
    [
        ({"t": "zone", "id": ZONE, "set": {"ground": {"area_m2": -4, "method": "shapes"}}}, "invalid"),
        ({"t": "zone", "id": ZONE, "set": {"name": {"name": ""}}}, "invalid"),
        ({"t": "zone", "id": ZONE, "set": {"site": {"sun": ""}}}, "invalid"),
        ({"t": "zone", "id": ZONE, "set": {"name": "Verge"}}, "invalid"),
        ({"t": "zone", "id": ZONE, "body": {}}, "invalid"),
        ({"t": "entry", "id": ZONE, "body": {"kind": "dance", "occurred_at": "2026-05-01T10:00Z"}}, "invalid"),
        ({"t": "entry", "id": ZONE, "body": {"kind": "mow", "occurred_at": "2026-05-01T10:00"}}, "invalid"),
        ({"t": "entry", "id": ZONE, "body": {"kind": "mow", "occurred_at": "0001-01-01T00:00+14:00"}}, "invalid"),
        ({"t": "entry", "id": ZONE, "set": {"note": {"note": "for nothing"}}}, "unknown_record"),
        ({"t": "season", "id": ZONE, "set": {"x": {}}}, "unknown_kind"),
        ({"t": "conflict", "id": ZONE, "set": {"x": {}}}, "not_allowed"),
        ({"t": "zone", "id": "Z1", "set": {"name": {"name": "Verge"}}}, "malformed"),
        ({"t": "zone", "id": ZONE}, "malformed"),
        ({"t": "zone", "id": ZONE, "set": 7}, "malformed"),
        ({"t": ["zone"], "id": ZONE, "set": {"name": {"name": "Verge"}}}, "malformed"),
        ({"t": "zone", "id": {}, "set": {"name": {"name": "Verge"}}}, "malformed"),
        ("nonsense", "malformed"),
        ({"t": "zone", "id": ZONE, "set": {"name": {"name": "a\x00b"}}}, "unreadable_text"),
        ({"t": "zone", "id": ZONE, "set": {"name": {"name": "\ud800"}}}, "unreadable_text"),
        ({"t": "zone", "id": ZONE, "set": {"ground": {"area_m2": 10**400, "method": "shapes"}}}, "invalid"),
    ],
)
def test_s08_p08_f14_an_op_that_cannot_be_applied_is_parked_and_the_next_goes_on(
    house: House, item: Any, code: str
) -> None:
    bad = house.mine.save(item)
    good = house.mine.log("observation", text="Dew at nine")
    house.mine.sync()
    result = house.mine.results[bad["op"]]
    assert (result["s"], result["why"]["code"], result["seq"]) == ("parked", code, None)
    assert result["why"]["message"]
    assert f"entry:{good}" in house.mine.records
    assert not Zone.objects.exists()
    assert ParkedOp.objects.get().why == result["why"]


def test_s08_the_same_op_twice_in_one_push_is_applied_once(house: House) -> None:
    op = house.mine.write("zone", ZONE, **name("Verge"))
    request = house.mine.request()
    answer = house.mine.post({**request, "ops": [op, op]})
    assert [result["s"] for result in answer["results"]] == ["applied", "duplicate"]
    assert (answer["acked_dseq"], Op.objects.count()) == (1, 1)


def test_s08_two_ops_under_one_number_in_one_push_are_a_fork(house: House) -> None:
    first = house.mine.write("zone", ZONE, **name("Verge"))
    second = house.mine.make_op(dseq=1)
    answer = house.mine.post({**house.mine.request(), "ops": [first, second]})
    assert [result["s"] for result in answer["results"]] == ["applied"]
    assert answer["fork_detected"] is True


def test_s08_what_a_parked_op_began_is_not_remembered_by_the_next(house: House) -> None:
    """The first op brings a zone, then fails on its second item; the second op brings the same zone again."""
    zone, bad = {"t": "zone", "id": ZONE, "set": name("First")}, {"t": "product", "id": ZONE, "set": {"label": 7}}
    house.mine.save(zone, bad)
    house.mine.save({**zone, "set": name("Second")})
    house.mine.sync()
    assert verdicts(house) == ["parked", "applied"]
    assert house.mine.see("zone", ZONE, "name") == {"name": "Second"}
    assert house.mine.digest == house.mine.answer["digest"]


def test_p06_an_invalid_op_names_the_field_what_is_wrong_and_what_is_allowed(house: House) -> None:
    house.mine.write("product", ZONE, label={"net_kg": 0, "coverage_m2": 400})
    why = house.mine.sync()["results"][0]["why"]
    assert why["fields"] == {"net_kg": "Net weight is 0; allowed is 0.01 to 2000 kg."}


def test_p08_one_bad_item_parks_its_whole_op_and_leaves_no_half(house: House) -> None:
    bad = {"t": "product", "id": ZONE, "set": {"label": {"net_kg": -1}}}
    house.mine.save({"t": "zone", "id": ZONE, "set": name("Verge")}, bad)
    house.mine.sync()
    assert not Zone.objects.exists()
    assert house.mine.digest == house.mine.answer["digest"]


def test_s08_p08_what_the_database_refuses_half_way_leaves_no_half(
    house: House, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The contract is looked away from, so that the database is who refuses: of one op its second zone."""
    monkeypatch.setattr("lawn.contract.kinds.check_group", lambda *asked: {})
    good, bad = {"t": "zone", "id": str(uuid.uuid4())}, {"t": "zone", "id": str(uuid.uuid4())}
    house.mine.save({**good, "set": name("First")}, {**bad, "set": {"ground": {"area_m2": -4, "method": "shapes"}}})
    house.mine.write("zone", ZONE, **name("Second"))
    house.mine.sync()
    assert verdicts(house) == ["parked", "applied"]
    assert [str(zone.id) for zone in Zone.objects.all()] == [ZONE]
    assert house.mine.digest == house.mine.answer["digest"]


def test_f04_a_parked_op_sent_again_is_still_parked_and_kept_once(house: House) -> None:
    house.mine.write("zone", ZONE, ground={"area_m2": -4, "method": "shapes"})
    request = house.mine.request()
    answers = [house.mine.post(request)["results"][0] for _ in range(2)]
    assert [answer["s"] for answer in answers] == ["parked", "parked"]
    assert answers[0]["why"] == answers[1]["why"]
    assert ParkedOp.objects.count() == 1


def test_f15_op_that_throws_is_parked(house: House, monkeypatch: pytest.MonkeyPatch) -> None:
    def throws(groups: Any, sets: Any) -> Any:
        if sets.groups.get("name") == {"name": "Bang"}:
            raise ZeroDivisionError
        return merge_record(groups, sets)

    monkeypatch.setattr("lawn.book.sync.edit.merge_record", throws)
    bad = house.mine.write("zone", str(uuid.uuid4()), **name("Bang"))
    house.mine.write("zone", ZONE, **name("Verge"))
    house.mine.sync()
    assert house.mine.results[bad["op"]]["why"]["code"] == "server_trouble"
    assert ParkedOp.objects.get().raw["m"] == bad["m"]
    assert house.mine.see("zone", ZONE, "name") == {"name": "Verge"}
    assert house.mine.digest == house.mine.answer["digest"]


def test_p01_a_parked_op_is_kept_whole_as_it_came(house: House) -> None:
    bad = house.mine.write("zone", ZONE, ground={"area_m2": -4, "method": "shapes", "measured": {"typed": "4 ft"}})
    house.mine.sync()
    assert ParkedOp.objects.get().raw == bad


def test_f56_p08_an_empty_op_keeps_the_line_moving(house: House) -> None:
    hole = house.mine.save()
    house.mine.write("zone", ZONE, **name("Verge"))
    house.mine.sync()
    assert house.mine.results[hole["op"]]["why"]["code"] == "hole"
    assert house.mine.see("zone", ZONE, "name") == {"name": "Verge"}


def mown(house: House, entry: str, occurred_at: str) -> dict[str, Any]:
    body = {"kind": "mow", "occurred_at": occurred_at, "zone_ids": [ZONE]}
    house.mine.save({"t": "entry", "id": entry, "body": body})
    return house.mine.sync()["results"][-1]  # type: ignore[no-any-return]


def ahead(hours: float) -> str:
    return (timezone.now() + timedelta(hours=hours)).isoformat(timespec="seconds")


@pytest.mark.parametrize(("hours", "verdict"), [(-24, "applied"), (0, "applied"), (23, "applied"), (25, "parked")])
def test_s08_p06_an_entry_done_later_than_a_day_from_now_is_set_aside_whole(
    house: House, hours: float, verdict: str
) -> None:
    """A mow dated next year left what is due quiet for a year; clocks and time zones stand up to a day apart."""
    at = ahead(hours)
    result = mown(house, "0190aaaa-0000-7000-8000-0000000000e1", at)
    assert result["s"] == verdict
    if verdict == "parked":
        assert result["why"]["code"] == "invalid"
        assert result["why"]["fields"] == {
            "occurred_at": f"When it was done (ISO 8601 with zone offset) is {at}; allowed is up to 1 day ahead of now."
        }
        assert ParkedOp.objects.get().raw["m"][0]["body"]["occurred_at"] == at


def test_s08_p06_an_entry_is_not_moved_to_a_day_to_come(house: House) -> None:
    entry = "0190aaaa-0000-7000-8000-0000000000e2"
    mown(house, entry, ahead(-48))
    house.mine.save({"t": "entry", "id": entry, "set": {"when": {"occurred_at": ahead(24 * 365)}}, "base": {}})
    result = house.mine.sync()["results"][-1]
    assert (result["s"], list(result["why"]["fields"])) == ("parked", ["occurred_at"])
