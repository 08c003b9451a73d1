"""The schema handshake both ways (F12, F43, F44) and numbers that carry nothing (F56)."""

from collections.abc import Iterator
from typing import Any

import pytest
from django.utils import timezone

from api.sync import views
from lawn.book.sync import record, retry
from lawn.contract import kinds
from lawn.models import Claim, Entry, Hole, Op, ParkedOp
from tests.sync.conftest import House, phone_of, signed_in

ZONE = "0190aaaa-0000-7000-8000-000000000001"
CLAIM = "0190ffff-0000-7000-8000-000000000001"
SAID = {"job": "mow", "day": "2026-05-02", "zone_ids": [ZONE], "note": "after the dew"}


@pytest.fixture
def older(monkeypatch: pytest.MonkeyPatch) -> Iterator[pytest.MonkeyPatch]:
    """A server from before claims were known, until the patch is undone."""
    with monkeypatch.context() as patch:
        patch.setattr(record, "KEPT_MODELS", {t: m for t, m in record.KEPT_MODELS.items() if t != "claim"})
        yield patch


def test_f43_a_server_rolled_back_takes_what_it_understands_and_parks_the_rest(
    house: House, older: pytest.MonkeyPatch
) -> None:
    """The phone is two schemas ahead: known kinds are applied with their unknown fields, the unknown kind is parked."""
    newer = kinds.schema() + 2
    claim = house.theirs.write("claim", CLAIM, claim=SAID)
    zone = house.theirs.write("zone", ZONE, name={"name": "Verge", "nickname": "The strip"}, drainage={"tiles": 4})
    request = house.theirs.request()
    request["schema"] = newer
    for op in request["ops"]:
        op["schema"] = newer
    house.theirs.take(house.theirs.post(request))
    results = house.theirs.results
    assert (results[claim["op"]]["s"], results[claim["op"]]["why"]["code"]) == ("parked", "unknown_kind")
    assert results[zone["op"]]["s"] == "applied"
    house.mine.sync()
    assert house.mine.see("zone", ZONE, "name") == {"name": "Verge", "nickname": "The strip"}
    assert house.mine.see("zone", ZONE, "drainage") == {"tiles": 4}


def park_a_claim(house: House) -> dict[str, Any]:
    op = house.theirs.write("claim", CLAIM, claim=SAID)
    house.theirs.sync()
    assert house.theirs.results[op["op"]]["why"]["code"] == "unknown_kind"
    return op


def test_f43_f12_what_was_parked_as_unknown_is_applied_once_the_server_knows_it(
    house: House, older: pytest.MonkeyPatch
) -> None:
    op = park_a_claim(house)
    assert retry.again(timezone.now()) == 0
    older.undo()
    assert retry.again(timezone.now()) == 1
    house.mine.sync()
    house.theirs.sync()
    assert house.mine.see("claim", CLAIM, "claim") == SAID
    # how the phone that wrote it knows: the version that stands is its op
    assert house.theirs.records[f"claim:{CLAIM}"]["groups"]["claim"]["version"] == op["op"]
    assert house.theirs.records[f"claim:{CLAIM}"]["by"] == str(house.member.id)
    assert house.mine.digest == house.mine.answer["digest"]
    assert (ParkedOp.objects.get().settled_as, Op.objects.get(id=op["op"]).result["s"]) == ("applied", "applied")


def test_f43_p02_a_second_try_is_made_once(house: House, older: pytest.MonkeyPatch) -> None:
    park_a_claim(house)
    older.undo()
    head = house.household.seq
    assert [retry.again(timezone.now()) for _ in range(3)] == [1, 0, 0]
    assert (house.household.seq, Claim.objects.count()) == (head + 1, 1)


def test_f43_p03_ops_on_one_record_are_tried_in_the_order_they_were_made(
    house: House, older: pytest.MonkeyPatch
) -> None:
    for job in ("mow", "feed", "spray", "water", "other"):
        house.theirs.write("claim", CLAIM, claim={**SAID, "job": job})
    house.theirs.sync()
    older.undo()
    assert retry.again(timezone.now()) == 5
    house.mine.sync()
    assert house.mine.see("claim", CLAIM, "claim")["job"] == "other"
    assert house.mine.all_of("conflict") == []


def test_f43_s02_an_edit_that_came_meanwhile_is_not_written_over(house: House, older: pytest.MonkeyPatch) -> None:
    """Both phones wrote the record, the older write was parked: the newer one stands, the other is kept."""
    park_a_claim(house)
    older.undo()
    house.mine.clock_ms += 60_000
    house.mine.write("claim", CLAIM, claim={**SAID, "job": "feed"})
    house.mine.sync()
    assert retry.again(timezone.now()) == 1
    house.mine.sync()
    assert house.mine.see("claim", CLAIM, "claim")["job"] == "feed"
    (conflict,) = house.mine.all_of("conflict")
    assert conflict["body"]["lost"]["value"] == SAID


def test_f43_one_that_is_wrong_besides_stays_parked_under_its_new_reason(
    house: House, older: pytest.MonkeyPatch
) -> None:
    house.theirs.write("claim", CLAIM, claim={**SAID, "job": "sleep"})
    house.theirs.sync()
    older.undo()
    assert retry.again(timezone.now()) == 0
    parked = ParkedOp.objects.get()
    assert (parked.why["code"], parked.settled_at) == ("invalid", None)


def test_f43_a_migration_that_completes_the_database_tries_again(house: House, older: pytest.MonkeyPatch) -> None:
    from django.core.management import call_command

    park_a_claim(house)
    older.undo()
    call_command("migrate", verbosity=0)
    assert Claim.objects.count() == 1


def test_f44_an_app_two_years_old_is_told_to_update_and_can_still_read(
    house: House, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Its outbox stays whole: the push is refused with nothing done, a pull without ops is answered."""
    house.mine.write("zone", ZONE, name={"name": "Verge"})
    house.mine.sync()
    monkeypatch.setattr(views, "MIN_PUSH_SCHEMA", kinds.schema())
    entry = house.theirs.log("mow")
    request = {**house.theirs.request(), "schema": kinds.schema() - 1}
    response = signed_in(house.member).post(house.path, request, content_type="application/json")
    assert (response.status_code, response.json()["code"]) == (426, "update_needed")
    assert (Entry.objects.count(), ParkedOp.objects.count()) == (0, 0)
    answer = house.theirs.post({**request, "ops": []})
    assert {f"{one['t']}:{one['id']}" for one in answer["changes"]} >= {f"zone:{ZONE}"}
    assert (answer["schema"], answer["min_push_schema"]) == (kinds.schema(), kinds.schema())
    # updated, it sends what it wrote under the old schema
    house.theirs.take(house.theirs.post({**request, "schema": kinds.schema()}))
    assert Entry.objects.filter(id=entry).exists()


def test_f56_a_number_that_carries_nothing_is_listed_and_the_line_goes_on(house: House) -> None:
    house.mine.log("mow")
    hole = house.mine.save()
    after = house.mine.log("mow")
    house.mine.sync()
    result = house.mine.results[hole["op"]]
    assert (result["s"], result["seq"], result["why"]["code"]) == ("applied", None, "hole")
    assert house.mine.answer["acked_dseq"] == 3
    assert f"entry:{after}" in house.mine.records
    (row,) = Hole.objects.all()
    assert (str(row.device_id), str(row.incarnation), row.dseq) == (
        str(house.mine.device), house.mine.incarnation, hole["dseq"],
    )  # fmt: skip
    assert ParkedOp.objects.count() == 0


def test_f56_f04_a_hole_sent_twice_is_one_hole(house: House) -> None:
    hole = house.mine.save()
    request = house.mine.request()
    answers = [house.mine.post(request)["results"] for _ in range(2)]
    assert [(r["op"], r["s"], r["why"]["code"]) for (r,) in answers] == [
        (hole["op"], "applied", "hole"), (hole["op"], "duplicate", "hole"),
    ]  # fmt: skip
    assert Hole.objects.count() == 1


def test_s11_s05_every_answer_names_the_epoch_and_it_stays(house: House) -> None:
    epochs = {house.mine.sync()["epoch"], house.theirs.sync()["epoch"], phone_of(house.member).sync()["epoch"]}
    assert epochs == {str(house.household.epoch)}
