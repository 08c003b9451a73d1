"""What a past pass teaches: only the flag says that nothing came, no rate is read off an error, no row blocks."""

from typing import Any

import pytest

from tests.properties.asking import value

Json = dict[str, Any]
DIAL = {"lowest": 0, "highest": 24, "step": 1}
ABOUT: Json = {"dial": DIAL, "product": {"id": "p", "bulk_density_kg_m3": 800, "granules": "medium"}}
WALK: Json = {**ABOUT, "target_kg_m2": 0.02, "area_m2": 200}
GOOD: Json = {"product": "p", "area_m2": 200, "used_kg": 2.0, "measured": "scale", "left_kg": 2.0}
THREE = [{**GOOD, "dial": at, "used_kg": used} for at, used in ((8, 2.0), (8, 2.05), (7, 1.6))]
# A check by level said 6 kg, the scale at the end 6.2: by these two the stretch between them put down nothing.
UNMEASURED: Json = {
    "product": "p", "dial": 9, "area_m2": 60, "used_kg": 0, "measured": "scale", "left_kg": 6.2,
    "before_left_kg": 6.0, "before_measured": "level",
}  # fmt: skip


def start(history: list[Json], **more: Any) -> Json:
    return value("spreading.start", **WALK, history=history, **more)


@pytest.mark.parametrize("used_kg", [0, 0.05, 0.3])
def test_a_stretch_within_its_reading_error_teaches_nothing(used_kg: float) -> None:
    plain = start(THREE)
    after = start([*THREE, {**UNMEASURED, "used_kg": used_kg, "left_kg": 6.2 - used_kg}])
    assert after["dial"] == plain["dial"] <= 9
    assert after["rate_kg_m2"] == plain["rate_kg_m2"]
    assert after["left_out"] == [{"index": 3, "why": "unmeasured"}]


def test_a_stretch_within_its_reading_error_far_up_the_dial_stops_no_walk() -> None:
    after = start([*THREE, {**UNMEASURED, "dial": 16}])
    assert (after["advice"], after["dial"]) == ("walk", start(THREE)["dial"])


def test_only_the_flag_says_that_nothing_came() -> None:
    flagged = start([*THREE, {**UNMEASURED, "nothing_came": True}])
    assert flagged["dial"] == 10
    assert flagged["left_out"] == []


def test_a_stretch_beyond_its_reading_error_is_learnt_from_as_surely_as_both_readings_allow() -> None:
    sure = {"product": "p", "dial": 9, "area_m2": 200, "used_kg": 3.5, "measured": "scale", "left_kg": 2.5}
    unsure = {**sure, "before_left_kg": 6.0, "before_measured": "handfuls"}
    apart = [
        value("spreading.curve", **ABOUT, history=[*THREE, row])["points"][8]["rate_kg_m2"]["mid"]
        for row in (sure, unsure)
    ]
    plain = value("spreading.curve", **ABOUT, history=THREE)["points"][8]["rate_kg_m2"]["mid"]
    assert plain < apart[1] < apart[0]


def test_the_working_names_what_was_left_out_and_why() -> None:
    from lawn.engine.door import call

    working = call("spreading.start", {**WALK, "history": [*THREE, UNMEASURED]})["working"]
    rows = [step for step in working if step["what"] == "Pass left out of learning"]
    assert [(row["numbers"]["place_in_history"], row["result"]) for row in rows] == [(3, "unmeasured")]


BAD_ROWS: list[Any] = [
    {**GOOD, "dial": 8, "area_m2": 0.4},
    {**GOOD, "dial": 8, "used_kg": -1},
    {**GOOD, "dial": "eight"},
    {**GOOD, "dial": 8, "measured": "guess"},
    {**GOOD, "dial": 8, "granules": "dust"},
    {**GOOD, "dial": 8, "left_kg": "much"},
    {**GOOD, "dial": 8, "swath_m": 0},
    {**GOOD, "dial": 8, "bad": "yes"},
    {**GOOD, "dial": 8, "moon": "full"},
    {**GOOD, "dial": 8, "product": ""},
    {},
    None,
    "a pass",
]
CALLS: dict[str, Json] = {
    "spreading.start": WALK,
    "spreading.next": {**WALK, "left_kg": 2.0, "passes_to_go": 1},
    "spreading.check": {**WALK, "now_kg": 3.0, "area_done_m2": 100, "area_to_go_m2": 100, "dial_now": 8},
    "spreading.curve": ABOUT,
    "spreading.taught": {**ABOUT, "walked": 1},
}


@pytest.mark.parametrize("row", BAD_ROWS, ids=str)
@pytest.mark.parametrize("call", CALLS)
def test_one_bad_row_never_blocks_a_spreader(call: str, row: Any) -> None:
    got = value(call, **CALLS[call], history=[THREE[0], row, *THREE[1:]])
    plain = value(call, **CALLS[call], history=THREE)
    told = ("dial", "points", "after")
    assert [got.get(name) for name in told] == [plain.get(name) for name in told]


def test_a_bad_row_is_named_with_the_field_at_fault() -> None:
    got = start([THREE[0], {**GOOD, "dial": 8, "area_m2": 0.4}])
    [left] = got["left_out"]
    assert (left["index"], left["why"]) == (1, "unreadable")
    assert left["error"] == {
        "code": "out_of_range",
        "name": "history[1].area_m2",
        "value": 0.4,
        "low": 0.5,
        "high": 100000.0,
        "message": "The area is below the lowest value allowed.",
    }
    past = value("spreading.curve", **ABOUT, history=[THREE[0], None])["past"]
    assert past[1] | {"left_out": ""} == {
        "index": 1, "dial": None, "rate_kg_m2": None, "measured_kg_m2": None, "same_product": False, "bad_chance": None,
        "left_out": "",
    }  # fmt: skip
