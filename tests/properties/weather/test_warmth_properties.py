"""Laws of warmth and water, with SciPy's integration and RefET as references from outside."""

import math
from datetime import date, timedelta
from itertools import pairwise
from typing import Any

import numpy as np
import pytest
import refet
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad
from scipy.stats import norm

from lawn.engine.warmth.response import response
from tests.properties.asking import value

warm = st.floats(-20, 40)
span = st.floats(0, 20)
turfs = st.sampled_from(["cool", "warm"])


def total(low: float, high: float, base: float, method: str, **more: float) -> float:
    found = value("warmth.degree_days", days=[{"min_c": low, "max_c": high}], base_c=base, method=method, **more)
    return float(found["total"])


@given(low=warm, width=span, base=st.floats(-5, 20), over=st.floats(1, 20))
def test_degree_days_of_a_sine_are_its_area_by_numeric_integration(
    low: float, width: float, base: float, over: float
) -> None:
    upper = base + max(over, 1.0 - base)  # the upper limit is never below 0
    mean, half = low + width / 2, width / 2

    def counted(turn: float) -> float:
        return min(max(mean + half * math.sin(turn), base), upper) - base

    corners = [math.asin((one - mean) / half) for one in (base, upper) if half > 0 and abs(one - mean) < half]
    points = sorted({*corners, -math.pi / 2, math.pi / 2})  # half a turn is like the other half
    area = sum(quad(counted, start, end, epsabs=1e-11)[0] for start, end in pairwise(points)) / math.pi
    assert total(low, low + width, base, "sine", upper_c=upper) == pytest.approx(area, abs=1e-8)


@given(low=warm, width=span, base=st.floats(-5, 20))
def test_the_methods_agree_where_a_day_stays_above_the_base_and_a_sine_never_gives_less(
    low: float, width: float, base: float
) -> None:
    by = {method: total(low, low + width, base, method) for method in ("mean", "modified", "sine")}
    if low >= base:
        assert by["sine"] == pytest.approx(by["mean"], abs=1e-9)
        assert by["modified"] == pytest.approx(by["mean"], abs=1e-9)
    assert by["sine"] >= by["mean"] - 1e-9
    assert by["modified"] >= by["sine"] - 1e-9


@given(low=warm, width=span, base=st.floats(-5, 15), method=st.sampled_from(["mean", "modified", "sine"]))
def test_a_warmer_day_counts_more_and_a_higher_base_less(low: float, width: float, base: float, method: str) -> None:
    now = total(low, low + width, base, method)
    assert total(low + 1, low + width + 1, base, method) >= now - 1e-9
    assert total(low, low + width, base + 1, method) <= now + 1e-9
    assert total(low, low + width, base, method, upper_c=base + 10) <= now + 1e-9


@given(cold=st.floats(-20, 25), swing=st.floats(0, 30))
def test_the_south_has_the_northern_year_half_a_year_later(cold: float, swing: float) -> None:
    north, south = (
        value("warmth.climate", coldest_c=cold, warmest_c=cold + swing, southern=southern)["daily_mean_c"]
        for southern in (False, True)
    )
    assert south == pytest.approx(north[183:] + north[:183], abs=1e-9)


@given(months=st.lists(st.floats(-20, 35), min_size=12, max_size=12))
def test_a_year_keeps_the_means_of_its_months(months: list[float]) -> None:
    found = value("warmth.climate", monthly_mean_c=months)
    assert found["monthly_mean_c"] == pytest.approx(months, abs=1e-6)
    assert len(found["daily_mean_c"]) == 366


@given(months=st.lists(st.floats(-20, 35), min_size=12, max_size=12), turf=turfs)
def test_the_needs_of_half_a_year_on_are_the_needs_turned(months: list[float], turf: str) -> None:
    north = value("feeding.month_needs", monthly_mean_c=months, turf=turf, n_max_month_kg_m2=0.005)
    south = value("feeding.month_needs", monthly_mean_c=months[6:] + months[:6], turf=turf, n_max_month_kg_m2=0.005)
    assert south["n_kg_m2"] == north["n_kg_m2"][6:] + north["n_kg_m2"][:6]
    assert all(0 <= one <= 0.005 for one in north["n_kg_m2"])


@given(mean=st.floats(-10, 45), spread=st.floats(0.3, 6), optimum=st.sampled_from([17, 20, 31]), plateau=st.booleans())
def test_the_response_to_an_uncertain_warmth_is_the_mean_of_the_responses(
    mean: float, spread: float, optimum: float, plateau: bool
) -> None:
    def weighed(temperature: float) -> float:
        return response(temperature, optimum, 8.0, plateau=plateau) * float(norm.pdf(temperature, mean, spread))

    ends = (mean - 10 * spread, mean + 10 * spread)
    points = [optimum] if ends[0] < optimum < ends[1] else None
    wanted = quad(weighed, *ends, points=points, epsabs=1e-10, limit=200)[0]
    assert response(mean, optimum, 8.0, spread, plateau) == pytest.approx(wanted, abs=1e-7)


airs = st.lists(st.floats(-20, 30), min_size=5, max_size=60)


@given(air=st.floats(-20, 30), count=st.integers(1, 60), depth=st.floats(20, 300))
def test_soil_under_a_steady_air_has_its_temperature_at_any_depth(air: float, count: int, depth: float) -> None:
    found = value("warmth.soil", days=[{"mean_c": air}] * count, depth_mm=depth)
    assert found["daily_c"] == pytest.approx([air] * count, abs=1e-9)
    assert all(1.5 <= one <= 2.9 for one in found["sd_c"])  # the published errors


@given(air=airs, off=st.floats(-6, 6), data=st.data())
def test_a_reading_moves_the_soil_towards_it_and_makes_it_surer(air: list[float], off: float, data: Any) -> None:
    days = [{"mean_c": one} for one in air]
    day = data.draw(st.integers(0, len(air) - 1))
    steady = [{"mean_c": 10.0}] * len(air)  # under a steady air all windows say the same
    plain = value("warmth.soil", days=steady)
    moved = value("warmth.soil", days=steady, readings=[{"day": day, "c": 10.0 + off, "error_c": 0.5}])
    step = moved["daily_c"][day] - 10.0
    assert min(0.0, off) - 1e-12 <= step <= max(0.0, off) + 1e-12
    assert all(one <= other + 1e-12 for one, other in zip(moved["sd_c"], plain["sd_c"], strict=True))
    assert len(value("warmth.soil", days=days)["daily_c"]) == len(air)


@given(off=st.floats(1, 6))
def test_a_reading_is_forgotten_within_four_weeks_or_so(off: float) -> None:
    found = value("warmth.soil", days=[{"mean_c": 10.0}] * 100, readings=[{"day": 0, "c": 10.0 + off}])
    first = found["daily_c"][0] - 10.0
    assert found["daily_c"][28] - 10.0 == pytest.approx(first * math.exp(-1), rel=1e-6)
    assert found["daily_c"][84] - 10.0 < 0.06 * first


days_of_weather = st.fixed_dictionaries(
    {
        "latitude_deg": st.floats(-60, 60),
        "elevation_m": st.floats(0, 2500),
        "day_of_year": st.integers(1, 366),
        "min_c": st.floats(-5, 22),
        "range": st.floats(3, 18),
        "dew": st.floats(0, 8),
        "wind_m_s": st.floats(0.5, 8),
        "clear": st.floats(0.35, 0.95),
    }
)


@given(day=days_of_weather)
def test_penman_monteith_is_that_of_an_outside_library(day: dict[str, Any]) -> None:
    """RefET (ASCE-EWRI 2005 with the simple clear sky): a grass reference of the same equation."""
    given_day = {name: day[name] for name in ("latitude_deg", "elevation_m", "day_of_year", "min_c", "wind_m_s")}
    given_day |= {"max_c": day["min_c"] + day["range"], "dew_point_c": day["min_c"] - day["dew"]}
    top = value("watering.reference_et", **given_day)["top_radiation_mj_m2"]
    if top < 3.0:  # RefET bounds the clouds' share near the polar night, the handbook does not
        return
    sun = day["clear"] * (0.75 + 2e-5 * day["elevation_m"]) * top
    ours = value("watering.reference_et", **given_day, radiation_mj_m2=sun)
    theirs = refet.Daily(
        tmin=given_day["min_c"],
        tmax=given_day["max_c"],
        tdew=given_day["dew_point_c"],
        rs=sun,
        uz=day["wind_m_s"],
        zw=2.0,
        elev=day["elevation_m"],
        lat=day["latitude_deg"],
        doy=day["day_of_year"],
        method="asce",
        rso_type="simple",
    ).eto()
    assert ours["estimated"] == []
    assert ours["et0_mm"] == pytest.approx(max(0.0, float(np.asarray(theirs).item())), abs=0.02)


@given(day=days_of_weather)
def test_drier_and_windier_air_takes_more_water(day: dict[str, Any]) -> None:
    args = {name: day[name] for name in ("latitude_deg", "elevation_m", "day_of_year", "min_c")}
    args["max_c"] = day["min_c"] + day["range"]
    damp, dry = (
        value("watering.reference_et", **args, dew_point_c=day["min_c"] - off, wind_m_s=3.0, radiation_mj_m2=12.0)
        for off in (0.0, 6.0)
    )
    # drier air also lets more heat escape, which takes a little less back
    assert dry["et0_mm"] >= damp["et0_mm"] - 0.3
    assert value("watering.reference_et", **args)["method"] == "hargreaves"


@given(
    rain=st.lists(st.floats(0, 20), min_size=1, max_size=40),
    et=st.floats(0, 9),
    root=st.floats(50, 600),
    turf=turfs,
    more=st.floats(0, 15),
)
def test_water_is_kept_within_the_root_zone_and_more_of_it_never_leaves_less(
    rain: list[float], et: float, root: float, turf: str, more: float
) -> None:
    dates = [(date(2026, 5, 1) + timedelta(at)).isoformat() for at in range(len(rain))]
    days = [{"date": on, "et0_mm": et, "rain_mm": one} for on, one in zip(dates, rain, strict=True)]
    wetter = [{**one, "watered_mm": more} for one in days]
    dry, wet = (value("watering.need", days=one, turf=turf, soil="loam", root_mm=root) for one in (days, wetter))
    assert all(0 <= one <= dry["holds_mm"] + 1e-9 for one in dry["depletion_mm"])
    assert all(0 <= one <= 1 for one in dry["water_share"])
    assert all(w <= d + 1e-9 for w, d in zip(wet["depletion_mm"], dry["depletion_mm"], strict=True))
