"""The bench measures what it says, its ways are what they are called, and ours beats the last rate in it."""

import math

import pytest

from tests.bench.mowing import report, warmth
from tests.bench.mowing.household import Ahead, Cut, cuts, forecast, true_days
from tests.bench.mowing.methods import Fixed, LastRate
from tests.bench.mowing.phone import PHONE, phones
from tests.bench.mowing.truths import Grown, beta, grow, lawn
from tests.bench.mowing.weather import GREENSBORO, SEATTLE, days, hours

CALM = Grown((4.0,) * 200, (0.0,) * 200, ())


def test_the_weather_is_the_packages_own() -> None:
    assert len(days(SEATTLE)) == 1461
    assert len(hours()) == 8760
    assert [sum(day.rain_mm for day in days(SEATTLE) if day.date.year == year) for year in (2012, 2013)] == (
        pytest.approx([1226.0, 828.0], abs=0.05)
    )
    assert len(days(GREENSBORO)) == 730


def test_growth_is_best_at_the_optimum_and_stops_at_both_ends() -> None:
    assert beta(20, 2, 20, 35) == pytest.approx(1.0)
    assert beta(2, 2, 20, 35) == beta(35, 2, 20, 35) == 0.0
    assert 0 < beta(10, 2, 20, 35) < beta(15, 2, 20, 35) < 1


def test_a_lawn_is_the_same_whenever_it_is_lived() -> None:
    on = lawn(3)
    assert on == lawn(3) != lawn(4)
    assert grow(on, days(SEATTLE)) == grow(on, days(SEATTLE))
    assert all(one >= 0 for one in grow(on, days(SEATTLE)).growth_mm)


def test_days_are_counted_until_the_third() -> None:
    on = lawn(1)
    assert true_days(on, CALM, Cut(0, on.target_mm, on.target_mm)) == pytest.approx(on.target_mm / 2 / 4.0)
    assert true_days(on, CALM, Cut(0, on.target_mm, on.target_mm * 1.5)) is None


def test_cuts_are_on_the_household_s_nights_and_every_later_one_has_its_look() -> None:
    on = lawn(5)
    found = cuts(on, grow(on, days(SEATTLE)), days(SEATTLE))
    assert len(found) > 50
    assert {days(SEATTLE)[one.at].date.weekday() for one in found[1:]} == {2, 5}
    assert all(one.look_mm is not None and one.error_mm in (3.0, 8.0) for one in found[1:])


def test_a_forecast_is_the_less_sure_the_further_it_goes() -> None:
    ahead = forecast(SEATTLE, 200, 1)
    sds = [one.sd_c for one in ahead]
    assert sds == sorted(sds)
    offs: dict[int, list[float]] = {1: [], 14: []}
    for at in range(100, 1300, 7):
        for lead in offs:
            offs[lead].append(forecast(SEATTLE, at, 1)[lead - 1].mean_c - days(SEATTLE)[at + lead].mean_c)
    near, far = (math.sqrt(sum(off * off for off in offs[lead]) / len(offs[lead])) for lead in (1, 14))
    assert near < 1.5 < far < 4.0


def test_the_last_rate_goes_on_and_a_fixed_one_never_changes() -> None:
    last, ahead = LastRate(60.0), [Ahead(15, 1, 0, 3)]
    assert last.due(Cut(0, 60, 60), ahead) is None
    last.seen(Cut(0, 60, 60), Cut(5, 60, 60, 80, 3))
    said = last.due(Cut(5, 60, 60), ahead)
    assert said is not None
    assert said.mid == pytest.approx(30 / 4)
    week, fixed = (way.due(Cut(0, 60, 60), ahead) for way in (Fixed(60.0, 38.1 / 7), Fixed(60.0, every=3.5)))
    assert week is not None
    assert fixed is not None
    assert week.mid == pytest.approx(30 / 38.1 * 7)
    assert fixed.mid == 3.5


def test_ours_is_nearer_than_the_last_rate_and_its_range_holds() -> None:
    """The goal of issue 10 on a few lawns; the bench itself takes more of them."""
    rows = [row for seed in (20_100, 20_101, 20_102) for row in report.live(SEATTLE, seed, few=True)]
    later = [row for row in rows if row.looks >= report.FROM_LOOK]
    ours, last = (report.found([row for row in later if row.method == name]) for name in ("ours", report.BESIDE))
    assert ours.count > 100
    assert ours.off <= report.GOAL * last.off
    assert ours.held is not None
    assert 0.70 <= ours.held <= 0.92  # of few lawns; 75 to 85 % over many


def test_readings_bring_the_soil_below_2_degrees() -> None:
    found = {one.what: one for one in warmth.measure(2)}
    assert found["a reading every two weeks, as known that day"].error_c <= warmth.LIMIT_C
    assert found["no readings"].error_c > found["a reading every two weeks, as known that day"].error_c


def test_a_phone_that_knows_the_rain_is_nearer_than_one_that_does_not() -> None:
    """By the call that phones make, on dry lawns nobody waters: what it does not tell that call is not known to it."""
    rows: list[report.Row] = []
    for seed in [seed for seed in range(20_100, 20_140) if not lawn(seed).waters][:3]:
        on, weather = lawn(seed), days(SEATTLE)
        grown = grow(on, weather)
        ways = phones(on, SEATTLE, weather, grown)
        done = cuts(on, grown, weather)
        for looks, cut in enumerate(done):
            for way in ways.values() if looks else ():
                way.seen(done[looks - 1], cut)
            true = true_days(on, grown, cut)
            if looks < 8 or looks % 6 or true is None or not 0 < true <= 45 or cut.at + 60 > len(weather):
                continue
            ahead = forecast(SEATTLE, cut.at, seed)
            for name in (PHONE + "feeds and rain", PHONE + "neither"):
                said = ways[name].due(cut, ahead)
                assert said is not None
                rows.append(report.Row(SEATTLE, name, looks, said, true))
    told, untold = (
        report.found([row for row in rows if row.method == PHONE + name]) for name in ("feeds and rain", "neither")
    )
    assert told.count > 20
    assert told.off < 0.9 * untold.off
