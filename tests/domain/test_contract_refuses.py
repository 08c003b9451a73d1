"""The contract refuses what the engine would refuse, and what would be read for something checked (A5, A6, A8)."""

import uuid
from datetime import date
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lawn.book.merging import fold
from lawn.contract import kinds
from lawn.contract.table import contract
from lawn.engine import door
from lawn.engine.core.glossary import GLOSSARY
from tests.domain.test_kinds import AT, GROUND, ID, OUTLINE, PART, PASS, TRAYS

WALK: dict[str, Any] = {
    "kind": "spread", "occurred_at": AT, "product_id": ID, "aim": {"way": "label"}, "area_m2": 100,
    "target_kg_m2": 0.02, "used_kg": 2, "zones": [{"zone_id": ID, "area_m2": 100, "used_kg": 2, "n_kg_m2": 0.005}],
}  # fmt: skip
MOW = {"kind": "mow", "occurred_at": AT, "zone_ids": [ID]}
RING = [[at * 0.1, at * at * 0.01] for at in range(200)]


@pytest.mark.parametrize(
    ("body", "wrong"),
    [
        ({**MOW, "zones": 5}, ["zones"]),
        ({**MOW, "zones": WALK["zones"]}, ["zones"]),
        ({**MOW, "used_kg": 1, "product_id": ID}, ["product_id", "used_kg"]),
        ({**MOW, "left_kg": None}, []),
        ({**PASS, "zones": []}, ["zones"]),
        ({**TRAYS, "spread_id": ID}, ["spread_id"]),
        ({**MOW, "newer": {"zones": 5}}, []),
        ({**MOW, "note": "as the phone of a later build may say"}, []),
        (WALK, []),
        ({**WALK, "n_percent": 60, "p2o5_percent": 60}, ["n_percent"]),
        ({**WALK, "n_percent": 60, "p2o5_percent": 40}, []),
        ({**WALK, "zones": WALK["zones"] * 1001}, ["zones"]),
        ({**MOW, "zone_ids": [ID] * 1000}, []),
        ({**MOW, "zone_ids": [ID] * 1001}, ["zone_ids"]),
        ({**PASS, "parts": [{**PART, "area_m2": 0.4}]}, ["parts"]),
        ({**PASS, "dial_scale": {"a": "x" * 5_000}}, ["dial_scale"]),
        ({**PASS, "left_typed": "x" * 5_000}, ["left_typed"]),
    ],
)
def test_a06_an_entry_carries_the_fields_of_its_kind_and_no_others(body: dict[str, Any], wrong: list[str]) -> None:
    found = kinds.check_body(body)
    assert sorted(found) == wrong
    assert all(len(says) < 300 for says in found.values())


@pytest.mark.parametrize(
    ("kind", "group", "value", "wrong"),
    [
        (
            "product",
            "granules",
            {"granules": "fine", "n_percent": 0, "keep_off_hours": 0},
            ["keep_off_hours", "n_percent"],
        ),
        ("product", "label", {"net_kg": 20, "price": 3}, ["price"]),
        ("product", "granules", {"granules": "fine", "newer": 1}, []),
        ("product", "newer", {"n_percent": 0}, []),
        ("spreader", "walking", {"swath_m": 3, "speed_m_s": 1, "lowest": 1}, ["lowest"]),
        ("zone", "ground", {**GROUND, "name": "Verge"}, ["name"]),
        ("mower", "blade", {"sharpened_on": "2026-04-01", "highest_mm": 90}, ["highest_mm"]),
        ("entry", "when", {"occurred_at": AT, "why": "Noted too late"}, []),
    ],
)
def test_a05_a_group_carries_no_field_that_another_one_checks(
    kind: str, group: str, value: dict[str, Any], wrong: list[str]
) -> None:
    assert sorted(kinds.check_group(kind, group, value)) == wrong


@pytest.mark.parametrize(
    ("outline", "fits"),
    [
        ({"points_m": RING, "holes_m": [RING]}, True),
        ({"points_m": RING, "holes_m": [RING, RING[:3]]}, False),
        ({"points_m": RING * 2}, True),
        ({"points_m": RING[:3], "holes_m": [RING * 2] * 40}, False),
        ({**OUTLINE, "newer": "x" * 50_000}, False),
        (OUTLINE, True),
    ],
)
def test_a08_an_outline_has_400_corners_in_all(outline: dict[str, Any], fits: bool) -> None:
    assert (kinds.check_group("zone", "ground", {**GROUND, "outline": outline}) == {}) == fits


@pytest.mark.parametrize(
    ("edges", "says"),
    [
        ([0, 2], None),
        ([], None),
        (None, None),
        ([3], "Allowed is 0 to 2."),
        ([0, 0], "each once"),
        ([-1], "Allowed is 0 to 399."),
        ([0.5], "places in the outline"),
        ([True], "places in the outline"),
        ([["0"]], "places in the outline"),
        ("0", "places in the outline"),
        ({"0": 1}, "places in the outline"),
    ],
)
def test_a15_edges_at_the_water_are_edges_of_the_outline_beside_them(edges: object, says: str | None) -> None:
    ground = {**GROUND, "outline": {"points_m": RING[:3]}, "water_edges": edges}
    wrong = kinds.check_group("zone", "ground", ground)
    assert list(wrong) == ([] if says is None else ["water_edges"])
    assert says is None or says in wrong["water_edges"]


def test_a15_edges_at_the_water_need_an_outline_and_old_grounds_need_no_edges() -> None:
    assert list(kinds.check_group("zone", "ground", {**GROUND, "water_edges": [0]})) == ["water_edges"]
    assert kinds.check_group("zone", "ground", {**GROUND, "outline": OUTLINE}) == {}


def test_a08_the_fixes_of_a_long_walk_fit_and_not_much_more() -> None:
    fix = {"lat": 51.123456789, "lon": -1.123456789, "accuracy_m": 4.5, "at": "2026-05-01T18:30:00.123Z"}
    measured = {"call": "area.gps", "args": {"fixes": [fix] * 1500}}
    assert kinds.check_group("zone", "ground", {**GROUND, "measured": measured}) == {}
    assert list(kinds.check_group("zone", "ground", {**GROUND, "measured": ["x" * 250_000]})) == ["measured"]


numbers = st.floats(-1000, 1000) | st.integers(-1000, 1000)


@given(lowest=numbers, highest=numbers, step=st.floats(0.01, 100) | st.integers(1, 100))
def test_a_dial_the_contract_takes_the_engine_reads(lowest: float, highest: float, step: float) -> None:
    dial = {"lowest": lowest, "highest": highest, "step": step}
    product = {"id": ID}
    args = {"dial": dial, "product": product, "history": []}
    answer = door.call("spreading.curve", args)
    refused = "error" in answer and answer["error"]["name"].startswith("dial")
    assert bool(kinds.check_group("spreader", "dial", dial)) == refused


def test_every_range_of_the_contract_is_inside_the_engines_for_its_name() -> None:
    """The engine's own name of a field means the same there; a job that put nothing down had no target to speak of.

    A home may stand anywhere; past 70 degrees there is no lawn whose water the engine would work out.
    """
    spared = {("spread", "target_kg_m2"), ("spread", "passes"), ("household", "latitude_deg")}
    table = contract()["kinds"]
    groups = [(kind, rules) for kind in table for rules in table[kind]["groups"].values()]
    wider = [
        (kind, name, rule["low"], rule["high"])
        for kind, rules in [*groups, *table["entry"]["bodies"].items()]
        for name, rule in rules.items()
        if rule["type"] in ("number", "integer") and name in GLOSSARY and (kind, name) not in spared
        if rule["low"] < GLOSSARY[name][2] or rule["high"] > GLOSSARY[name][3]
    ]
    assert wider == []


@given(
    body=st.sampled_from([MOW, WALK, PASS, TRAYS]),
    more=st.dictionaries(
        st.sampled_from(["zones", "used_kg", "left_kg", "product_id", "sort", "spread_id", "zone_ids", "by", "newer"]),
        st.none() | st.integers() | st.text(max_size=3) | st.just([]) | st.just([{}]) | st.booleans(),
        max_size=3,
    ),
)
def test_a06_whatever_body_the_contract_takes_adds_up(body: dict[str, Any], more: dict[str, Any]) -> None:
    whole = {**body, **more}
    if kinds.check_body(whole) == {}:
        rows = [fold.as_engine_entry(str(uuid.uuid4()), whole, {})]
        assert fold.totals(rows, date(2026, 5, 2))["zones"] is not None
        raw = {"id": ID, "void": False, **{name: value for name, value in whole.items() if value is not None}}
        assert "error" not in door.call("record.totals", {"entries": [raw], "today": "2026-05-02"})


levers = st.lists(
    st.fixed_dictionaries({"label": st.text(max_size=22), "measured_mm": st.floats(0, 250) | st.integers(0, 250)}),
    min_size=1,
    max_size=45,
)


@given(notches=levers | st.lists(st.fixed_dictionaries({"label": st.just("3"), "measured_mm": st.integers(30, 34)})))
def test_notches_the_contract_takes_the_engine_reads(notches: list[dict[str, Any]]) -> None:
    if kinds.check_group("mower", "deck", {"notches": notches}) or not notches:
        return
    rows = [{"name": notch["label"], "notch_mm": notch["measured_mm"]} for notch in notches]
    assert "error" not in door.call("mowing.notch", {"height_mm": 60, "notches": rows})


@pytest.mark.parametrize(
    ("notches", "taken"),
    [
        ([], True),
        ([{"label": "4", "measured_mm": 76.2, "measured_typed": {"amount": "3", "unit": "height_in"}}], True),
        ([{"label": "3", "measured_mm": 60}, {"label": "4", "measured_mm": 60.0}], False),
        ([{"label": "", "measured_mm": 60}], False),
        ([{"label": "4", "measured_mm": 4.9}], False),
        ([{"label": "4"}], False),
        ({"4": 76.2}, False),
    ],
)
def test_notches_are_named_heights_and_no_two_of_one_height(notches: Any, taken: bool) -> None:
    assert (kinds.check_group("mower", "deck", {"notches": notches}) == {}) is taken


@pytest.mark.parametrize(
    ("more", "wrong"),
    [
        ({"measures": "grass", "height_mm": 101.6, "height_typed": {"amount": "4", "unit": "height_in"}}, []),
        ({"measures": "grass", "height_mm": 4}, ["height_mm"]),
        ({"measures": "grass", "height_before_mm": 90}, ["height_before_mm"]),
    ],
)
def test_a_reading_may_be_of_the_grass(more: dict[str, Any], wrong: list[str]) -> None:
    body = {"kind": "reading", "occurred_at": AT, "zone_ids": [ID], **more}
    assert sorted(kinds.check_body(body)) == wrong


LAB: dict[str, Any] = {
    "ph": 6.3, "buffer_ph": 6.8, "p_mg_kg": 30, "p_typed": {"amount": "60", "unit": "soil_lb_acre"},
    "p_method": "bray_1", "k_mg_kg": 120, "organic_share": 0.04, "lab": "County lab",
}  # fmt: skip
BAGS: dict[str, Any] = {"product_id": ID, "bags": 2, "net_kg": 20, "price": 30, "price_for": "each", "where": "Mill"}


@pytest.mark.parametrize(
    ("kind", "more", "wrong"),
    [
        ("soil_test", LAB, []),
        ("soil_test", {"buffer_ph": 6.8}, []),
        ("soil_test", {"lab": "County lab", "p_method": "bray_1"}, ["ph"]),  # says nothing of the soil
        ("soil_test", {**LAB, "ph": 0, "organic_share": 4}, ["organic_share", "ph"]),
        ("bought", BAGS, []),
        ("bought", {"product_id": ID, "bought_kg": 4}, []),
        ("bought", {"product_id": ID, "price": 30}, ["bags"]),  # says not what came into the shed
        ("bought", {**BAGS, "product_id": None, "price_for": "half"}, ["price_for", "product_id"]),
        ("bought", {**BAGS, "left_kg": 3}, ["left_kg"]),
    ],
)
def test_a_soil_test_and_a_purchase_say_something(kind: str, more: dict[str, Any], wrong: list[str]) -> None:
    assert sorted(kinds.check_body({"kind": kind, "occurred_at": AT, "zone_ids": [ID], **more})) == wrong


MOWED: dict[str, Any] = {
    "height_before_mm": 114.3, "height_before_by": "over_notch", "height_before_error_mm": 8, "height_after_mm": 80,
    "mower_id": ID, "notch": "4", "cut_height_mm": 76.2, "exception": "renovation", "minutes": 35,
    "direction": "diagonal", "double_cut": True,
}  # fmt: skip


@pytest.mark.parametrize(
    ("more", "wrong"),
    [
        ({}, []),  # as every mow before mowers were on record
        ({"height_before_mm": 90, "cut_height_mm": 60, "clippings": "left"}, []),
        (MOWED, []),
        ({**MOWED, "notch": "x" * 21, "minutes": 0}, ["minutes", "notch"]),
        ({**MOWED, "height_before_by": "eye", "direction": "round"}, ["direction", "height_before_by"]),
        ({**MOWED, "exception": "hurry", "double_cut": 1}, ["double_cut", "exception"]),
    ],
)
def test_a_mow_says_how_it_was_cut(more: dict[str, Any], wrong: list[str]) -> None:
    assert sorted(kinds.check_body({**MOW, **more})) == wrong
