"""Folding the log: independent of the order of arrival, and never spoilt by an entry the book has taken."""

from datetime import date, datetime, timedelta
from typing import Any

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from lawn.book.merging import fold
from lawn.contract import kinds

TODAY = date(2026, 6, 15)
ZONES = [f"0190aaaa-0000-7000-8000-00000000000{number}" for number in range(3)]
PRODUCTS = [f"0190bbbb-0000-7000-8000-00000000000{number}" for number in range(2)]

moments = st.builds(
    "2026-{:02d}-{:02d}T{:02d}:30:00{}".format,
    st.integers(1, 12),
    st.integers(1, 28),
    st.integers(0, 23),
    st.sampled_from(["Z", "+02:00", "-07:00"]),
)
weights = st.floats(0, 50, allow_nan=False)
walk_zones = st.lists(
    st.fixed_dictionaries(
        {"zone_id": st.sampled_from(ZONES), "n_kg_m2": st.one_of(st.none(), st.floats(0, 0.02, allow_nan=False))}
    ),
    max_size=3,
)
bodies = st.one_of(
    st.fixed_dictionaries(
        {
            "kind": st.just("spread"),
            "occurred_at": moments,
            "zone_ids": st.lists(st.sampled_from(ZONES), max_size=2),
            "product_id": st.sampled_from(PRODUCTS),
            "used_kg": weights,
            "zones": walk_zones,
            "aim": st.just({}),
            "area_m2": st.just(100),
            "target_kg_m2": st.just(0.02),
        }
    ),
    st.fixed_dictionaries(
        {"kind": st.just("mow"), "occurred_at": moments, "zone_ids": st.lists(st.sampled_from(ZONES), max_size=3)}
    ),
    st.fixed_dictionaries(
        {
            "kind": st.just("stock_count"),
            "occurred_at": moments,
            "product_id": st.sampled_from(PRODUCTS),
            "left_kg": weights,
        }
    ),
    st.fixed_dictionaries(
        {"kind": st.just("bought"), "occurred_at": moments, "product_id": st.sampled_from(PRODUCTS)},
        optional={"bought_kg": weights, "bags": st.integers(1, 4), "net_kg": st.floats(1, 25)},
    ),
)
overlays = st.fixed_dictionaries(
    {},
    optional={
        "void": st.fixed_dictionaries({"void": st.booleans()}),
        "when": st.fixed_dictionaries({"occurred_at": moments}),
    },
)


@st.composite
def logs(draw: st.DrawFn) -> list[dict[str, Any]]:
    """Entries in the engine's form, each with an id of its own."""
    found = draw(st.lists(st.tuples(bodies, overlays), max_size=12))
    return [fold.as_engine_entry(f"e{number:02d}", body, over) for number, (body, over) in enumerate(found)]


@given(st.data(), logs())
def test_totals_do_not_depend_on_the_order_of_arrival(data: st.DataObject, log: list[dict[str, Any]]) -> None:
    assert fold.totals(data.draw(st.permutations(log)), TODAY) == fold.totals(log, TODAY)


@given(logs())
def test_a_struck_out_entry_counts_for_nothing(log: list[dict[str, Any]]) -> None:
    standing = [entry for entry in log if not entry["void"]]
    every, only = fold.totals(log, TODAY), fold.totals(standing, TODAY)
    assert (every["zones"], every["products"]) == (only["zones"], only["products"])


@given(logs())
def test_nitrogen_of_the_year_is_the_sum_of_what_walks_put_down(log: list[dict[str, Any]]) -> None:
    """Worked out here by plain addition over the year's spreading jobs, but for what is dated more than a day ahead."""
    last = (TODAY + timedelta(days=1)).isoformat()
    found = fold.totals(log, TODAY)["zones"]
    for zone in ZONES:
        shares = [
            share["n_kg_m2"] or 0.0
            for entry in log
            if entry["kind"] == "spread" and not entry["void"] and entry["occurred_at"][:10] <= last
            for share in entry["zones"]
            if share["zone_id"] == zone
        ]
        got = found[zone]["n_year_kg_m2"] if zone in found else 0.0
        assert abs(got - sum(shares)) <= 1e-12


@given(logs())
def test_what_is_in_the_shed_follows_from_the_last_count_or_the_first_purchase(log: list[dict[str, Any]]) -> None:
    """Once more by walking along the log, in the order things were done."""
    last = (TODAY + timedelta(days=1)).isoformat()
    done = [one for one in log if not one["void"] and one["occurred_at"][:10] <= last]
    done.sort(key=lambda one: (datetime.fromisoformat(one["occurred_at"]), one["id"]))
    left: dict[str, float] = {}
    for one in done:
        product = one.get("product_id", "")
        came = one.get("bought_kg", one["bags"] * one["net_kg"] if {"bags", "net_kg"} <= set(one) else None)
        if one["kind"] == "stock_count":
            left[product] = one["left_kg"]
        elif one["kind"] == "bought" and came is not None:
            left[product] = left.get(product, 0.0) + came
        elif one["kind"] == "spread" and product in left:
            left[product] -= one["used_kg"]
    found = fold.totals(log, TODAY)["products"]
    assert {name: row["left_kg"] for name, row in found.items() if row["left_kg"] is not None} == pytest.approx(left)


anything = st.recursive(
    st.one_of(st.none(), st.booleans(), st.integers(-5, 5), st.floats(), st.text(max_size=4), st.sampled_from(ZONES)),
    lambda inner: st.one_of(
        st.lists(inner, max_size=3),
        st.dictionaries(st.sampled_from(["zone_id", "n_kg_m2", "used_kg", "area_m2"]), inner, max_size=4),
    ),
    max_leaves=8,
)
_FIELDS = ["zone_ids", "zones", "product_id", "used_kg", "left_kg", "spread_id", "occurred_at", "kind"]


@given(bodies, st.dictionaries(st.sampled_from(_FIELDS), anything, max_size=3))
@example({"kind": "mow", "occurred_at": "2026-W18-5T10:00:00Z"}, {})
@example({"kind": "mow", "occurred_at": "20260501T183000+0200"}, {})
@example({"kind": "mow", "occurred_at": "2026-05-01T18:30+00:00:30"}, {})
def test_p08_an_entry_the_book_takes_never_spoils_the_totals(body: dict[str, Any], odd: dict[str, Any]) -> None:
    """Whatever passes the check of a body, the engine can sum: else one odd entry would blank every phone's totals."""
    odd_body = {**body, **odd}
    if not kinds.check_body(odd_body):
        assert fold.totals([fold.as_engine_entry("e1", odd_body, {})], TODAY)["working"]


def test_p08_an_odd_walk_is_refused_by_name() -> None:
    body = {
        "kind": "spread",
        "occurred_at": "2026-05-01T18:30:00+02:00",
        "product_id": PRODUCTS[0],
        "aim": {"kind": "label"},
        "area_m2": 100,
        "target_kg_m2": 0.02,
        "used_kg": 2,
        "zones": [{"zone_id": ZONES[0], "n_kg_m2": "much"}],
    }
    assert list(kinds.check_body(body)) == ["zones"]
    assert kinds.check_body({**body, "zones": [{"zone_id": ZONES[0], "n_kg_m2": 0.004, "used_kg": 2}]}) == {}
