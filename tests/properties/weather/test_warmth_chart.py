"""Laws of the chart of soil warmth: how sure coming days are, and the day on which a mark is passed."""

import math
from datetime import date, timedelta
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.properties.asking import value

TODAY = date(2026, 3, 1)
BACK, AHEAD = 30, 120
JOBS = ["pre_emergent", "feed_warm", "seed_cool"]


def rows(air: list[float], sds: list[float] | None = None) -> list[dict[str, Any]]:
    """Days from 30 before today on."""
    first = TODAY - timedelta(days=BACK)
    return [
        {"date": (first + timedelta(days=at)).isoformat(), "mean_c": one, **({"sd_c": sds[at]} if sds else {})}
        for at, one in enumerate(air)
    ]


def chart(days: list[dict[str, Any]], **more: Any) -> dict[str, Any]:
    first = (TODAY - timedelta(days=BACK)).isoformat()
    return value("warmth.chart", days=days, today=TODAY.isoformat(), first=first, jobs=JOBS, **more)


def warming(start: float, step: float) -> list[float]:
    return [start + step * at for at in range(BACK + 1 + AHEAD)]


def beyond(days: list[dict[str, Any]], of: str, mark: float, upward: bool) -> str | None:
    """The same by another way: a window of three over the days from today on, or from a turn a month ahead."""
    coming = [row for row in days if row["date"] >= TODAY.isoformat()]
    mids = np.array([row["mid"] for row in coming])
    over = (mids >= mark) == upward
    passed = [at for at in range(len(over) - 2) if over[at : at + 3].all()]
    way = mids[: passed[0] if passed else None] * (1 if upward else -1)
    turn = int(way.argmin()) if len(way) else 0
    past = np.array([(row[of] >= mark) == upward for row in coming])
    for at in range(turn if turn >= 30 and of != "mid" else 0, len(past) - 2):
        if past[at : at + 3].all():
            return str(coming[at]["date"])
    return None


@settings(max_examples=25)
@given(start=st.floats(-5, 25), step=st.floats(-0.2, 0.2), wave=st.floats(0, 6), every=st.integers(4, 40))
def test_a_mark_is_passed_on_the_first_of_three_days_beyond_it_and_its_range_lies_around_that(
    start: float, step: float, wave: float, every: int
) -> None:
    air = [one + wave * math.sin(2 * math.pi * at / every) for at, one in enumerate(warming(start, step))]
    found = chart(rows(air))
    assert len(found["marks"]) == 5
    for mark in found["marks"]:
        below = found["now"]["mid"] < mark["mid"]
        assert mark["now"] == ("below" if below else "above")
        of = {"passes": "mid", "earliest": "high" if below else "low", "latest": "low" if below else "high"}
        assert {name: mark[name] for name in of} == {
            name: beyond(found["days"], one, mark["mid"], below) for name, one in of.items()
        }
        if mark["passes"]:
            assert mark["earliest"] <= mark["passes"] <= (mark["latest"] or mark["passes"])


def test_a_mark_that_is_not_reached_and_a_today_that_is_not_known_have_no_day() -> None:
    assert {mark["passes"] for mark in chart(rows([2.0] * 151))["marks"]} == {None}
    assert {mark["now"] for mark in chart(rows([2.0] * 20))["marks"]} == {None}


def test_two_warm_days_do_not_pass_a_mark() -> None:
    shown = chart(rows(warming(0.0, 0.1)))
    opens = shown["marks"][0]
    at = [row["date"] for row in shown["days"]].index(opens["passes"])
    assert all(row["mid"] >= opens["mid"] for row in shown["days"][at : at + 3])
    assert shown["days"][at - 1]["mid"] < opens["mid"]


@pytest.mark.parametrize("mean", [7.0, 8.0])
def test_in_autumn_a_mark_just_above_is_not_said_to_be_passed_before_the_winter(mean: float) -> None:
    # A year that is coldest 80 days from today and warm again at its end; the range reaches the mark of 10 °C today.
    air = [mean - 8.0 * math.sin(math.pi * at / 160) + 0.05 * max(0, at - 80) for at in range(-BACK, 241)]
    opens = chart(rows(air, [3.0] * len(air)))["marks"][0]
    assert opens["kind"] == "pre_emergent_opens"
    coldest = (TODAY + timedelta(days=60)).isoformat()
    assert opens["now"] == "below"
    assert coldest < opens["earliest"] < opens["passes"] < (opens["latest"] or "9")


@settings(max_examples=25)
@given(reading=st.floats(1.0, 8.0))
def test_a_warmer_reading_never_passes_a_mark_later(reading: float) -> None:
    days = rows(warming(0.0, 0.1))
    read = {"date": TODAY.isoformat(), "depth_mm": 100.0}
    cold, warm = (
        chart(days, readings=[read | {"c": found}])["marks"][0]["passes"] for found in (reading - 0.5, reading + 4.0)
    )
    assert warm <= cold


def by_matrix(sds: list[float], window: int, at: int) -> float:
    """Variance of the weighted mean as a quadratic form, errors of neighbours going together by 0.7."""
    weights = np.array([window - back for back in range(window)], dtype=float)
    weights /= weights.sum()
    each = np.array([sds[at - back] for back in range(window)])
    apart = np.abs(np.subtract.outer(np.arange(window), np.arange(window)))
    return float(weights @ (np.outer(each, each) * 0.7**apart) @ weights)


@settings(max_examples=25)
@given(sds=st.lists(st.floats(0.5, 5.0), min_size=AHEAD, max_size=AHEAD))
def test_doubt_of_coming_air_widens_the_range_as_its_covariance_says(sds: list[float]) -> None:
    air = warming(5.0, 0.02)
    every = [0.7] * (BACK + 1) + sds
    plain, doubted = chart(rows(air)), chart(rows(air, every))
    coming = [0.0] * (BACK + 1) + [math.sqrt(max(0.0, sd**2 - 0.7**2)) for sd in sds]
    for at in range(len(air)):
        before, after = (found["days"][at]["high"] - found["days"][at]["mid"] for found in (plain, doubted))
        added = by_matrix(coming, 11, at) if at >= 11 else 0.0
        assert after == pytest.approx(math.hypot(before, 1.2815515655446004 * math.sqrt(added)), rel=1e-9)


def test_days_that_were_are_as_sure_with_the_error_of_their_air_as_without() -> None:
    """The published error is that of soil from a station's air: it holds it already."""
    air = warming(5.0, 0.02)
    plain, told = chart(rows(air)), chart(rows(air, [0.7] * len(air)))
    assert told["now"] == plain["now"]


def test_a_reading_settles_the_doubt_of_the_air_before_it_and_of_no_later_day() -> None:
    air = warming(5.0, 0.02)
    unsure = [4.5] * len(air)
    read = [{"date": (TODAY - timedelta(days=20)).isoformat(), "c": 5.0, "depth_mm": 100.0}]
    told, plain = (chart(rows(air, sds), readings=read)["days"] for sds in (unsure, None))
    wider = [one["high"] - other["high"] for one, other in zip(told, plain, strict=True)]
    assert max(wider[: BACK - 20 + 1]) == 0.0
    assert min(wider[BACK - 20 + 1 :]) > 0.0


def test_a_forecast_from_the_climate_alone_is_less_sure_than_one_of_the_service() -> None:
    air = warming(5.0, 0.02)

    def wide(sd: float) -> float:
        last = chart(rows(air, [sd] * len(air)))["days"][-1]
        return float(last["high"] - last["low"])

    assert wide(4.5) > wide(1.5) > wide(0.0)


@pytest.mark.parametrize(
    ("more", "days"),
    [
        ({}, 11),
        ({"readings": [{"date": "2026-01-01", "c": 5, "depth_mm": 50}]}, 8),
    ],  # zheng_1993; 3.9 fewer (okstate_sine)
)
def test_it_says_from_which_day_on_the_air_is_felt(more: dict[str, Any], days: int) -> None:
    said = chart(rows(warming(4.0, 0.05)), **more)
    assert said["felt_from"] == (TODAY - timedelta(days=days - 1)).isoformat()
    colder = warming(4.0, 0.05)
    for back, moves in (
        (days - 1, True),
        (days, False),
    ):  # the air of that day still moves the soil, the one before not
        air = list(colder)
        air[BACK - back] -= 8.0
        assert (chart(rows(air), **more)["now"]["mid"] < said["now"]["mid"] - 1e-9) is moves


def test_where_today_is_not_known_no_air_is_felt() -> None:
    assert chart(rows(warming(4.0, 0.05))[:BACK])["felt_from"] is None
