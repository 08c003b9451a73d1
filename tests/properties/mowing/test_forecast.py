"""The forecast of a yard is learning and asking zone by zone, and no more than the log and the weather tell."""

from datetime import date, timedelta
from typing import Any

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from lawn.engine.door import call

TODAY = date(2026, 5, 20)


def on(back: int) -> str:
    return (TODAY - timedelta(days=back)).isoformat()


def days(mean_c: float, back: int = 40, ahead: int = 30) -> list[dict[str, Any]]:
    return [{"date": on(-at), "mean_c": mean_c, "sd_c": 1.0} for at in range(-back, ahead)]


def forecast(mows: list[dict[str, Any]], weather: list[dict[str, Any]], **more: Any) -> dict[str, Any]:
    zone = {"id": "z", "turf": "cool", "target_mm": 70.0}
    asked = {"zones": [zone], "mows": mows, "days": weather, "today": on(0), **more}
    found: dict[str, Any] = call("mowing.forecast", asked)["value"]["zones"]["z"]
    return found


@given(
    gap=st.integers(1, 12), since=st.integers(0, 12), cut=st.floats(40, 80), grown=st.floats(0, 60), c=st.floats(8, 24)
)
def test_it_is_learning_and_then_asking(gap: int, since: int, cut: float, grown: float, c: float) -> None:
    weather = days(c)
    mows = [
        {"date": on(since + gap), "zone_ids": ["z"], "cut_height_mm": cut},
        {"date": on(since), "zone_ids": ["z"], "cut_height_mm": 70, "height_before_mm": cut + grown},
    ]
    said = forecast(mows, weather)
    seen = [{"cut": on(since + gap), "cut_mm": cut, "looked": on(since), "height_mm": cut + grown}]
    past = [one for one in weather if on(since + gap) <= one["date"] <= on(0)]
    taught = call("mowing.learn", {"turf": "cool", "seen": seen, "days": past})["value"]
    rest = [one for one in weather if one["date"] >= on(since)]
    args = {"turf": "cool", "target_mm": 70, "cut": on(since), "cut_mm": 70, "days": rest, "today": on(0)}
    alone = call("mowing.next", {**args, "belief": taught["belief"]})["value"]
    names = ("mow_at_mm", "mow_by", "earliest", "latest", "state")
    assert [said[name] for name in names] == [alone[name] for name in names]


@given(c=st.floats(8, 24), since=st.integers(0, 12))
def test_a_cut_that_was_not_written_down_makes_the_range_no_narrower(c: float, since: int) -> None:
    told = forecast([{"date": on(since), "zone_ids": ["z"], "cut_height_mm": 70}], days(c))
    taken = forecast([{"date": on(since), "zone_ids": ["z"]}], days(c))
    assert (taken["cut_taken"], told["cut_taken"]) == (True, False)
    if told["earliest"] and taken["earliest"]:
        assert taken["earliest"] <= told["earliest"]


@given(c=st.floats(8, 24), hole=st.integers(-5, 20))
def test_a_day_nobody_knows_ends_the_forecast_there(c: float, hole: int) -> None:
    weather = [one for one in days(c) if one["date"] != on(-hole)]
    said = forecast([{"date": on(3), "zone_ids": ["z"]}], weather)
    dates = [row["date"] for row in said["height_mm"]]
    assert all(one < on(-hole) or hole <= -3 for one in dates)


def test_grass_at_rest_names_the_day_growth_begins_again() -> None:
    weather = days(-2.0, 30, 60) + [{"date": on(-60 - at), "mean_c": 15.0} for at in range(60)]
    said = forecast([{"date": on(5), "zone_ids": ["z"], "cut_height_mm": 70}], weather)
    assert said["state"] == "nearly_stopped"
    assert on(-50) <= said["growing_again"] <= on(-62)


def weather(mean_c: float, back: int = 60, ahead: int = 40, **more: float) -> list[dict[str, Any]]:
    return [one | more for one in days(mean_c, back, ahead)]


def mids(said: dict[str, Any]) -> list[float]:
    return [row["mid"] for row in said["height_mm"]]


CUT = [{"date": on(6), "zone_ids": ["z"], "cut_height_mm": 70}]
LEARNT = [
    {"date": on(30), "zone_ids": ["z"], "cut_height_mm": 70},
    {"date": on(20), "zone_ids": ["z"], "cut_height_mm": 70, "height_before_mm": 90},
    *[one | {"height_before_mm": 96} for one in CUT],
]


# Grass grew 4 mm a day, was fed well, and then stood still for a dry fortnight.
STALLED = [
    {"date": on(40), "zone_ids": ["z"], "cut_height_mm": 70},
    {"date": on(33), "zone_ids": ["z"], "cut_height_mm": 70, "height_before_mm": 98},
    {"date": on(26), "zone_ids": ["z"], "cut_height_mm": 70, "height_before_mm": 98},
    {"date": on(14), "zone_ids": ["z"], "cut_height_mm": 70, "height_before_mm": 72},
    {"date": on(6), "zone_ids": ["z"], "cut_height_mm": 70, "height_before_mm": 71},
]


@example(c=17.0, back=5, n=0.01, slow=0.0, mows=STALLED, before=0.01)
@given(
    c=st.floats(8, 24),
    back=st.integers(0, 90),
    n=st.floats(0, 0.02),
    slow=st.floats(0, 1),
    mows=st.sampled_from([CUT, LEARNT, STALLED]),
    before=st.floats(0, 0.01),
)
def test_a_feed_since_the_last_look_never_slows_growth(
    c: float, back: int, n: float, slow: float, mows: list[dict[str, Any]], before: float
) -> None:
    """Whatever was learnt of feeds: one that was followed by less growth than expected is no poison."""
    back = back if mows is CUT else min(back, 5)
    earlier = [{"date": on(26), "zone_ids": ["z"], "n_kg_m2": before, "slow_share": 0.0}]
    fed = {"date": on(back), "zone_ids": ["z"], "n_kg_m2": n, "slow_share": slow}
    without, with_it = (forecast(mows, days(c), feeds=feeds) for feeds in (earlier, [*earlier, fed]))
    assert all(one >= other for one, other in zip(mids(with_it), mids(without), strict=True))


def test_a_feed_speeds_growth_and_is_named_with_what_it_adds() -> None:
    fed = {"date": on(10), "zone_ids": ["z"], "n_kg_m2": 0.004, "slow_share": 0.3}
    with_it, without = forecast(CUT, days(16), feeds=[fed]), forecast(CUT, days(16))
    assert mids(with_it)[7] > mids(without)[7]
    (named,) = with_it["feeds"]
    assert named["date"] == on(10)
    assert 0.3 < named["adds_mm"] < 1.5


def test_a_feed_of_another_zone_or_of_tomorrow_is_none_here() -> None:
    elsewhere = {"date": on(10), "zone_ids": ["x"], "n_kg_m2": 0.004}
    ahead = {"date": on(-1), "zone_ids": ["z"], "n_kg_m2": 0.004}
    assert forecast(CUT, days(16), feeds=[elsewhere, ahead]) == forecast(CUT, days(16))


def test_what_the_log_does_not_tell_changes_nothing_bit_for_bit() -> None:
    assert forecast(LEARNT, days(16), feeds=[], waterings=[], latitude_deg=41.0) == forecast(LEARNT, days(16))
    rain_alone = [one | {"rain_mm": 0.0} for one in days(16)]  # what the grass uses is not known
    assert forecast(LEARNT, rain_alone) == forecast(LEARNT, days(16))


@given(c=st.floats(12, 24), et0=st.floats(4, 8))
def test_without_water_grass_grows_slower(c: float, et0: float) -> None:
    dry, wet = (forecast(CUT, weather(c, rain_mm=rain, et0_mm=et0)) for rain in (0.0, 10.0))
    assert wet["water_share"] == 1.0
    assert dry["water_share"] < 0.2
    assert mids(wet) == mids(forecast(CUT, days(c, 60, 40)))
    assert all(one <= other for one, other in zip(mids(dry), mids(wet), strict=True))
    assert mids(dry)[-1] < mids(wet)[-1]


def test_water_given_keeps_grass_growing_and_is_taken_to_go_on() -> None:
    dry = weather(18, rain_mm=0.0, et0_mm=5.0)
    given_mm = [{"date": on(at), "zone_ids": ["z"], "watered_mm": 14.0} for at in range(0, 40, 3)]
    assert forecast(CUT, dry, waterings=given_mm)["water_share"] > 0.9
    assert forecast(CUT, dry)["water_share"] < 0.1


def test_days_whose_rain_nobody_told_make_no_drought() -> None:
    """A dry month is known, of the days to come the climate alone: there the grass is not held to be dry."""
    dry = weather(18, rain_mm=0.0, et0_mm=5.0)
    unknown = [one if one["date"] <= on(8) else {"date": one["date"], "mean_c": 18, "sd_c": 1.0} for one in dry]
    assert forecast(CUT, unknown)["water_share"] is None
    assert mids(forecast(CUT, unknown)) == mids(forecast(CUT, days(18, 60, 40)))


def test_one_day_that_nobody_told_ends_no_drought_and_a_week_does() -> None:
    dry = weather(18, rain_mm=0.0, et0_mm=5.0)
    for gap, over in ((1, False), (6, False), (7, True)):
        hole = [
            {"date": one["date"], "mean_c": 18, "sd_c": 1.0} if on(gap) <= one["date"] < on(0) else one for one in dry
        ]
        assert (forecast(CUT, hole)["water_share"] > 0.5) is over


def test_the_water_is_that_of_the_water_balance() -> None:
    """A week from today on, where nothing was given: the same as watering.need tells of the same days."""
    some_rain = [one | {"rain_mm": 6.0 if at % 9 == 0 else 0.0, "et0_mm": 4.0} for at, one in enumerate(days(18))]
    rows = [{name: one[name] for name in ("date", "rain_mm", "et0_mm")} for one in some_rain]
    for written, soil in ((None, "loam"), ("Sandy loam", "sandy_loam"), ("heavy stuff", "loam")):
        need = call("watering.need", {"days": rows, "turf": "cool", "soil": soil})["value"]["water_share"]
        week = need[40:47]
        zone = {"id": "z", "turf": "cool", "target_mm": 70.0} | ({"soil": written} if written else {})
        asked = {"zones": [zone], "mows": CUT, "days": some_rain, "today": on(0)}
        said = call("mowing.forecast", asked)["value"]["zones"]["z"]["water_share"]
        assert abs(said - sum(week) / 7) < 1e-12


def test_where_no_service_told_it_temperatures_tell_what_grass_uses() -> None:
    bare = weather(20, rain_mm=0.0, min_c=12.0, max_c=28.0)
    assert forecast(CUT, bare)["water_share"] is None
    said = forecast(CUT, bare, latitude_deg=41.0)
    assert said["water_share"] < 0.3


RANGE = {"id": "z", "turf": "cool", "target_mm": 65.0, "low_mm": 60.0, "high_mm": 90.0}


def test_in_heat_the_yard_is_cut_as_high_as_one_zone_alone() -> None:
    """The list of tonight and the sheet of a mow ask two calls; both mean the same height."""
    for mean_c, shade in ((16.0, False), (26.0, False), (16.0, True)):
        weather = days(mean_c)
        zone = RANGE | ({"shade": True} if shade else {})
        asked = {"zones": [zone], "mows": CUT, "days": weather, "today": on(0)}
        args = {"turf": "cool", "low_mm": 60, "high_mm": 90, "own_mm": 65, "shade": shade}
        alone = call("mowing.height", {**args, "days": weather, "today": on(0)})["value"]
        said = call("mowing.forecast", asked)["value"]["zones"]["z"]
        assert said["target_mm"] == alone["target_mm"] == {16.0: 65.0, 26.0: 82.5}[mean_c] + (25.0 if shade else 0.0)


def test_heat_is_that_of_the_week_up_to_today_and_of_no_day_that_is_not_known() -> None:
    args = {"turf": "cool", "low_mm": 60, "high_mm": 90, "today": on(0)}
    week = [{"date": on(back), "mean_c": 25.0 if back < 7 else 5.0} for back in range(-3, 20)]
    hot = call("mowing.height", {**args, "days": week})["value"]
    assert hot["why"] == ["heat"]
    hole = [one for one in week if one["date"] != on(3)]
    assert call("mowing.height", {**args, "days": hole})["value"]["why"] == ["usual"]
    said = call("mowing.height", {**args, "days": week, "recent_mean_c": 12})["value"]
    assert said["why"] == ["usual"]


@pytest.mark.parametrize("wrong", [{"date": "soon"}, {"n_kg_m2": -1}, {"n_kg_m2": None}, {"slow_share": 2}, {"x": 1}])
@pytest.mark.parametrize("also", [{}, {"date": 3, "slow_share": "all"}])
def test_a_wrong_feed_is_named_alike_whoever_is_told_of_it(wrong: dict[str, Any], also: dict[str, Any]) -> None:
    feed = {"date": on(10), "n_kg_m2": 0.004} | also | wrong
    weather, cut = [{name: one[name] for name in ("date", "mean_c")} for one in days(15)], {"cut": on(40), "cut_mm": 70}
    yard = call(
        "mowing.forecast",
        {"zones": [], "mows": [], "days": weather, "today": on(0), "feeds": [feed | {"zone_ids": ["z"]}]},
    )
    one = {"turf": "cool", "days": weather, "feeds": [feed]}
    learn = call("mowing.learn", {**one, "seen": []})
    due = call("mowing.next", {**one, **cut, "target_mm": 70})
    facts = [{name: answer["error"][name] for name in ("code", "name", "low", "high")} for answer in (yard, learn, due)]
    assert facts[0] == facts[1] == facts[2]
