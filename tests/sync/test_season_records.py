"""S1 and S2 for a season: two phones move, fill and finish one step, and nothing of what either said is lost."""

from typing import Any

import pytest

from lawn.contract import kinds
from lawn.engine.door import call
from lawn.models import Plan, Step
from tests.sync.conftest import House

PLAN = "0190aaaa-0000-7000-8000-0000000000a1"
STEP = "0190aaaa-0000-7000-8000-0000000000a2"
PRODUCT = "0190aaaa-0000-7000-8000-0000000000a3"
DONE_HERE, DONE_THERE = "0190aaaa-0000-7000-8000-0000000000b1", "0190aaaa-0000-7000-8000-0000000000b2"
JOB: dict[str, Any] = {"plan_id": PLAN, "job": "feed"}
MAY: dict[str, Any] = {"from_on": "2026-05-04", "to_on": "2026-05-10"}
JUNE: dict[str, Any] = {"from_on": "2026-06-01", "to_on": "2026-06-07"}
RATE: dict[str, Any] = {"product_id": PRODUCT, "rate_kg_m2": 0.02, "rate_typed": {"amount": "20", "unit": "g_m2"}}


def begun(house: House) -> None:
    """A step in May that both phones know."""
    house.mine.write("step", STEP, job=JOB, window=MAY, state={"state": "planned"})
    rounds(house)


def rounds(house: House) -> None:
    for phone in (house.mine, house.theirs, house.mine, house.theirs):
        phone.sync()


def lost(house: House) -> list[dict[str, Any]]:
    return [one["body"]["lost"]["value"] for one in house.mine.all_of("conflict")]


def test_a_plan_and_its_step_reach_the_other_phone_and_have_rows_of_their_own(house: House) -> None:
    wishes: dict[str, Any] = {"year": {"starts_on": "2026-01-01", "southern": False}, "budget": {"budget": 120}}
    house.mine.write("plan", PLAN, **wishes, skip={"skip_months": [7, 8]})
    begun(house)
    assert house.theirs.see("plan", PLAN, "skip") == {"skip_months": [7, 8]}
    assert house.theirs.see("step", STEP, "window") == MAY
    assert (Plan.objects.get().budget, Step.objects.get().from_on) == (120, "2026-05-04")


def test_s01_a_step_moved_here_and_given_another_rate_there_is_both(house: House) -> None:
    begun(house)
    house.mine.write("step", STEP, window=JUNE)
    house.theirs.write("step", STEP, product=RATE)
    rounds(house)
    for phone in (house.mine, house.theirs):
        assert (phone.see("step", STEP, "window"), phone.see("step", STEP, "product")) == (JUNE, RATE)
    assert lost(house) == []


def test_s02_of_two_moves_of_a_step_one_window_stands_whole_and_the_other_is_kept(house: House) -> None:
    begun(house)
    house.theirs.write("step", STEP, window={"from_on": "2026-05-18", "to_on": "2026-05-24"})
    house.mine.clock_ms += 5000
    house.mine.write("step", STEP, window=JUNE)
    rounds(house)
    assert house.mine.records == house.theirs.records
    assert house.mine.see("step", STEP, "window") == JUNE
    assert lost(house) == [{"from_on": "2026-05-18", "to_on": "2026-05-24"}]


def test_s02_a_step_done_by_two_phones_keeps_both_entries(house: House) -> None:
    begun(house)
    house.theirs.write("step", STEP, state={"state": "done", "entry_id": DONE_THERE})
    house.mine.clock_ms += 5000
    house.mine.write("step", STEP, state={"state": "done", "entry_id": DONE_HERE})
    rounds(house)
    assert house.theirs.see("step", STEP, "state") == {"state": "done", "entry_id": DONE_HERE}
    assert lost(house) == [{"state": "done", "entry_id": DONE_THERE}]


def test_s02_wishes_of_two_phones_are_kept_apart(house: House) -> None:
    house.mine.write("plan", PLAN, year={"starts_on": "2026-01-01", "southern": False})
    rounds(house)
    house.mine.write("plan", PLAN, budget={"budget": 90})
    house.theirs.write("plan", PLAN, time={"evenings_week": 1, "minutes_evening": 45}, gentle={"only_gentle": True})
    rounds(house)
    assert house.mine.see("plan", PLAN, "time") == {"evenings_week": 1, "minutes_evening": 45}
    assert house.theirs.see("plan", PLAN, "budget") == {"budget": 90}
    assert lost(house) == []


def test_s04_one_step_done_by_two_phones_is_found_in_the_merged_book(house: House) -> None:
    begun(house)
    for phone in (house.mine, house.theirs):
        phone.log("observation", text="Aerated the bank", step_id=STEP)
    rounds(house)
    found = []
    for phone in (house.mine, house.theirs):
        entries = [{"id": one["id"], **one["body"]} for one in phone.all_of("entry")]
        said = call("record.clashes", {"entries": entries, "today": entries[0]["occurred_at"][:10]})
        found.append([(one["kind"], sorted(one["entry_ids"])) for one in said["value"]["clashes"]])
    assert found[0] == found[1] == [("step_twice", sorted(one["id"] for one in house.mine.all_of("entry")))]


@pytest.mark.parametrize(
    ("kind", "group", "value", "wrong"),
    [
        ("step", "window", MAY, []),
        ("step", "window", {"from_on": "2026-05-04"}, ["to_on"]),
        ("step", "window", {"from_on": "2026-05-10", "to_on": "2026-05-04"}, ["to_on"]),
        ("step", "state", {"state": "done", "entry_id": DONE_HERE}, []),
        ("step", "state", {"state": "done"}, []),
        ("step", "state", {"state": "planned", "entry_id": DONE_HERE}, ["entry_id"]),
        ("step", "product", {"rate_kg_m2": 0.02}, ["product_id"]),
        ("step", "job", {"plan_id": PLAN, "job": "spray"}, ["job"]),
        ("plan", "skip", {"skip_months": [7, 7]}, ["skip_months"]),
        ("plan", "skip", {"skip_months": [0]}, ["skip_months"]),
        ("plan", "skip", {"skip_months": []}, []),
        ("plan", "aim", {"level": "most"}, ["level"]),
        ("plan", "time", {"evenings_week": 8}, ["evenings_week"]),
    ],
)
def test_what_no_plan_could_mean_is_refused(kind: str, group: str, value: dict[str, Any], wrong: list[str]) -> None:
    assert sorted(kinds.check_group(kind, group, value)) == wrong
