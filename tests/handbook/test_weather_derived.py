"""What the reference works out from published methods: growth potential, degree days, soil warmth, water."""

import math
from collections.abc import Sequence
from itertools import pairwise
from typing import Any

import pytest

from lawn.engine.core.numeric import whole_down
from lawn.engine.door import call
from lawn.engine.warmth.response import response
from lawn.engine.warmth.soil import running_mean_c
from lawn.engine.watering import balance
from tests.handbook import seattle

POUND_KFT2 = 0.45359237 / 92.90304
GP_F = [35, 40, 45, 50, 55, 60, 65, 70, 75, 80, 85, 90, 95, 100, 105]
GP_F_COOL = [
    0.0043, 0.0198, 0.071, 0.1979, 0.4296, 0.7261, 0.956, 0.9802, 0.7827, 0.4868, 0.2357, 0.0889, 0.0261, 0.006, 0.0011,
]  # fmt: skip
GP_F_PLATEAU = [0.0001, 0.0003, 0.0016, 0.0066, 0.0228, 0.0657, 0.1593, 0.3247, 0.5561, 0.8007, 0.9692, 1, 1, 1, 1]
GP_C = [0, 5, 10, 15, 20, 25, 30, 35, 40]
GP_C_COOL = [0.0013, 0.0243, 0.1915, 0.6615, 1, 0.6615, 0.1915, 0.0243, 0.0013]
GP_C_PLATEAU = [0.0001, 0.001, 0.0111, 0.0734, 0.2909, 0.6926, 0.9898, 1, 1]
TWO_SETS = {0: (0.0013, 0.0015), 10: (0.1915, 0.1979), 25: (0.6615, 0.667), 30: (0.1915, 0.1979)}
SEATTLE_2014_C = [6.848, 5.418, 9.166, 11.095, 15.044, 16.673, 20.663, 20.639, 18.198, 14.423, 7.77, 7.374]
SEATTLE_2014_N = [0.057, 0.03, 0.144, 0.27, 0.666, 0.833, 0.993, 0.993, 0.948, 0.598, 0.084, 0.072]
SIX_DAYS = [(95, 70), (90, 40), (60, 35), (88, 62), (48, 30), (86, 50)]
SIX_BY = {"simple": [32.5, 15, 0, 25, 0, 18], "clipped": [32.5, 20, 5, 25, 0, 18], "modified": [28, 18, 5, 24, 0, 18]}
FROM_JANUARY = (70, 130, 140, 145, 150, 180, 200)
FROM_FEBRUARY = (250, 500)
SEATTLE_DATES = {
    2012: ("05-06 05-14 05-15 05-16 05-16 05-23 05-26", "03-12 04-02"),
    2013: ("04-24 05-04 05-05 05-05 05-06 05-07 05-09", "03-06 03-23"),
    2014: ("04-21 05-03 05-06 05-07 05-08 05-13 05-14", "03-05 03-19"),
    2015: ("03-26 04-20 04-21 04-27 04-27 05-03 05-07", "03-04 03-17"),
}
SEATTLE_BASE_0 = {2012: 4134.65, 2013: 4431.65, 2014: 4691.3, 2015: 4793.3}
STEP = [5.0] * 11 + [16.0] * 11
STEP_MEANS = [5.0] * 11 + [6.8333, 8.5, 10, 11.3333, 12.5, 13.5, 14.3333, 15, 15.5, 15.8333, 16]
SEATTLE_SOIL = {
    0: 9.377, 5: 7.411, 10: 6.466, 30: 6.845, 60: 5.298, 90: 8.655, 120: 11.609, 180: 14.85, 240: 16.517, 300: 9.701,
}  # fmt: skip
SEATTLE_WEIGHTED = {
    0: 8.9, 5: 6.443, 10: 5.262, 30: 5.735, 60: 3.802, 90: 7.998, 120: 11.69, 180: 15.742, 240: 17.825, 300: 9.305,
}  # fmt: skip
TRIGGERS = {50: "2012-04-12", 55: "2012-05-16", 57: "2012-05-17", 60: "2012-07-09"}
SEATTLE_ET = [17.34, 23.11, 50.46, 77.72, 115.1, 126.11, 158.32, 131.24, 84.88, 45.68, 20.8, 15.47]
SEATTLE_RAIN = [94, 155.2, 240, 106.1, 80, 18.8, 19.6, 46, 56.7, 171.5, 123.1, 121.8]
WEEK_ET = [4.2, 5, 5.6, 3.9, 4.4, 6.1, 5.8]
HOLDS_LOW_HIGH = {
    "sand": (0.05, 0.11), "loamy_sand": (0.06, 0.12), "sandy_loam": (0.11, 0.15), "loam": (0.13, 0.18),
    "silt_loam": (0.13, 0.19), "silt": (0.16, 0.2), "silty_clay_loam": (0.13, 0.18), "silty_clay": (0.13, 0.19),
    "clay": (0.12, 0.2),
}  # fmt: skip


def celsius(fahrenheit: float) -> float:
    return (fahrenheit - 32) / 1.8


def answer(name: str, **args: Any) -> dict[str, Any]:
    given = call(name, args)
    assert "value" in given, given
    value: dict[str, Any] = given["value"]
    return value


def test_growth_potential_in_celsius() -> None:
    for mean, cool, warm in zip(GP_C, GP_C_COOL, GP_C_PLATEAU, strict=True):
        for turf, wanted in (("cool", cool), ("warm", warm)):
            found = answer("feeding.growth_potential", mean_c=mean, turf=turf)["potential"]
            assert found == pytest.approx(wanted, abs=5e-5)


def test_growth_potential_with_the_constants_in_fahrenheit() -> None:
    """Widths of 10 and 12 F are from memory; ours are those printed in Celsius, and the curve is the same."""
    for mean, cool, warm in zip(GP_F, GP_F_COOL, GP_F_PLATEAU, strict=True):
        assert response(mean, 68, 10) == pytest.approx(cool, abs=5e-5)
        assert response(mean, 88, 12, plateau=True) == pytest.approx(warm, abs=5e-5)


def test_the_two_sets_of_constants_differ_a_little() -> None:
    for mean, (in_celsius, in_fahrenheit) in TWO_SETS.items():
        assert response(mean, 20, 5.5) == pytest.approx(in_celsius, abs=5e-5)
        assert response(mean * 1.8 + 32, 68, 10) == pytest.approx(in_fahrenheit, abs=5e-5)


@pytest.mark.parametrize("mean", [31, 34, 38])
def test_warm_season_grass_stays_at_its_best_in_heat(mean: float) -> None:
    assert answer("feeding.growth_potential", mean_c=mean, turf="warm") == {"potential": 1.0, "reading": "good"}


def test_the_nitrogen_of_seattle_by_month() -> None:
    monthly = [sum(month) / len(month) for month in seattle.by_month(2014, seattle.means(2014))]
    assert monthly == pytest.approx(SEATTLE_2014_C, abs=6e-4)
    found = answer("feeding.month_needs", monthly_mean_c=monthly, turf="cool", n_max_month_kg_m2=POUND_KFT2)
    assert [n / POUND_KFT2 for n in found["n_kg_m2"]] == pytest.approx(SEATTLE_2014_N, abs=6e-4)
    assert found["n_year_kg_m2"] / POUND_KFT2 == pytest.approx(5.69, abs=6e-3)


def by_method(days: Sequence[tuple[float, float]], method: str, **more: float) -> list[float]:
    rows = [{"min_c": celsius(low), "max_c": celsius(high)} for high, low in days]
    found = answer("warmth.degree_days", days=rows, base_c=10.0, method=method, **more)
    return [one * 1.8 for one in found["daily"]]


def test_degree_days_by_three_methods() -> None:
    assert by_method(SIX_DAYS, "mean") == pytest.approx(SIX_BY["simple"], abs=1e-9)
    assert by_method(SIX_DAYS, "modified") == pytest.approx(SIX_BY["clipped"], abs=1e-9)
    assert by_method(SIX_DAYS, "modified", upper_c=30.0) == pytest.approx(SIX_BY["modified"], abs=1e-9)


def first_days(year: int, base_f: float, count_from: str, thresholds: tuple[int, ...]) -> list[str]:
    days = [{name: day[name] for name in ("date", "min_c", "max_c")} for day in seattle.year(year)]
    found = answer("warmth.degree_days", days=days, base_c=celsius(base_f), method="mean", count_from=count_from)
    sums, running = [], 0.0
    for one in found["daily"]:
        running += one * 1.8
        sums.append(running)
    reached = [next(at for at, one in enumerate(sums) if one >= limit - 1e-9) for limit in thresholds]
    return [days[at]["date"] for at in reached]


@pytest.mark.parametrize("year", SEATTLE_DATES)
def test_thresholds_are_reached_on_the_reference_days(year: int) -> None:
    january, february = SEATTLE_DATES[year]
    assert first_days(year, 50, "january", FROM_JANUARY) == [f"{year}-{one}" for one in january.split()]
    assert first_days(year, 32, "february", FROM_FEBRUARY) == [f"{year}-{one}" for one in february.split()]


@pytest.mark.parametrize("year", SEATTLE_BASE_0)
def test_degree_days_over_0_of_a_year(year: int) -> None:
    days = [{name: day[name] for name in ("min_c", "max_c")} for day in seattle.year(year)]
    found = answer("warmth.degree_days", days=days, base_c=0.0, method="mean")
    assert found["total"] == pytest.approx(SEATTLE_BASE_0[year], abs=5e-3)


def test_the_weighted_mean_follows_a_step() -> None:
    assert [running_mean_c(STEP, at, 11.0) for at in range(22)] == pytest.approx(STEP_MEANS, abs=5e-5)


def test_soil_of_seattle_by_the_published_mean() -> None:
    air = seattle.means(2012)
    mean = sum(air) / len(air)
    assert mean == pytest.approx(11.2832, abs=5e-5)
    found = answer("warmth.soil", days=[{"mean_c": one} for one in air], annual_mean_c=mean)
    for at, wanted in SEATTLE_SOIL.items():
        assert running_mean_c(air, at, 11.0) == pytest.approx(SEATTLE_WEIGHTED[at], abs=6e-4)
        assert found["daily_c"][at] == pytest.approx(wanted, abs=6e-4)
    for threshold, day in TRIGGERS.items():
        warm = [one >= celsius(threshold) for one in found["daily_c"]]
        third = next(at for at in range(2, len(warm)) if all(warm[at - 2 : at + 1]))
        assert seattle.year(2012)[third]["date"] == day


def test_depth_delays_the_seasons_as_the_annual_sine_does() -> None:
    """Damping depth 2.2403 m, lag 1.3 days and 0.9779 of the swing at 5 cm (okstate_sine): the window goes by it."""
    depth = math.sqrt(2 * 5e-7 / (2 * math.pi / (365 * 86400)))
    assert depth == pytest.approx(2.2403, abs=5e-5)
    assert math.exp(-0.05 / depth) == pytest.approx(0.9779, abs=5e-5)
    lag = 0.05 / depth / (2 * math.pi) * 365
    assert lag == pytest.approx(1.30, abs=5e-3)
    year = [{"mean_c": 10 - 10 * math.cos(2 * math.pi * at / 365)} for at in range(730)]
    shallow, deep = (answer("warmth.soil", days=year, depth_mm=mm)["daily_c"][365:] for mm in (100, 150))
    assert crossing(deep) - crossing(shallow) == pytest.approx(lag, abs=0.05)


def crossing(values: list[float]) -> float:
    """Day, with its part, on which a rising curve passes 10."""
    at, (low, high) = next((at, pair) for at, pair in enumerate(pairwise(values)) if pair[0] < 10 <= pair[1])
    return at + (10 - low) / (high - low)


def test_evapotranspiration_of_seattle_by_month() -> None:
    days = []
    for number, day in enumerate(seattle.year(2014), start=1):
        found = answer(
            "watering.reference_et",
            latitude_deg=47.45,
            elevation_m=130,
            day_of_year=number,
            min_c=day["min_c"],
            max_c=day["max_c"],
        )
        assert found["method"] == "hargreaves"
        days.append(found["et0_mm"])
    assert [sum(month) for month in seattle.by_month(2014, days)] == pytest.approx(SEATTLE_ET, abs=6e-3)
    assert sum(days) == pytest.approx(866.2, abs=0.05)


def test_rain_of_seattle_by_month_is_read_as_it_stands() -> None:
    rain = [day["rain_mm"] for day in seattle.year(2014)]
    assert [sum(month) for month in seattle.by_month(2014, rain)] == pytest.approx(SEATTLE_RAIN, abs=0.05)


def test_a_week_of_turf_water() -> None:
    for turf, wanted in (("cool", 28.0), ("warm", 21.0)):
        days = [{"date": f"2026-07-0{at}", "et0_mm": et, "rain_mm": 0} for at, et in enumerate(WEEK_ET, start=1)]
        found = answer("watering.need", days=days, turf=turf, available_mm_m=200, root_mm=1000)
        assert found["water_mm"] == pytest.approx(wanted, abs=5e-3)


def test_what_soils_hold_lies_in_the_middle_of_the_printed_range() -> None:
    assert set(balance.HOLDS_MM_M) == set(HOLDS_LOW_HIGH)
    for name, (low, high) in HOLDS_LOW_HIGH.items():
        assert balance.HOLDS_MM_M[name] == pytest.approx((low + high) / 2 * 1000)
        six_inches = balance.total_mm(available_mm_m=low * 1000, root_mm=152.4) / 25.4
        assert six_inches == pytest.approx(low * 6)


def test_thirsty_days_leave_less_to_be_used() -> None:
    for use, cool, warm in ((3, 0.48, 0.58), (5, 0.40, 0.50), (7, 0.32, 0.42)):
        assert balance.adjusted_share(balance.MAY_USE["cool"], use) == pytest.approx(cool)
        assert balance.adjusted_share(balance.MAY_USE["warm"], use) == pytest.approx(warm)


INTERVALS = [
    (2.5, 1.5, 5), (3.5, 1.5, 8), (4, 1.5, 9), (2, 1, 7), (2.5, 1, 8), (3, 1, 10), (4, 1, 14), (3, 0.5, 21), (3, 2, 5),
    (3.5, 2.5, 4),
]  # fmt: skip


@pytest.mark.parametrize(("height_in", "week_in", "wanted"), INTERVALS)
def test_days_between_mows_are_those_of_the_handbook_where_the_growth_is_known(
    height_in: float, week_in: float, wanted: int
) -> None:
    """A lawn that was seen to grow so much again and again is forecast by the same division (der-mow-interval)."""
    target, daily = height_in * 25.4, week_in * 25.4 / 7
    dates = [f"2026-{month:02d}-{day:02d}" for month in (5, 6, 7, 8) for day in range(1, 31)]
    days = [{"date": one, "mean_c": 20.0} for one in dates if one < "2026-05-31"]
    seen = [
        {"cut": "2026-04-30", "cut_mm": target, "looked": one, "height_mm": target + daily * at, "error_mm": 0.5}
        for at, one in enumerate(dates[:30], start=1)
        if at % 2 == 0
    ]
    belief = answer("mowing.learn", turf="cool", seen=seen, days=days)["belief"]
    found = answer(
        "mowing.next", turf="cool", target_mm=target, cut="2026-04-30", cut_mm=target, days=days, belief=belief
    )
    assert found["after_days"] == pytest.approx(target / 2 / daily, rel=0.06)
    assert whole_down(target / 2 / daily) == wanted
