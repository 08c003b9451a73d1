"""From the book to a plan's arguments: nothing is lost on the way, nothing is counted twice, and nobody is overfed."""

from datetime import date, timedelta
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from lawn.engine.door import call

TODAY = date(2026, 6, 1)
ZONES = [f"z{at}" for at in range(6)]


def gather(**changed: Any) -> Any:
    asked = {"zones": [], "products": [], "entries": [], "today": TODAY.isoformat()} | changed
    return call("season.gather", asked)["value"]


def zone(zone_id: str, **more: Any) -> dict[str, Any]:
    return {"id": zone_id, "area_m2": 100.0, "turf": "cool"} | more


def feed(entry_id: str, ago: int, **n_by_zone: float | None) -> dict[str, Any]:
    day = TODAY - timedelta(ago)
    zones = [{"zone_id": zone_id, "n_kg_m2": n} for zone_id, n in n_by_zone.items()]
    return {"id": entry_id, "kind": "spread", "occurred_at": f"{day}T18:00:00+00:00", "sort": "fertilizer",
            "product_id": "p", "zones": zones}  # fmt: skip


zones_drawn = st.lists(
    st.tuples(
        st.floats(1, 5000),
        st.sampled_from(["cool", "warm"]),
        st.sampled_from([None, "sun", "shade"]),
        st.booleans(),
        st.booleans(),
    ),
    min_size=1,
    max_size=6,
)


@given(zones_drawn)
@settings(max_examples=80, deadline=None)
def test_every_zone_stands_in_one_group_and_the_areas_add_up(drawn: list[Any]) -> None:
    zones = []
    for at, (area, turf, sun, water, apart) in enumerate(drawn):
        named = {"sun": sun} if sun else {}
        zones.append(zone(ZONES[at], area_m2=area, turf=turf, near_water=water, apart=apart, **named))
    groups = gather(zones=zones)["groups"]
    told = [zone_id for group in groups for zone_id in group["zones"]]
    assert sorted(told) == sorted(one["id"] for one in zones)
    assert sum(group["area_m2"] for group in groups) == pytest.approx(sum(one["area_m2"] for one in zones))
    by_id = {one["id"]: one for one in zones}
    for group in groups:
        members = [by_id[zone_id] for zone_id in group["zones"]]
        assert len({(one["turf"], one.get("sun"), one["near_water"]) for one in members}) == 1
        assert len(members) == 1 or not any(one["apart"] for one in members)


def test_the_order_of_zones_and_entries_makes_no_difference() -> None:
    zones = [zone("b"), zone("a"), zone("c", turf="warm")]
    entries = [feed("2", 50, a=0.002, b=0.002), feed("1", 90, c=0.001)]
    assert gather(zones=zones, entries=entries) == gather(zones=zones[::-1], entries=entries[::-1])


def test_zones_fed_in_different_weeks_lately_are_not_due_alike_and_are_again_later() -> None:
    zones = [zone("a"), zone("b")]
    assert len(gather(zones=zones, entries=[feed("1", 10, a=0.002), feed("2", 20, b=0.002)])["groups"]) == 2
    same_week = [feed("1", 12, a=0.002), feed("2", 10, b=0.002)]
    assert (TODAY - timedelta(12)).isocalendar().week == (TODAY - timedelta(10)).isocalendar().week
    assert len(gather(zones=zones, entries=same_week)["groups"]) == 1
    assert len(gather(zones=zones, entries=[feed("1", 43, a=0.002), feed("2", 60, b=0.002)])["groups"]) == 1


def test_what_was_done_is_the_most_that_a_zone_of_the_group_had() -> None:
    found = gather(zones=[zone("a"), zone("b", area_m2=900.0)], entries=[feed("1", 100, a=0.004, b=0.001)])
    assert [(one["group"], one["n_kg_m2"]) for one in found["done"]] == [("a", 0.004)]


def test_a_year_is_365_days_and_what_is_struck_out_or_ahead_counts_nowhere() -> None:
    entries = [feed("old", 365, a=0.001), feed("in", 364, a=0.002), feed("ahead", -3, a=0.003)]
    entries.append(feed("struck", 5, a=0.004) | {"void": True})
    assert [one["n_kg_m2"] for one in gather(zones=[zone("a")], entries=entries)["done"]] == [0.002]


def test_nitrogen_nobody_entered_is_named_not_guessed() -> None:
    found = gather(zones=[zone("a")], entries=[feed("1", 30, a=None)])
    assert found["unknown"] == ["1"]
    assert found["done"][0]["n_kg_m2"] == 0


def test_what_a_plan_cannot_take_is_named_with_the_field_it_lacks() -> None:
    whole = {"sort": "fertilizer", "net_kg": 20.0, "coverage_m2": 400.0, "n_percent": 24.0, "price": 30.0}
    products = [{"id": lack} | {name: value for name, value in whole.items() if name != lack} for lack in whole]
    products.append({"id": "seed", "sort": "seed", "net_kg": 5.0, "coverage_m2": 100.0})
    found = gather(zones=[zone("a", turf=None), zone("b", area_m2=None)], products=products)
    assert [(one["id"], one["lacks"]) for one in found["lacking_zones"]] == [("a", "turf"), ("b", "area_m2")]
    assert {one["id"]: one["lacks"] for one in found["lacking_products"]} == {
        name: name for name in ("sort", "net_kg", "coverage_m2", "n_percent")
    }
    assert found["unpriced"] == ["price", "seed"]


def test_a_bag_without_a_price_never_looks_cheaper_than_one_with() -> None:
    bag = {"sort": "fertilizer", "net_kg": 20.0, "coverage_m2": 400.0, "n_percent": 24.0}
    cheap, dear = bag | {"id": "cheap", "price": 20.0}, bag | {"id": "dear", "price": 40.0}
    weak = bag | {"id": "weak", "n_percent": 12.0}
    prices = {one["id"]: one["price"] for one in gather(products=[cheap, dear, bag | {"id": "none"}, weak])["products"]}
    assert prices == {"cheap": 20.0, "dear": 40.0, "none": pytest.approx(40.0), "weak": pytest.approx(20.0)}
    alone = gather(products=[bag | {"id": "none"}])["products"]
    assert alone[0]["price"] > 0


def test_steps_that_stand_follow_their_zones_into_the_groups_of_today() -> None:
    steps = [
        {"date": "2026-06-10", "zones": ["b"], "product": "p", "locked": True},
        {"date": "2026-07-10", "zones": ["c", "a"], "job": "lime"},
        {"date": "2026-05-01", "zones": ["a"], "product": "p"},
        {"date": "2026-08-01", "zones": ["gone"], "product": "p"},
    ]
    found = gather(zones=[zone("a"), zone("b"), zone("c", turf="warm")], steps=steps)
    assert found["locked"] == [{"date": "2026-06-10", "group": "a", "product": "p"}]
    assert [(one["date"], one["group"]) for one in found["present"]] == [
        ("2026-06-10", "a"), ("2026-07-10", "a"), ("2026-07-10", "c"),
    ]  # fmt: skip


def test_below_nothing_in_the_shed_is_nothing() -> None:
    bag = {"id": "p", "sort": "lime", "net_kg": 20.0, "coverage_m2": 400.0, "price": 5.0, "left_kg": -3.0}
    assert gather(products=[bag])["products"][0]["stock_kg"] == 0


@pytest.mark.parametrize("twice", ["zones", "products"])
def test_one_that_stands_twice_is_refused_by_its_place(twice: str) -> None:
    rows = [zone("a"), zone("a")] if twice == "zones" else [{"id": "a"}, {"id": "a"}]
    answer = call("season.gather", {"zones": [], "products": [], "entries": [], "today": "2026-06-01", twice: rows})
    assert answer["error"]["name"] == f"{twice}[1].id"
