"""The year's sheet: no step is lost, and what it draws is what the needs and the release of feeds say."""

from datetime import date, timedelta
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from lawn.engine.door import call
from tests.properties.season.skeletons import skeleton

FIRST = date(2026, 1, 1)
TODAY = date(2026, 4, 1)
MONTHS = [-4.0, -2.0, 4.0, 10.0, 16.0, 21.0, 24.0, 23.0, 18.0, 11.0, 5.0, -1.0]
CLIMATE = {"monthly_mean_c": MONTHS, "jobs": [row | {"turf": "cool"} for row in skeleton("a")["jobs"]]}
PRODUCT = {"id": "p", "n_percent": 20.0, "slow_n_share": 0.5, "source": "polymer_coated", "net_kg": 10.0}
GROUPS = [
    {"id": "g", "zones": ["a", "b"], "turf": "cool", "aim_n_kg_m2": 0.015},
    {"id": "h", "zones": ["c"], "turf": "cool", "aim_n_kg_m2": 0.01},
]
ZONES = [{"id": name, "area_m2": 100.0} for name in "abcd"]


def sheet(**changed: Any) -> Any:
    asked = {"groups": GROUPS, "zones": ZONES, "products": [PRODUCT], "steps": [], "done": [], "climate": CLIMATE}
    answer = call("season.sheet", asked | {"first": FIRST.isoformat(), "today": TODAY.isoformat()} | changed)
    assert "error" not in answer, answer
    return answer["value"]


def step(step_id: str, day: date, *zones: str, **more: Any) -> dict[str, Any]:
    last = (day + timedelta(6)).isoformat()
    return {"id": step_id, "job": "feed", "zones": list(zones), "from": day.isoformat(), "to": last,
            "product": "p", "rate_kg_m2": 0.02} | more  # fmt: skip


def put(band: Any) -> float:
    return float(sum(bar["n_kg_m2"] for bar in band["bars"]))


steps_drawn = st.lists(
    st.tuples(st.integers(0, 360), st.lists(st.sampled_from("abcd"), unique=True, max_size=4)), max_size=8
)


@given(steps_drawn)
@settings(max_examples=40, deadline=None)
def test_every_step_of_the_year_is_a_flag_on_each_ground_it_names(drawn: list[Any]) -> None:
    steps = [step(f"s{at}", FIRST + timedelta(days), *zones) for at, (days, zones) in enumerate(drawn)]
    bands = sheet(steps=steps)["bands"]
    told = {band["group"]: [flag["step"] for flag in band["flags"]] for band in bands}
    for at, (_, zones) in enumerate(drawn):
        homes = {"g" if one in "ab" else "h" if one == "c" else "" for one in zones} or {""}
        assert {group for group, ids in told.items() if f"s{at}" in ids} == homes


def test_need_is_that_of_the_needs_and_its_weeks_add_up_to_the_aim() -> None:
    found = sheet()
    asked = {"climate": CLIMATE | {"jobs": None}, "jobs": CLIMATE["jobs"], "first": FIRST.isoformat(), "weeks": 53}
    asked["climate"] = {"monthly_mean_c": MONTHS}
    needs = call("season.needs", asked | {"turf": "cool", "aim_n_kg_m2": 0.015})["value"]
    assert found["bands"][0]["need_n_kg_m2"] == pytest.approx([week["n_kg_m2"] for week in needs["weeks"]])
    assert [week["date"] for week in found["weeks"]] == [week["date"] for week in needs["weeks"]]
    assert found["sums"][0]["need_n_kg_m2"] == pytest.approx(0.015)


def test_what_comes_free_is_the_release_of_each_feed_by_the_usual_soil() -> None:
    """As `feeding.release` has it, day by day, of the soil that `warmth.climate` and `warmth.soil` tell."""
    day = date(2026, 5, 6)
    usual = call("warmth.climate", {"monthly_mean_c": MONTHS})["value"]["daily_mean_c"]
    under = call("warmth.soil", {"days": [{"mean_c": one} for one in usual * 2]})["value"]["daily_c"][366:]
    soil = []
    for at in range(240):
        one = day + timedelta(at)
        place = (date(2024, one.month, one.day) - date(2024, 1, 1)).days
        mean = sum(under[(place - back) % 366] for back in range(3)) / 3
        soil.append({"date": one.isoformat(), "soil_c": mean})
    feed = {"n_kg_m2": 0.004, "slow_n_share": 0.5, "source": "polymer_coated", "applied": day.isoformat()}
    daily = call("feeding.release", feed | {"days": soil})["value"]["daily"]
    weeks = [0.0] * 53
    for row in daily:
        weeks[(date.fromisoformat(row["date"]) - date(2025, 12, 29)).days // 7] += row["n_kg_m2"]
    band = sheet(steps=[step("s", day, "a")])["bands"][0]
    assert band["free_n_kg_m2"] == pytest.approx(weeks, abs=1e-7)
    assert sum(weeks) > 0.003


def test_a_done_step_counts_by_the_log_alone_and_one_that_passed_or_was_put_off_counts_nowhere() -> None:
    done = [{"date": "2026-03-31", "group": "g", "product": "p", "n_kg_m2": 0.004}]
    steps = [
        step("done", date(2026, 3, 30), "a", state="done"),
        step("passed", date(2026, 3, 2), "a"),
        step("off", date(2026, 5, 4), "a", state="put_off"),
    ]
    band = sheet(steps=steps, done=done)["bands"][0]
    assert [(bar["date"], bar["step"], bar["n_kg_m2"]) for bar in band["bars"]] == [("2026-03-31", None, 0.004)]
    assert [(flag["step"], flag["late"]) for flag in band["flags"]] == [
        ("passed", True),
        ("done", False),
        ("off", False),
    ]
    assert sheet(steps=steps, done=done)["bands"][1]["bars"] == []


def test_a_step_that_has_begun_counts_from_today() -> None:
    band = sheet(steps=[step("s", TODAY - timedelta(3), "a")])["bands"][0]
    assert [bar["date"] for bar in band["bars"]] == [TODAY.isoformat()]


def test_a_flag_tells_the_bags_of_its_own_ground() -> None:
    bands = sheet(steps=[step("s", date(2026, 5, 4), "a", "b", "c")])["bands"]
    assert [band["flags"][0]["kg"] for band in bands] == pytest.approx([4.0, 2.0])
    assert [band["flags"][0]["bags"] for band in bands] == pytest.approx([0.4, 0.2])
    unknown = sheet(steps=[step("s", date(2026, 5, 4), "a", "b")], zones=[{"id": "a", "area_m2": 100.0}, {"id": "b"}])
    assert unknown["bands"][0]["flags"][0]["bags"] is None


def test_bars_of_one_week_stand_on_each_other_and_the_top_holds_them() -> None:
    steps = [step("s", date(2026, 5, 4), "a"), step("t", date(2026, 5, 6), "a")]
    found = sheet(steps=steps)
    assert [bar["under_n_kg_m2"] for bar in found["bands"][0]["bars"]] == pytest.approx([0.0, 0.004])
    assert found["top_n_kg_m2"] == pytest.approx(0.008)


def test_without_a_climate_steps_and_feeds_are_still_drawn() -> None:
    found = sheet(steps=[step("s", date(2026, 5, 4), "a")], climate=None)
    assert found["bands"][0]["need_n_kg_m2"] is None
    assert found["bands"][0]["free_n_kg_m2"] is None
    assert put(found["bands"][0]) == pytest.approx(0.004)


@pytest.mark.parametrize(("first", "months"), [("2026-01-01", 13), ("2026-07-01", 13)])
def test_months_begin_where_the_calendar_has_them(first: str, months: int) -> None:
    found = sheet(first=first)
    monday = date.fromisoformat(found["weeks"][0]["date"])
    assert monday.weekday() == 0
    assert len(found["months"]) == months
    for row in found["months"]:
        begins = monday + timedelta(round(row["week"] * 7))
        assert (begins.day, begins.month) == (1, row["month"])


def test_a_step_may_be_moved_from_this_week_to_the_last_week_drawn() -> None:
    flag = sheet(steps=[step("s", date(2026, 5, 6), "a")])["bands"][0]["flags"][0]
    monday = date.fromisoformat(flag["from"]) - timedelta(2 + 7 * flag["earlier_weeks"])
    assert monday <= TODAY < monday + timedelta(7)
    assert flag["week"] + flag["later_weeks"] == 52
    fixed = sheet(steps=[step("s", date(2026, 5, 6), "a", state="done")])["bands"][0]["flags"][0]
    assert (fixed["earlier_weeks"], fixed["later_weeks"]) == (0, 0)
