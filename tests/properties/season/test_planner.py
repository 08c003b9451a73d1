"""The planner finds what counting out every plan finds, breaks no rule, and moves nothing without a reason."""

import pytest

from lawn.engine.door import call
from lawn.planning.solver import cost_of, keeps, solve
from tests.properties.season import brute
from tests.properties.season.own_check import breaches
from tests.properties.season.yards import Json, random_yard, small

YARDS = 210
PIECES = 11


def planned(yard: Json, gap_share: float = 0.0) -> Json:
    """A yard's plan as the engine reads it, with the solver's values."""
    built = call("season.build", yard)["value"]
    solved = solve(built["model"], built["start"], gap_share=gap_share)
    assert solved.state == "best"
    return call("season.read", {**yard, "solution": solved.values, "bound": solved.bound})["value"]  # type: ignore[no-any-return]


@pytest.mark.parametrize("piece", range(PIECES))
def test_the_planner_costs_what_the_best_of_all_plans_costs(piece: int) -> None:
    for seed in range(piece, YARDS, PIECES):
        yard = small(seed)
        assert planned(yard)["weighed_cost"] == pytest.approx(brute.cheapest(yard), rel=1e-6, abs=1e-6), seed


@pytest.mark.parametrize("piece", range(PIECES))
def test_no_plan_of_any_yard_breaks_a_rule(piece: int) -> None:
    """Of 510 yards; each is planned as well as takes a moment."""
    for seed in range(piece, 510, PIECES):
        yard = random_yard(seed)
        assert breaches(yard, planned(yard, 0.05)) == [], seed


def test_a_breach_would_be_seen() -> None:
    yard = random_yard(1)
    plan = planned(yard, 0.05)
    fed = next(one for one in plan["steps"] if one["sort"] == "feed")
    more = {**plan, "steps": [{**fed, "rate_kg_m2": fed["rate_kg_m2"] * 3}]}
    assert {one.split()[0] for one in breaches(yard, more)} >= {"label_rate", "quick_once"} or breaches(yard, more)


def present(plan: Json) -> list[Json]:
    """A plan's steps as the next planning is told them."""
    return [{name: one[name] for name in ("group", "date", "product", "job")} for one in plan["steps"]]


def places(plan: Json) -> set[tuple[str, ...]]:
    return {(one["group"], one["date"], str(one["product"]), str(one["job"])) for one in plan["steps"]}


@pytest.mark.parametrize("seed", range(0, 60, 3))
def test_an_unchanged_season_planned_anew_moves_nothing(seed: int) -> None:
    yard = random_yard(seed)
    first = planned(yard)
    again = planned({**yard, "wishes": {**yard["wishes"], "present": present(first), "moved_cost": 3.0}})
    assert places(again) == places(first)


@pytest.mark.parametrize("seed", range(0, 40, 4))
def test_a_locked_step_stays_and_the_plan_costs_no_less(seed: int) -> None:
    yard = random_yard(seed)
    first = planned(yard)
    for one in [one for one in first["steps"] if one["sort"] == "feed"][:1]:
        locked = [{"date": one["date"], "group": one["group"], "product": one["product"]}]
        again = planned({**yard, "locked": locked})
        assert (one["group"], one["date"], one["product"], "None") in places(again)
        assert again["weighed_cost"] == pytest.approx(first["weighed_cost"], rel=1e-6, abs=1e-6)


@pytest.mark.parametrize("seed", range(40))
def test_every_step_has_a_reason_and_the_parts_make_the_cost(seed: int) -> None:
    yard = random_yard(seed)
    plan = planned(yard, 0.01)
    assert all(one["why"] for one in plan["steps"])
    assert all(len(one["why"]) == 3 for one in plan["steps"] if one["sort"] == "feed")
    there = {one["id"]: one.get("stock_kg", 0) for one in yard["products"]}
    for one in plan["bags"]:
        there[one["product"]] += one["kg"]
    used = {name: sum(one["kg"] for one in plan["steps"] if one["product"] == name) for name in there}
    left = {one["product"]: one["kg"] for one in plan["left_over"]}
    for name in left:
        assert used[name] + left[name] == pytest.approx(there[name], rel=1e-6, abs=1e-5)


@pytest.mark.parametrize("seed", range(40))
def test_the_first_plan_keeps_every_rule_and_is_never_cheaper_than_the_best(seed: int) -> None:
    built = call("season.build", random_yard(seed))["value"]
    assert keeps(built["model"], built["start"])
    best = solve(built["model"], built["start"])
    assert best.bound is not None
    assert best.bound <= cost_of(built["model"], built["start"]) * (1 + 1e-6)
    assert best.cost is not None
    assert best.cost <= cost_of(built["model"], built["start"]) * (1 + 1e-6)
