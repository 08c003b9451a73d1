"""From a book to a plan in one call: what the household wishes, its place and its kept steps all reach the planner."""

from datetime import date
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from lawn.engine.door import call
from lawn.planning import household
from lawn.planning.solver import solve

Json = dict[str, Any]
TODAY = date(2026, 3, 4)
COLD = {"monthly_mean_c": [-4, -2, 4, 10, 16, 21, 24, 23, 18, 11, 5, -1]}
FEED = {"id": "feed", "sort": "fertilizer", "net_kg": 20.0, "coverage_m2": 800.0, "price": 30.0, "n_percent": 20.0}
GENTLE = FEED | {"id": "gentle", "slow_n_share": 0.9, "coverage_m2": 400.0}


def zone(zone_id: str = "a", **more: Any) -> Json:
    return {"id": zone_id, "area_m2": 100.0, "grass": "tall_fescue"} | more


def gathered(**changed: Any) -> Json:
    book: Json = {"zones": [zone()], "products": [FEED, GENTLE], "entries": [], "climate": COLD, "today": TODAY}
    return household.arguments(**(book | changed))


def planned(found: Json) -> Json:
    built = call("season.build", found["plan"])["value"]
    solved = solve(built["model"], built["start"], seconds=10.0)
    read: Json = call("season.read", found["plan"] | {"solution": solved.values})["value"]
    return read


def step(job: str, first: str, last: str, **more: Any) -> Json:
    return {"job": job, "from_on": first, "to_on": last, "zones": ["a"]} | more


def kept(plan: Json) -> list[Json]:
    """A plan's steps as a book keeps them: the week they are in."""
    found = []
    for one in plan["steps"]:
        last = date.fromordinal(date.fromisoformat(one["date"]).toordinal() + 6).isoformat()
        named = {} if one["product"] is None else {"product": one["product"]}
        found.append(step(one["sort"], one["date"], last, zones=one["zones"]) | named)
    return found


@given(
    level=st.sampled_from(["low", "middle", "high"]),
    clippings=st.sampled_from(["left", "collected"]),
    grass=st.sampled_from(["tall_fescue", "bermudagrass", "centipedegrass", "kentucky_bluegrass"]),
    place=st.sampled_from([None, "us_mn", "us_ny", "us_fl_marion", "gb"]),
)
@settings(max_examples=40, deadline=None)
def test_the_aim_is_never_over_the_year_nor_a_feed_over_what_holds_at_the_place(
    level: str, clippings: str, grass: str, place: str | None
) -> None:
    found = gathered(zones=[zone(grass=grass)], wishes={"level": level, "clippings": clippings}, place=place)
    (group,) = found["plan"]["groups"]
    assert group["aim_n_kg_m2"] <= group["n_year_kg_m2"]
    for rule in found["rules"]:
        if rule["kind"] in ("quick_once", "all_once") and rule["grass"] in (None, grass):
            name = "n_quick_once_kg_m2" if rule["kind"] == "quick_once" else "n_once_kg_m2"
            assert group[name] <= rule["most_kg_m2"]


def test_the_household_s_own_rule_lowers_what_a_feed_may_bring() -> None:
    own = [{"kind": "quick_once", "most_kg_m2": 0.001, "date": "2026-01-02"}]
    assert gathered(own_rules=own)["plan"]["groups"][0]["n_quick_once_kg_m2"] == 0.001


def test_a_place_loosens_the_strictest_figure() -> None:
    unknown, known = gathered(), gathered(place="us_mn")
    assert (unknown["state"], known["state"]) == ("unknown", "known")
    quick = [one["plan"]["groups"][0]["n_quick_once_kg_m2"] for one in (unknown, known)]
    assert quick[0] < quick[1]


def test_what_cannot_be_planned_says_what_it_lacks_or_what_bars_it() -> None:
    pre = {"id": "pre", "sort": "pre_emergent", "net_kg": 8.0, "coverage_m2": 500.0}
    found = gathered(zones=[zone(), {"id": "bare", "area_m2": 9.0}], products=[pre, {"id": "odd"}], place="gb")
    assert found["lacking_zones"] == [{"id": "bare", "lacks": "turf"}]
    assert found["lacking_products"] == [{"id": "odd", "lacks": "sort"}]
    assert found["barred_products"] == [{"id": "pre", "rule": "pesticide_ban"}]
    assert found["plan"]["products"] == []


def test_a_summer_ban_closes_its_days() -> None:
    closed = gathered(place="us_fl_ban")["plan"]["rules"]["closed"]
    assert {"first": "2026-06-01", "last": "2026-09-30"} in closed


@pytest.mark.parametrize("month", [1, 2, 12])
def test_a_month_that_is_skipped_holds_no_step(month: int) -> None:
    skip = gathered(wishes={"skip_months": [month]})["plan"]["wishes"]["skip"]
    assert {date.fromisoformat(one["first"]).month for one in skip} == {month}
    assert all(date.fromordinal(date.fromisoformat(one["last"]).toordinal() + 1).day == 1 for one in skip)
    steps = planned(gathered(wishes={"skip_months": [9]}))["steps"]
    assert all(date.fromisoformat(one["date"]).month != 9 for one in steps)


def test_only_gentle_products_feed_where_that_is_wished() -> None:
    steps = planned(gathered(wishes={"only_gentle": True}))["steps"]
    assert {one["product"] for one in steps if one["sort"] == "feed"} == {"gentle"}


def test_nothing_more_is_bought_than_the_budget_allows() -> None:
    assert planned(gathered(wishes={"budget": 0}))["bags"] == []


def test_steps_done_put_off_or_past_do_not_stand_and_a_locked_job_stays_even_outside_its_window() -> None:
    steps = [
        step("aerate", "2026-07-06", "2026-07-12", locked=True),
        step("feed", "2026-04-06", "2026-04-12", product="feed", state="done"),
        step("feed", "2026-04-06", "2026-04-12", product="feed", state="put_off"),
        step("feed", "2026-02-02", "2026-02-08", product="feed"),
    ]
    found = gathered(steps=steps)
    assert [one["job"] for one in found["plan"]["wishes"]["present"]] == ["aeration"]
    (aerate,) = [one for one in planned(found)["steps"] if one["sort"] == "aerate"]
    assert (aerate["date"], aerate["locked"]) == ("2026-07-06", True)


def test_a_step_of_this_week_still_stands_in_the_middle_of_it() -> None:
    found = gathered(steps=[step("feed", "2026-03-02", "2026-03-08", product="feed")])
    assert found["plan"]["wishes"]["present"] == [{"date": "2026-03-04", "product": "feed", "group": "a"}]


def test_a_kept_plan_of_an_unchanged_season_moves_nothing() -> None:
    first = planned(gathered(zones=[zone(), zone("b", sun="shade")]))
    again = planned(gathered(zones=[zone(), zone("b", sun="shade")], steps=kept(first)))
    told = [[(one["date"], one["sort"], one["product"], one["group"]) for one in of["steps"]] for of in (first, again)]
    assert len(told[0]) > 6
    assert told[0] == told[1]
