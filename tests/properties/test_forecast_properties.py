"""The forecast of a yard is learning and asking zone by zone, and no more than the log and the weather tell."""

from datetime import date, timedelta
from typing import Any

from hypothesis import given
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
    assert [said[name] for name in ("mow_by", "earliest", "latest", "state")] == [
        alone[name] for name in ("mow_by", "earliest", "latest", "state")
    ]


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
