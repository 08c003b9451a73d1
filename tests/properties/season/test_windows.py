"""Windows date themselves by warmth: the same on both halves of the globe, half a year apart."""

import json
from datetime import date, timedelta
from itertools import pairwise
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.properties.season.skeletons import FOLDER, KEYS, MONTHS, daily, skeleton, windows

HALF = 183
NAMES = ("sources", "engine_sources")
KNOWN = {key for name in NAMES for key in json.loads((FOLDER / f"{name}.json").read_text())["sources"]}
SOIL = {"measure": "soil", "way": "up"}


@pytest.mark.parametrize("key", KEYS)
def test_every_row_of_a_skeleton_names_its_sources(key: str) -> None:
    for row in skeleton(key)["jobs"]:
        assert row["sources"], row
        assert set(row["sources"]) <= KNOWN | {"common practice"}, row
        assert row["window"], row
        assert row["figures"], row


@pytest.mark.parametrize("key", KEYS)
def test_the_shares_of_a_year_add_up_to_the_year(key: str) -> None:
    table = skeleton(key)
    for turf in table["turf"]:
        feeds = [row for row in table["jobs"] if row["sort"] == "feed" and row.get("turf", turf) == turf]
        aims = {share["aim_lb_kft2"] for row in feeds for share in row["shares"]}
        for aim in aims:
            shares = [next(one["share"] for one in row["shares"] if one["aim_lb_kft2"] == aim) for row in feeds]
            assert sum(shares) == pytest.approx(1.0), (key, aim)


@pytest.mark.parametrize("key", KEYS)
def test_a_place_of_its_kind_has_every_window_of_its_skeleton(key: str) -> None:
    table = skeleton(key)
    for turf in table["turf"]:
        found = windows(daily(MONTHS[key]), table["jobs"], "2026-01-01", turf)
        assert {name for name, row in found.items() if row["state"] == "never"} == set()
        for row in found.values():
            assert row["opens"] <= row["closes"]
            assert row["closes"] >= "2026-01-01"


@given(st.sampled_from(KEYS), st.dates(date(2024, 1, 1), date(2030, 12, 31)))
@settings(max_examples=25, deadline=None)
def test_the_south_is_the_north_half_a_year_on(key: str, first: date) -> None:
    """To within the day that 29 February makes, and those on which a window of this year or of the next is meant."""
    table = skeleton(key)
    year = daily(MONTHS[key])
    turned = year[HALF:] + year[:HALF]
    here = windows(year, table["jobs"], first.isoformat())
    there = windows(turned, table["jobs"], (first + timedelta(HALF)).isoformat())
    for name, row in here.items():
        assert row["state"] == there[name]["state"]
        if row["state"] == "never":
            continue
        ends = [[date.fromisoformat(place[end]) for place in (there[name], row)] for end in ("opens", "closes")]
        moved = [abs(((south - north).days - HALF + 100) % 365 - 100) for south, north in ends]
        by_month = "month" in {_row(table, name)[end]["measure"] for end in ("opens", "closes")}
        assert max(moved) <= (4 if by_month else 2), (name, row, there[name])


def _row(table: dict[str, Any], name: str) -> dict[str, Any]:
    found: dict[str, Any] = next(row for row in table["jobs"] if row["job"] == name)
    return found


@given(st.floats(-10, 12), st.floats(14, 30), st.lists(st.floats(2, 20), min_size=2, max_size=6))
@settings(max_examples=25, deadline=None)
def test_a_warmer_mark_is_reached_later_on_the_way_up(cold: float, warm: float, marks: list[float]) -> None:
    year = daily([cold + (warm - cold) * (1 - abs(month - 6) / 6) for month in range(12)])
    marks = sorted(marks)
    jobs = [
        {"job": str(at), "opens": {**SOIL, "edge_c": mark}, "closes": {"measure": "opened", "shift_days": 0}}
        for at, mark in enumerate(marks)
    ]
    found = windows(year, jobs, "2026-01-01")
    dated = [found[str(at)]["opens"] for at in range(len(marks)) if found[str(at)]["state"] == "dated"]
    assert all(one <= other for one, other in pairwise(dated))


def test_a_window_that_is_open_on_the_first_day_is_that_one_and_a_closed_one_the_next_year_s() -> None:
    jobs = [{"job": "pre", "opens": {**SOIL, "edge_c": 10}, "closes": {**SOIL, "edge_c": 12.8}}]
    year = daily(MONTHS["a"])
    before, during, after = (windows(year, jobs, day)["pre"] for day in ("2026-01-15", "2026-04-25", "2026-06-01"))
    assert before["opens"] == during["opens"] < "2026-04-25" <= during["closes"]
    assert after["opens"][:4] == "2027"


def test_soil_that_may_be_off_makes_a_window_early_or_late() -> None:
    jobs = [{"job": "pre", "opens": {**SOIL, "edge_c": 10}, "closes": {**SOIL, "edge_c": 12.8}}]
    row = windows(daily(MONTHS["a"]), jobs, "2026-01-15")["pre"]
    assert row["opens_early"] < row["opens"] < row["opens_late"]
    assert row["closes_early"] < row["closes"] < row["closes_late"]


def test_a_year_that_never_gets_there_says_so() -> None:
    jobs = [{"job": "warm", "opens": {**SOIL, "edge_c": 30}, "closes": {**SOIL, "edge_c": 32}}]
    row = windows(daily(MONTHS["e"]), jobs, "2026-01-15")["warm"]
    assert row["state"] == "never"
    assert row["opens"] is None
