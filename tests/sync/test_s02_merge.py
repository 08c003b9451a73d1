"""S1 and S2 over HTTP: groups merge whole, losers are kept, edits win against deletions; P3, P4, P7."""

from datetime import datetime, timedelta
from typing import Any

import pytest
from django.utils import timezone

from lawn.models import Conflict, Zone
from tests.sync.conftest import House

ZONE = "0190aaaa-0000-7000-8000-000000000001"
PRODUCT = "0190bbbb-0000-7000-8000-000000000001"


def name(text: str) -> dict[str, Any]:
    return {"name": {"name": text}}


@pytest.fixture
def shared(house: House) -> House:
    """Both phones hold the same zone and product."""
    house.mine.write("zone", ZONE, **name("Verge"), cut={"cut_height_mm": 60}, deleted={"deleted": False})
    house.mine.write("product", PRODUCT, label={"net_kg": 20, "coverage_m2": 400})
    house.mine.sync()
    house.theirs.sync()
    return house


def settle(house: House) -> None:
    """Both sync until quiet: two rounds are promised to be enough (P4)."""
    for phone in (house.mine, house.theirs, house.mine, house.theirs):
        phone.sync()


def assert_alike(house: House) -> None:
    assert house.mine.records == house.theirs.records
    assert house.mine.digest == house.theirs.digest == house.mine.answer["digest"]


def test_s02_f25_a_write_that_saw_the_current_version_applies_whatever_the_clocks_say(shared: House) -> None:
    """F25: their clock is three years behind, and their write still follows what they saw."""
    shared.theirs.clock_ms -= 3 * 365 * 24 * 3600 * 1000
    shared.theirs.write("zone", ZONE, **name("Long side"))
    assert shared.theirs.sync()["results"][0]["s"] == "applied"
    assert shared.theirs.see("zone", ZONE, "name") == {"name": "Long side"}
    assert Conflict.objects.count() == 0


@pytest.mark.parametrize("mine_first", [True, False])
def test_s02_b_f29_of_two_concurrent_writes_the_later_stands_and_the_other_is_kept(
    shared: House, mine_first: bool
) -> None:
    shared.mine.clock_ms += 5000
    winner = shared.mine.write("zone", ZONE, **name("By me, later"))
    loser = shared.theirs.write("zone", ZONE, **name("By them, earlier"))
    order = (shared.mine, shared.theirs) if mine_first else (shared.theirs, shared.mine)
    for phone in order:
        phone.sync()
    settle(shared)
    assert_alike(shared)
    assert shared.mine.see("zone", ZONE, "name") == {"name": "By me, later"}
    (conflict,) = shared.mine.all_of("conflict")
    assert conflict["body"]["lost"] == {
        "value": {"name": "By them, earlier"},
        "version": loser["op"],
        "hlc": loser["hlc"],
        "by": str(shared.member.id),
        "won_by": str(shared.keeper.id),
    }
    assert conflict["body"]["won"] == winner["op"]
    assert (conflict["body"]["t"], conflict["body"]["id"], conflict["body"]["group"]) == ("zone", ZONE, "name")


def test_s02_b_p06_the_loser_is_told_which_group_lost_and_why(shared: House) -> None:
    shared.mine.clock_ms += 5000
    shared.mine.write("zone", ZONE, **name("Later"))
    shared.mine.sync()
    op = shared.theirs.write("zone", ZONE, **name("Earlier"), site={"soil": "loam"})
    shared.theirs.sync()
    result = shared.theirs.results[op["op"]]
    assert (result["s"], result["lost"], result["why"]["code"]) == ("merged", ["name"], "merged")
    assert shared.theirs.see("zone", ZONE, "site") == {"soil": "loam"}


def test_p07_what_lost_can_be_restored(shared: House) -> None:
    shared.mine.clock_ms += 5000
    shared.mine.write("zone", ZONE, **name("Later"))
    shared.theirs.write("zone", ZONE, **name("Earlier"))
    settle(shared)
    lost = shared.theirs.all_of("conflict")[0]["body"]["lost"]["value"]
    shared.theirs.write("zone", ZONE, name=lost)
    settle(shared)
    assert_alike(shared)
    assert shared.mine.see("zone", ZONE, "name") == {"name": "Earlier"}
    assert Conflict.objects.count() == 1


def test_s01_f28_two_groups_of_one_product_both_stand(shared: House) -> None:
    shared.mine.write("product", PRODUCT, price={"price": 30})
    shared.theirs.write("product", PRODUCT, analysis={"n_percent": 23})
    settle(shared)
    assert_alike(shared)
    assert shared.mine.see("product", PRODUCT, "price") == {"price": 30}
    assert shared.mine.see("product", PRODUCT, "analysis") == {"n_percent": 23}
    assert Conflict.objects.count() == 0


def test_s01_f30_amount_of_one_phone_and_unit_of_the_other_never_mix(shared: House) -> None:
    pounds = {"net_kg": 21.77, "net_typed": {"amount": "48", "unit": "lb"}, "coverage_m2": 445.9}
    kilograms = {"net_kg": 25, "net_typed": {"amount": "25", "unit": "kg"}}
    shared.mine.write("product", PRODUCT, label=pounds)
    shared.theirs.write("product", PRODUCT, label=kilograms)
    settle(shared)
    assert_alike(shared)
    assert shared.mine.see("product", PRODUCT, "label") in (pounds, kilograms)
    lost = shared.mine.all_of("conflict")[0]["body"]["lost"]["value"]
    assert lost in (pounds, kilograms)
    assert lost != shared.mine.see("product", PRODUCT, "label")


@pytest.mark.parametrize("delete_first", [True, False])
def test_s02_c_f31_an_edit_made_without_knowing_of_a_deletion_keeps_the_record(
    shared: House, delete_first: bool
) -> None:
    shared.mine.clock_ms += 9000
    deletion = shared.mine.write("zone", ZONE, deleted={"deleted": True})
    shared.theirs.write("zone", ZONE, cut={"cut_height_mm": 70})
    order = (shared.mine, shared.theirs) if delete_first else (shared.theirs, shared.mine)
    for phone in order:
        phone.sync()
    settle(shared)
    assert_alike(shared)
    assert shared.mine.see("zone", ZONE, "deleted") == {"deleted": False}
    assert shared.mine.see("zone", ZONE, "cut") == {"cut_height_mm": 70}
    (flag,) = shared.mine.all_of("conflict")
    assert (flag["body"]["group"], flag["body"]["lost"]["version"]) == ("deleted", deletion["op"])


def test_s02_c_a_deletion_that_saw_every_edit_stands(shared: House) -> None:
    shared.theirs.write("zone", ZONE, cut={"cut_height_mm": 70})
    settle(shared)
    shared.mine.write("zone", ZONE, deleted={"deleted": True})
    settle(shared)
    assert_alike(shared)
    assert shared.theirs.see("zone", ZONE, "deleted") == {"deleted": True}
    assert Conflict.objects.count() == 0


def test_s02_b_f26_a_clock_two_days_ahead_is_held_to_a_minute(shared: House) -> None:
    """Their clock runs two days ahead. Once it is mended, others are not shut out for two days."""
    now_ms = int(timezone.now().timestamp() * 1000)
    shared.theirs.clock_ms = now_ms + int(timedelta(days=2).total_seconds() * 1000)
    shared.theirs.write("zone", ZONE, **name("From the future"))
    shared.theirs.sync()
    kept = shared.theirs.records[f"zone:{ZONE}"]["groups"]["name"]["hlc"]
    assert int(kept[:13]) < now_ms + 120_000
    shared.mine.clock_ms = now_ms + 120_000
    shared.mine.write("zone", ZONE, **name("Two minutes later"))
    settle(shared)
    assert shared.theirs.see("zone", ZONE, "name") == {"name": "Two minutes later"}


def test_s03_f32_an_entry_for_a_deleted_or_unknown_zone_is_taken(shared: House) -> None:
    shared.mine.write("zone", ZONE, deleted={"deleted": True})
    shared.mine.sync()
    gone = shared.theirs.log("mow", zone_ids=[ZONE], cut_height_mm=60)
    unknown = shared.theirs.log("mow", zone_ids=["0190cccc-0000-7000-8000-000000000009"])
    settle(shared)
    assert {f"entry:{gone}", f"entry:{unknown}"} <= set(shared.mine.records)


def test_s06_three_times_stand_beside_an_entry_and_only_the_servers_and_the_stamps_decide(shared: House) -> None:
    """The day a job was done is the person's to say: it is kept as written and orders nothing."""
    before = timezone.now()
    entry = shared.theirs.log("observation", text="Found in an old diary")
    shared.theirs.outbox[0]["m"][0]["body"]["occurred_at"] = "1951-07-01T06:00:00-07:00"
    shared.theirs.sync()
    shared.mine.sync()
    found = shared.mine.records[f"entry:{entry}"]
    assert found["body"]["occurred_at"] == "1951-07-01T06:00:00-07:00"
    assert before <= datetime.fromisoformat(found["received_at"]) <= timezone.now()
    assert found["seq"] == shared.mine.answer["head"]


def test_f34_the_same_job_logged_by_two_is_two_entries(shared: House) -> None:
    shared.mine.log("mow", zone_ids=[ZONE])
    shared.theirs.log("mow", zone_ids=[ZONE])
    settle(shared)
    assert_alike(shared)
    assert len(shared.mine.all_of("entry")) == 2


def test_an_entry_body_never_changes(shared: House) -> None:
    entry = shared.mine.log("observation", text="Dew")
    body = shared.mine.outbox[0]["m"][0]["body"]
    shared.mine.sync()
    same = shared.mine.save({"t": "entry", "id": entry, "body": body})
    other = shared.mine.save({"t": "entry", "id": entry, "body": {**body, "text": "Frost"}})
    shared.mine.sync()
    assert shared.mine.results[same["op"]]["s"] == "applied"
    assert shared.mine.results[other["op"]]["why"]["code"] == "body_differs"
    assert shared.mine.records[f"entry:{entry}"]["body"]["text"] == "Dew"


def test_overlays_strike_out_and_redate_an_entry(shared: House) -> None:
    entry = shared.mine.log("mow", zone_ids=[ZONE])
    shared.mine.write("entry", entry, void={"void": True, "why": "Wrong zone"}, note={"note": "Sorry"})
    shared.mine.sync()
    shared.theirs.sync()
    shared.theirs.write("entry", entry, when={"occurred_at": "2026-04-30T19:00:00+02:00"})
    settle(shared)
    assert_alike(shared)
    assert shared.mine.see("entry", entry, "void") == {"void": True, "why": "Wrong zone"}
    assert shared.mine.see("entry", entry, "when") == {"occurred_at": "2026-04-30T19:00:00+02:00"}
    assert shared.mine.records[f"entry:{entry}"]["body"]["occurred_at"] == "2026-05-01T18:30:00+02:00"


def test_s15_f12_unknown_fields_and_groups_come_back_unchanged(shared: House) -> None:
    """A newer phone writes a field and a group this server does not know."""
    newer = {"sun": "shade", "hedge_m": [1.5, {"from": "north"}]}
    shared.theirs.write("zone", ZONE, site=newer, drainage={"tiles": 4})
    settle(shared)
    assert shared.mine.see("zone", ZONE, "site") == newer
    assert shared.mine.see("zone", ZONE, "drainage") == {"tiles": 4}
    shared.mine.write("zone", ZONE, **name("Renamed by an older phone"))
    settle(shared)
    assert_alike(shared)
    assert shared.theirs.see("zone", ZONE, "site") == newer
    assert shared.theirs.see("zone", ZONE, "drainage") == {"tiles": 4}


def test_s01_writing_one_group_leaves_its_neighbours_alone(shared: House) -> None:
    before = Zone.objects.get(id=ZONE)
    shared.mine.write("zone", ZONE, **name("Renamed"))
    shared.mine.sync()
    after = Zone.objects.get(id=ZONE)
    assert (after.name, after.cut_height_mm, after.deleted) == ("Renamed", before.cut_height_mm, before.deleted)
    assert after.versions["cut"] == before.versions["cut"]


def test_a_group_replaced_whole_forgets_the_fields_left_out(shared: House) -> None:
    shared.mine.write("product", PRODUCT, label={"net_kg": 10})
    shared.mine.sync()
    assert shared.mine.see("product", PRODUCT, "label") == {"net_kg": 10}


def test_p03_a_phone_keeps_seeing_its_own_chain_of_writes(shared: House) -> None:
    for text in ("One", "Two", "Three"):
        shared.mine.write("zone", ZONE, **name(text))
    shared.mine.sync()
    assert [result["s"] for result in shared.mine.answer["results"]] == ["applied"] * 3
    assert shared.mine.see("zone", ZONE, "name") == {"name": "Three"}
    assert Conflict.objects.count() == 0


def test_f33_thirteen_months_offline_with_three_hundred_entries(shared: House) -> None:
    shared.theirs.clock_ms -= 396 * 24 * 3600 * 1000
    for day in range(300):
        shared.theirs.log("mow", zone_ids=[ZONE], cut_height_mm=40 + day % 30)
    shared.mine.write("zone", ZONE, **name("Renamed meanwhile"))
    settle(shared)
    assert_alike(shared)
    assert len(shared.mine.all_of("entry")) == 300
