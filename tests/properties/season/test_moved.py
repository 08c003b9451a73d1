"""Moving a step: what limits.check says of the whole plan with the step on its new days, as far as it is about it."""

from datetime import date, timedelta
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from lawn.engine.door import call
from tests.properties.season.test_sheet import CLIMATE, TODAY, step

QUICK = {"kind": "spacing_quick", "over_days": 42.0}
CLOSED = {"kind": "closed", "from": "11-16", "to": "02-28", "source": "entered by you"}
HEAT = {"kind": "heat", "limit_c": 22.0}
PRODUCT = {"id": "p", "sort": "fertilizer", "net_kg": 10.0, "coverage_m2": 400.0, "n_percent": 20.0}
ZONES = [{"id": name, "area_m2": 100.0, "turf": "cool"} for name in "abc"]


def moved(to: date, **changed: Any) -> Any:
    last = changed.pop("last", to + timedelta(6))
    asked: dict[str, Any] = {
        "move": {"step": "s", "from": to.isoformat(), "to": last.isoformat()},
        "steps": [step("s", date(2026, 5, 4), "a", "b")],
        "products": [PRODUCT],
        "entries": [],
        "zones": ZONES,
        "rules": [QUICK, CLOSED, HEAT],
        "today": TODAY.isoformat(),
    }
    answer = call("season.moved", asked | changed)
    assert "error" not in answer, answer
    return answer["value"]


def fed(entry_id: str, day: date, *zones: str) -> dict[str, Any]:
    rows = [{"zone_id": zone, "n_kg_m2": 0.004, "used_kg": 1.0} for zone in zones]
    return {"id": entry_id, "kind": "spread", "occurred_at": f"{day}T18:00:00+00:00", "product_id": "p",
            "sort": "fertilizer", "zones": rows}  # fmt: skip


def test_a_step_that_breaks_nothing_is_answered_with_nothing() -> None:
    found = moved(date(2026, 5, 4))
    assert found["breaches"] == []
    assert not found["past"]


def test_closed_days_speak_on_the_first_and_on_the_last_day_of_the_step() -> None:
    last = moved(date(2026, 11, 12))["breaches"]
    assert [(one["kind"], one["date"], one["zones"]) for one in last] == [("closed", "2026-11-18", ["a", "b"])]
    first = moved(date(2027, 2, 26))["breaches"]
    assert [(one["date"], one["right_from"]) for one in first] == [("2027-02-26", "2027-03-01")]
    assert moved(date(2026, 11, 9))["breaches"] == []


def test_a_step_moved_too_near_to_what_was_done_says_from_when_it_is_right() -> None:
    done = fed("e", date(2026, 3, 30), "a")
    (one,) = moved(date(2026, 4, 20), entries=[done], last=date(2026, 4, 20))["breaches"]
    assert (one["kind"], one["zones"], one["own"], one["others"]) == ("spacing_quick", ["a"], True, ["e"])
    assert (one["figure"], one["ceiling"], one["right_from"]) == (21, 42, "2026-05-11")
    assert moved(date(2026, 5, 11), entries=[done])["breaches"] == []


def test_another_step_that_then_follows_too_soon_is_named() -> None:
    steps = [step("s", date(2026, 5, 4), "a"), step("t", date(2026, 6, 29), "a")]
    (one,) = moved(date(2026, 6, 1), steps=steps)["breaches"]
    assert (one["job"], one["own"], one["others"]) == ("t", False, ["s"])
    assert moved(date(2026, 5, 11), steps=steps)["breaches"] == []


def test_steps_that_are_done_put_off_or_passed_do_not_count() -> None:
    for more in ({"state": "done"}, {"state": "put_off"}):
        assert moved(date(2026, 6, 1), steps=[step("s", date(2026, 5, 4), "a"),
                                              step("t", date(2026, 6, 8), "a", **more)])["breaches"] == []  # fmt: skip
    passed = [step("s", date(2026, 5, 4), "a"), step("t", date(2026, 3, 16), "a")]
    assert moved(date(2026, 4, 6), steps=passed)["breaches"] == []


def test_heat_of_the_usual_year_speaks_against_a_quick_feed_in_july() -> None:
    (one,) = moved(date(2026, 7, 13), climate=CLIMATE)["breaches"]
    assert one["kind"] == "heat"
    assert one["figure"] > 22.0
    assert moved(date(2026, 7, 13))["breaches"] == []


def test_days_that_have_passed_are_told() -> None:
    assert moved(TODAY - timedelta(14))["past"]
    assert not moved(TODAY - timedelta(6))["past"]


def test_a_rate_above_the_label_is_told_wherever_the_step_is() -> None:
    steps = [step("s", date(2026, 5, 4), "a", rate_kg_m2=0.03)]
    assert [one["kind"] for one in moved(date(2026, 5, 4), steps=steps)["breaches"]] == ["label_rate"]


plans = st.lists(st.tuples(st.integers(0, 200), st.sampled_from(["a", "b", "ab"])), min_size=1, max_size=5)


@given(plans, st.integers(-10, 25))
@settings(max_examples=60, deadline=None)
def test_it_says_what_limits_check_says_of_that_plan(drawn: list[Any], weeks: int) -> None:
    """The outside view: the plan with the step moved, laid out as jobs by hand, on each of its two days."""
    steps = [step(f"t{at}", TODAY + timedelta(days), *zones) for at, (days, zones) in enumerate(drawn)]
    steps[0]["id"] = "s"
    to = TODAY + timedelta(drawn[0][0] + 7 * weeks)
    wanted = set()
    for day in (to, to + timedelta(6)):
        jobs = [
            {"id": one["id"], "date": day.isoformat() if one["id"] == "s" else one["from"], "zone": zone,
             "product": "p", "rate_kg_m2": 0.02, "n_kg_m2": 0.004}
            for one in steps for zone in one["zones"]
        ]  # fmt: skip
        rules = {"jobs": jobs, "zones": ZONES, "rules": [QUICK, CLOSED, HEAT]}
        for one in call("limits.check", rules)["value"]["breaches"]:
            if "s" in [one["job"], *one["others"]]:
                wanted.add((one["job"], one["rule"], one["zone"]))
    found = moved(to, steps=steps)["breaches"]
    assert {(one["job"], one["rule"], zone) for one in found for zone in one["zones"]} == wanted


def test_each_zone_and_rule_is_told_once() -> None:
    found = moved(date(2026, 12, 1))["breaches"]
    assert [(one["kind"], one["zones"]) for one in found] == [("closed", ["a", "b"])]


@pytest.mark.parametrize("zone", ["gone"])
def test_what_was_put_down_on_ground_that_is_no_zone_any_more_does_no_harm(zone: str) -> None:
    assert moved(date(2026, 5, 4), entries=[fed("e", date(2026, 4, 1), zone)])["breaches"] == []
