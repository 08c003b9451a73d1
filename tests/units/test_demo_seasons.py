"""The demo household lives where grass grows on the day of loading, and does its jobs in months that suit them."""

import uuid
from datetime import UTC, date, datetime, time, timedelta
from typing import Any

import pytest

from lawn.demo.calendar import Calendar, months_before
from lawn.demo.scenario import FILE, Scenario
from lawn.units import registry
from tests.units.demo_log import DAYS, Played

TODAY = date(2027, 2, 3)
# Months in which the jobs are done, January 1 to December 12, north of the equator; south of it half a year away.
# Jobs of cool-season lawns by the extension sources of fixtures/published; what a label leaves open, common practice.
NORTHERN_MONTHS = {
    "mow": {4, 5, 6, 7, 8, 9, 10, 11},
    "pre_emergent": {4},
    "fertilizer": {5, 9, 10},
    "seed": {8, 9},
    "lime": {10, 11},
}


def months_on_the_spot(scenario: Scenario, northern: set[int]) -> set[int]:
    """Months in which a job is done where the household lives, by the latitude it is loaded with."""
    ((household, *_), *_) = scenario.settings(uuid.UUID(int=0))
    latitude_deg = household["set"]["place"]["latitude_deg"]
    assert abs(latitude_deg) == 41.6
    return northern if latitude_deg > 0 else {(month + 5) % 12 + 1 for month in northern}


def month_of(row: dict[str, Any]) -> int:
    return date.fromisoformat(row["occurred_at"][:10]).month


def test_grass_grows_where_the_household_lives_on_the_day_of_loading(played: Played) -> None:
    scenario, _, today = played
    assert today.month in months_on_the_spot(scenario, NORTHERN_MONTHS["mow"] - {11})


def test_nothing_is_mown_or_spread_in_the_months_of_frost(played: Played) -> None:
    scenario, rows, _ = played
    frost = months_on_the_spot(scenario, {12, 1, 2, 3})
    done = {month_of(row) for row in rows if row["kind"] in ("mow", "spread", "pass")}
    assert done
    assert not done & frost


def test_every_walk_is_in_a_month_that_suits_its_product(played: Played) -> None:
    scenario, rows, _ = played
    jobs = [row for row in rows if row["kind"] == "spread"]
    assert {row["sort"] for row in jobs} == {"fertilizer", "pre_emergent", "seed", "lime"}
    for row in jobs:
        assert month_of(row) in months_on_the_spot(scenario, NORTHERN_MONTHS[row["sort"]]), row["occurred_at"]


def test_the_log_tells_fourteen_months_in_order_and_ends_the_day_before(played: Played) -> None:
    _, rows, today = played
    moments = [datetime.fromisoformat(row["occurred_at"]) for row in rows]
    assert moments == sorted(moments)
    months = (today.year - moments[0].year) * 12 + today.month - moments[0].month
    assert (months, moments[0].day) == (14, today.day) or (months, today.month) == (14, 4)
    assert moments[-1].date() == today - timedelta(days=1)
    assert moments[-1] < datetime.combine(today, time.min, UTC)


def test_a_log_of_a_day_that_its_first_month_lacks_begins_on_that_months_last_day() -> None:
    assert months_before(date(2027, 4, 30), 14) == date(2026, 2, 28)
    assert months_before(date(2028, 2, 29), 14) == date(2026, 12, 29)
    assert months_before(date(2027, 1, 31), 14) == date(2025, 11, 30)
    assert months_before(date(2028, 1, 31), 1) == date(2027, 12, 31)


def test_every_day_of_four_years_is_a_growing_day_of_the_scenario() -> None:
    raw = Scenario(TODAY).raw
    first, last = (date.fromisoformat(raw["grows"][end]) for end in ("from", "until"))
    for number in range(4 * 365 + 1):
        today = date(2026, 1, 1) + timedelta(days=number)
        calendar = Calendar(raw, today)
        assert first <= calendar.nominal_today <= last, today
        assert calendar.southern == (not (4, 15) <= (today.month, today.day) <= (10, 14)), today


def test_its_texts_name_no_month_since_half_of_the_year_they_would_be_wrong() -> None:
    months = {date(2027, month, 1).strftime("%B") for month in range(1, 13)} - {"May", "March"}
    text = FILE.read_text(encoding="utf-8").split('"household"', 1)[1]
    assert not [month for month in months if month in text]


def test_every_job_told_is_in_the_log_of_some_day() -> None:
    raw = Scenario(TODAY).raw
    days = [Scenario(day).calendar for day in DAYS]
    for row in [*raw["jobs"], *raw["tray_tests"], *raw["observations"]]:
        assert any(calendar.tells(date.fromisoformat(row["on"])) for calendar in days), row["on"]


def test_the_shed_begins_with_what_was_bought_before_the_log(played: Played) -> None:
    """Half a bag of Steady stood there; of the rest, what was bought and not yet put down."""
    scenario, rows, _ = played
    first = rows[0]["occurred_at"][:10]
    counted = {
        row["product_id"]: row["left_kg"]
        for row in rows
        if row["kind"] == "stock_count" and row["occurred_at"].startswith(first)
    }
    assert counted[scenario.product_id("steady")] == pytest.approx(registry.convert("22", "lb"), rel=1e-12)
    assert min(counted.values()) >= 0.0


def test_seed_just_sown_is_not_mown(played: Played) -> None:
    _, rows, _ = played
    (sown,) = [row for row in rows if row["kind"] == "spread" and row["sort"] == "seed"]
    day = date.fromisoformat(sown["occurred_at"][:10])
    for row in rows:
        if row["kind"] == "mow" and set(row["zone_ids"]) & set(sown["zone_ids"]):
            assert not 0 < (date.fromisoformat(row["occurred_at"][:10]) - day).days <= 28
