"""Laws of the mow: never over a third, later for taller grass, and a forecast that learns what it is shown."""

import itertools
import json
from datetime import date, timedelta
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.properties.asking import error, value

FIRST = date(2026, 4, 1)
Json = dict[str, Any]


def day(at: int) -> str:
    return (FIRST + timedelta(at)).isoformat()


def days(count: int, warm: float, first: int = 1) -> list[Json]:
    return [{"date": day(first + at), "mean_c": warm} for at in range(count)]


heights = st.floats(20, 400)
targets = st.floats(15, 100)
turfs = st.sampled_from(["cool", "warm"])
notches = st.lists(st.floats(10, 115), min_size=1, max_size=8, unique=True).map(
    lambda found: [{"name": str(at), "notch_mm": one} for at, one in enumerate(found)]
)


@given(height=heights, target=targets, growth=st.floats(0, 9), between=st.integers(1, 10), rows=st.none() | notches)
def test_no_cut_on_the_way_down_takes_more_than_a_third(
    height: float, target: float, growth: float, between: int, rows: list[Json] | None
) -> None:
    more = {} if rows is None else {"notches": rows}
    found = value(
        "mowing.way_down", height_mm=height, target_mm=target, growth_mm_day=growth, days_between=between, **more
    )
    for step in found["steps"]:
        assert step["removed_share"] <= 1 / 3 + 1e-9
        assert step["to_mm"] >= min(target, height) - 1e-9
        assert step["to_mm"] < step["from_mm"]
    ends = [step["to_mm"] for step in found["steps"]]
    assert ends == sorted(ends, reverse=True)


@given(height=heights, target=targets)
def test_grass_that_does_not_grow_is_brought_down_all_the_way_by_the_fewest_thirds(
    height: float, target: float
) -> None:
    found = value("mowing.way_down", height_mm=height, target_mm=target)
    assert found["reaches"]
    left, cuts = height, 0
    while left > target * (1 + 1e-9):
        left, cuts = max(target, left * 2 / 3), cuts + 1
    assert found["cuts"] == cuts
    assert not cuts or found["steps"][-1]["to_mm"] == pytest.approx(target)


@given(height=heights, target=targets)
def test_a_way_begun_and_asked_anew_goes_on_the_same(height: float, target: float) -> None:
    steps = value("mowing.way_down", height_mm=height, target_mm=target)["steps"]
    if len(steps) > 1:
        rest = value("mowing.way_down", height_mm=steps[0]["to_mm"], target_mm=target)["steps"]
        assert [one["to_mm"] for one in rest] == pytest.approx([one["to_mm"] for one in steps[1:]])


TUESDAY = date(2026, 5, 5)


@given(
    height=heights,
    target=targets,
    growth=st.floats(0, 9),
    nights=st.sets(st.integers(1, 7), min_size=1, max_size=7),
    today=st.dates(date(2026, 1, 1), date(2027, 12, 31)),
    since=st.none() | st.integers(0, 9),
    between=st.none() | st.integers(1, 14),
)
def test_by_mowing_nights_every_cut_but_one_of_today_is_on_one_and_none_too_soon(
    height: float, target: float, growth: float, nights: set[int], today: date, since: int | None, between: int | None
) -> None:
    more = {name: given for name, given in (("since_days", since), ("days_between", between)) if given is not None}
    asked = {"growth_mm_day": growth, "weekdays": sorted(nights), "today": today.isoformat(), **more}
    steps = value("mowing.way_down", height_mm=height, target_mm=target, **asked)["steps"]
    days = [step["day"] for step in steps]
    least = min(2, between or 2)

    def is_night(day: int) -> bool:
        return (today + timedelta(days=day)).isoweekday() in nights

    for last, day in itertools.pairwise(days if since is None else [-since, *days]):
        assert is_night(day)
        assert day - last >= least
        # None of the nights between the two was far enough from the last cut.
        assert not any(is_night(one) for one in range(max(0, last + least), day))
    assert not days or since is not None or days[0] == 0


def test_a_way_down_by_tuesdays_and_saturdays() -> None:
    # By hand: 203.2 mm (8 in) to 76.2 (3 in) is three cuts, as published (uc_ipm_mowamt); Tue, Sat, Tue.
    asked = {"height_mm": 203.2, "target_mm": 76.2, "weekdays": [2, 6]}
    steps = value("mowing.way_down", today=TUESDAY.isoformat(), **asked)["steps"]
    assert [step["day"] for step in steps] == [0, 4, 7]
    # Mown on Friday: Saturday is too soon, so Tuesday.
    friday = (TUESDAY - timedelta(days=4)).isoformat()
    assert value("mowing.way_down", today=friday, since_days=0, **asked)["steps"][0]["day"] == 4
    # 1 mm a day: 120 mm is cut to 80, is 84 on Saturday, and goes down to 60 (2/3 of 84 is 56).
    grown = value(
        "mowing.way_down",
        height_mm=120,
        target_mm=60,
        growth_mm_day=1,
        weekdays=[2, 6],
        today=TUESDAY.isoformat(),
    )["steps"]
    assert [(step["from_mm"], step["to_mm"]) for step in grown] == [
        (120, pytest.approx(80)),
        (pytest.approx(84), pytest.approx(60)),
    ]


def test_mowing_nights_want_a_today_to_be_counted_from() -> None:
    refused = error("mowing.way_down", height_mm=120, target_mm=60, weekdays=[2])
    assert (refused["code"], refused["name"]) == ("missing_argument", "today")


@given(height=heights, target=targets)
def test_only_a_named_exception_takes_more_than_a_third(height: float, target: float) -> None:
    assert value("mowing.cut", height_mm=height, target_mm=target)["removed_share"] <= 1 / 3 + 1e-9
    low = value("mowing.cut", height_mm=height, target_mm=target, exception="renovation")
    # Taken with the exception or without it, the two thirds are the same.
    assert low["lowest_mm"] == pytest.approx(height - height / 3)
    assert low["cut_to_mm"] == pytest.approx(min(height, target))
    assert (low["exception"] is not None) == (low["removed_share"] > 1 / 3 + 1e-9)


@given(wanted=st.floats(5, 120), rows=notches)
def test_a_notch_never_cuts_lower_than_wanted(wanted: float, rows: list[Json]) -> None:
    found = value("mowing.notch", height_mm=wanted, notches=rows)
    high_enough = [row["notch_mm"] for row in rows if row["notch_mm"] >= wanted]
    assert found["notch_mm"] == (min(high_enough) if high_enough else None)


@given(low=st.floats(10, 90), more=st.floats(0, 40), turf=turfs, warm=st.floats(-5, 35), data=st.data())
def test_the_height_stays_in_its_range_and_rises_with_heat_shade_and_drought(
    low: float, more: float, turf: str, warm: float, data: Any
) -> None:
    marks = {name: data.draw(st.booleans()) for name in ("shade", "drought")}
    args = {"turf": turf, "low_mm": low, "high_mm": low + more, "recent_mean_c": warm}
    usual, now = value("mowing.height", **args), value("mowing.height", **args, **marks)
    assert low - 1e-9 <= usual["target_mm"] <= now["target_mm"] <= low + more + 1e-9


def forecast(**args: Any) -> Json:
    plain = {"turf": "cool", "target_mm": 60.0, "cut": day(0), "cut_mm": 60.0, "days": days(60, 15.0)}
    return value("mowing.next", **{**plain, **args})


def after(found: Json, name: str = "after_days") -> float:
    return 1e9 if found[name] is None else float(found[name])


@given(target=st.floats(20, 100), turf=turfs, warm=st.floats(-5, 35), sd=st.floats(0, 4), wet=st.floats(0, 1))
def test_a_forecast_is_in_order_and_grass_never_shrinks(
    target: float, turf: str, warm: float, sd: float, wet: float
) -> None:
    rows = [{**one, "sd_c": sd, "water_share": wet} for one in days(40, warm)]
    found = forecast(turf=turf, target_mm=target, cut_mm=target, days=rows)
    assert after(found, "earliest_after_days") <= after(found) <= after(found, "latest_after_days")
    mids = [one["mid"] for one in found["height_mm"]]
    assert mids == sorted(mids)
    assert all(one["low"] <= one["mid"] <= one["high"] for one in found["height_mm"])
    dates = [found[name] for name in ("earliest", "mow_by", "latest") if found[name]]
    assert dates == sorted(dates)


@given(target=st.floats(25, 90), more=st.floats(1, 30), left=st.floats(0, 10))
def test_taller_grass_is_due_later_and_grass_left_longer_sooner(target: float, more: float, left: float) -> None:
    short = forecast(target_mm=target, cut_mm=target)
    assert after(forecast(target_mm=target + more, cut_mm=target + more)) >= after(short) - 1e-9
    assert after(forecast(target_mm=target, cut_mm=target + left)) <= after(short) + 1e-9


@given(shift=st.integers(0, 3000))
def test_the_same_weather_on_other_dates_gives_the_same_days(shift: int) -> None:
    here = forecast()
    there = forecast(cut=day(shift), days=days(60, 15.0, shift + 1))
    assert there["after_days"] == here["after_days"]


def looks(count: int, daily: float, error: float = 3.0) -> list[Json]:
    return [
        {"cut": day(7 * at), "cut_mm": 60, "looked": day(7 * at + 7), "height_mm": 60 + 7 * daily, "error_mm": error}
        for at in range(count)
    ]


@given(count=st.integers(1, 12), slow=st.floats(0.5, 4), more=st.floats(0.5, 5))
def test_grass_that_was_seen_to_grow_faster_is_due_sooner(count: int, slow: float, more: float) -> None:
    beliefs = [
        value("mowing.learn", turf="cool", seen=looks(count, daily), days=days(7 * count, 15.0))["belief"]
        for daily in (slow, slow + more)
    ]
    late, soon = (after(forecast(belief=belief)) for belief in beliefs)
    assert soon <= late


@given(daily=st.floats(1, 6))
def test_looks_make_the_range_narrower(daily: float) -> None:
    """Down to what no look can settle; grass that grows faster than expected was thought surer than it was."""
    few, many = (
        value("mowing.learn", turf="cool", seen=looks(count, daily), days=days(7 * count, 15.0))["growth_mm_day"]
        for count in (1, 12)
    )
    assert (many["high"] - many["low"]) / many["mid"] < (few["high"] - few["low"]) / few["mid"]
    assert many["mid"] == pytest.approx(daily, rel=0.15)


@given(count=st.integers(2, 20), data=st.data())
def test_looks_are_learnt_alike_in_any_order_and_in_any_parts(count: int, data: Any) -> None:
    rows = looks(count, 4.0)
    rows[0] = {**rows[0], "height_mm": 70}
    weather = days(7 * count, 15.0)
    whole = value("mowing.learn", turf="cool", seen=rows, days=weather)["belief"]
    mixed = data.draw(st.permutations(rows))
    assert value("mowing.learn", turf="cool", seen=mixed, days=weather)["belief"] == whole
    split = data.draw(st.integers(1, count - 1))
    first = value("mowing.learn", turf="cool", seen=rows[:split], days=weather)["belief"]
    both = value("mowing.learn", turf="cool", seen=rows, days=weather, belief=first)["belief"]
    assert both["numbers"] == pytest.approx(whole["numbers"], rel=1e-9, abs=1e-9)
    assert both["looks"] == count


@pytest.mark.parametrize("turf", ["cool", "warm"])
def test_a_belief_stays_small_however_much_was_seen(turf: str) -> None:
    rows = [{**one, "height_mm": one["height_mm"] + at % 5 * 1.37} for at, one in enumerate(looks(100, 4.1))]
    belief = value("mowing.learn", turf=turf, seen=rows, days=days(700, 16.3))["belief"]
    assert len(json.dumps(belief)) < 4000


@given(grown=st.floats(-30, 400), error=st.floats(0.5, 100), warm=st.floats(-30, 45))
def test_no_look_however_odd_breaks_the_belief(grown: float, error: float, warm: float) -> None:
    row = {"cut": day(0), "cut_mm": 60, "looked": day(7), "height_mm": max(2, 60 + grown), "error_mm": error}
    belief = value("mowing.learn", turf="cool", seen=[row], days=days(7, warm))["belief"]
    again = [{**row, "cut": day(7), "looked": day(14)}]
    forecast(belief=value("mowing.learn", turf="cool", seen=again, days=days(14, warm), belief=belief)["belief"])


zones_drawn = st.lists(st.tuples(targets, st.floats(20, 150), st.floats(0, 6)), min_size=1, max_size=8)


@given(drawn=zones_drawn, nights=st.sets(st.integers(1, 7), min_size=1, max_size=3), data=st.data())
def test_tonight_puts_what_is_due_first_and_forgets_no_zone(
    drawn: list[tuple[float, float, float]], nights: set[int], data: Any
) -> None:
    zones = [
        {
            "id": str(at),
            "target_mm": target,
            "height_mm": [
                {"date": day(one), "mid": now + daily * one, "high": now + daily * one + 5} for one in range(22)
            ],
        }
        for at, (target, now, daily) in enumerate(drawn)
    ]
    found = value("mowing.tonight", zones=zones, weekdays=sorted(nights), today=day(0))
    assert {one["id"] for one in found["zones"]} == {one["id"] for one in zones}
    due = [one["due"] for one in found["zones"]]
    assert due == sorted(due, reverse=True)
    turned = value("mowing.tonight", zones=data.draw(st.permutations(zones)), weekdays=sorted(nights), today=day(0))
    assert turned == found
    for one in found["zones"]:
        target = next(zone["target_mm"] for zone in zones if zone["id"] == one["id"])
        if one["why"] == "cannot_wait":
            assert one["taken_share"] <= 1 / 3 + 1e-9 < one["skipped_share"] + 2e-9
        assert one["cut_to_mm"] >= min(target, one["cut_to_mm"])
    assert date.fromisoformat(found["night"]).isoweekday() in nights


@given(rain=st.lists(st.floats(0, 20), min_size=21, max_size=21), cold=st.lists(st.floats(-5, 20), min_size=21))
def test_nobody_is_sent_out_in_rain_or_frost(rain: list[float], cold: list[float]) -> None:
    weather = [{"date": day(at), "rain_mm": rain[at], "min_c": cold[at]} for at in range(21)]
    zone = {"id": "z", "target_mm": 60, "height_mm": []}
    found = value("mowing.tonight", zones=[zone], weekdays=[2, 4, 6], today=day(0), weather=weather)
    for night in (found["night"], found["next_night"]):
        if night is not None:
            at = (date.fromisoformat(night) - FIRST).days
            assert rain[at] < 5
            assert cold[at] > 0


@given(minutes=st.lists(st.floats(0, 200), max_size=30))
def test_the_blade_is_due_by_its_hours(minutes: list[float]) -> None:
    mows = [{"date": day(at), "minutes": one} for at, one in enumerate(minutes)]
    found = value("mowing.sharpen", mows=mows, today=day(40))
    assert found["hours"] == pytest.approx(sum(minutes) / 60)
    assert (found["why"] == "hours") == (found["hours"] >= 10)
