"""What two places of the season could tell apart is told once: how long a feed lasts, which half it is, what fits."""

from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from lawn.engine.door import call
from lawn.engine.season.weeks import needs_of
from lawn.planning.solver import solve
from tests.properties.season.skeletons import skeleton
from tests.properties.season.yards import LB, TODAY

MONDAY, WEEKS = 739_000, 20


@pytest.mark.parametrize("slow", [0.0, 0.1, 0.15, 0.19, 0.2, 0.4, 0.5, 0.9, 1.0])
def test_a_feed_in_the_ground_lasts_as_long_as_the_ledger_says(slow: float) -> None:
    done = {"group": "g", "day": MONDAY, "slow": slow, "n_kg_m2": 1e3}
    plan: dict[str, Any] = {"weeks": [None] * WEEKS, "monday": MONDAY, "done": [done]}
    left = needs_of({"id": "g", "need": [1.0] * WEEKS}, plan, [])
    lasts = call("feeding.lasts", {"source": "sulfur_coated", "slow_n_share": slow})["value"]
    assert left.index(1.0) == lasts["most_weeks"]


@given(st.lists(st.floats(-20, 35), min_size=12, max_size=12))
@settings(max_examples=60, deadline=None)
def test_the_skeleton_lies_on_the_half_of_the_globe_that_its_windows_lie_on(months: list[float]) -> None:
    climate = {"monthly_mean_c": months}
    offered = call("season.skeleton", {"climate": climate, "ground": [{"turf": "cool"}]})["value"]["offered"]

    windows = call(
        "season.windows", {"climate": climate, "jobs": skeleton("a")["jobs"][:1], "first": TODAY, "turf": "cool"}
    )["value"]
    assert (offered[0]["why"] == "southern") is windows["southern"]


def test_a_product_that_a_wish_bars_is_no_choice() -> None:
    """With only gentle ones wished for, the quick and cheaper one is none."""
    gentle = {"id": "gentle", "price": 40.0, "slow_n_share": 0.9}
    quick = {"id": "quick", "price": 10.0, "slow_n_share": 0.0}
    both = {"sort": "fertilizer", "net_kg": 10.0, "n_percent": 20.0, "rate_kg_m2": 4 * LB, "stock_kg": 0.0}
    yard: dict[str, Any] = {
        "groups": [{"id": "g", "area_m2": 200.0, "turf": "cool", "need_n_kg_m2": [0.1 * LB] * 8}],
        "products": [gentle | both, quick | both],
        "climate": {"warmest_c": 19.0, "coldest_c": 15.0, "southern": False},
        "rules": {},
        "wishes": {"weeks": 8, "gentle_only": True},
        "done": [],
        "locked": [],
        "today": TODAY,
    }
    built = call("season.build", yard)["value"]
    solved = solve(built["model"], built["start"])
    read = call("season.read", {**yard, "solution": solved.values})["value"]
    whys = [why["why"] for step in read["steps"] for why in step["why"]]
    assert "only_one" in whys
    assert "fits_whole" not in whys


def unused(yard: dict[str, Any]) -> dict[str, str]:
    built = call("season.build", yard)["value"]
    solved = solve(built["model"], built["start"])
    read = call("season.read", {**yard, "solution": solved.values})["value"]
    return {one["product"]: one["why"] for one in read["unused"]}


def test_a_feed_that_no_plan_can_use_says_what_keeps_it_out() -> None:
    """Each is held to one thing alone: its strength, its phosphate, a wish, its season, its label's rate."""
    both = {"sort": "fertilizer", "net_kg": 10.0, "n_percent": 20.0, "price": 30.0, "stock_kg": 0.0}
    group = {"id": "g", "area_m2": 200.0, "turf": "cool", "need_n_kg_m2": [0.1 * LB] * 8, "phosphate": False}
    yard: dict[str, Any] = {
        "groups": [group | {"n_quick_once_kg_m2": 0.5 * LB}],
        "products": [
            both | {"id": "right", "rate_kg_m2": 2.5 * LB},  # half a pound of nitrogen
            both | {"id": "strong", "rate_kg_m2": 10 * LB},  # two pounds; the ceiling leaves a quarter of that
            both | {"id": "weak_need", "rate_kg_m2": 25 * LB, "slow_n_share": 1.0},  # a feed would need a tenth of it
            both | {"id": "starter", "rate_kg_m2": 2.5 * LB, "p2o5_percent": 18.0},
            both | {"id": "natural", "rate_kg_m2": 2.5 * LB, "slow_n_share": 0.9, "source": "natural"},
        ],
        "climate": {"warmest_c": 9.7, "coldest_c": 9.7, "southern": False},  # grass grows; no microbe does
        "rules": {},
        "wishes": {"weeks": 8},
        "done": [],
        "locked": [],
        "today": TODAY,
    }
    assert unused(yard) == {
        "strong": "too_strong",
        "weak_need": "little_need",
        "starter": "phosphate",
        "natural": "no_week",
    }
    gentle = unused({**yard, "wishes": {"weeks": 8, "gentle_only": True}})
    assert (gentle["right"], gentle["strong"]) == ("not_gentle", "not_gentle")
