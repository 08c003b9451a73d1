"""What must hold of every feed: nothing is lost, warmth hastens it, and what shows lies between its two days."""

from datetime import date, timedelta
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.properties.asking import value

Json = dict[str, Any]
FED = date(2026, 4, 1)
KINDS = ("soluble", "sulfur_coated", "polymer_coated", "condensed", "ibdu", "natural")
SOIL = st.lists(st.floats(-5, 32), min_size=1, max_size=120)
FEED = st.fixed_dictionaries(
    {"n_kg_m2": st.floats(0, 0.005), "slow_n_share": st.floats(0, 1), "source": st.sampled_from(KINDS)}
)


def days(soil: list[float]) -> list[Json]:
    return [{"date": str(FED + timedelta(at)), "soil_c": one} for at, one in enumerate(soil)]


def release(feed: Json, soil: list[float]) -> Json:
    return value("feeding.release", applied=str(FED), days=days(soil), **feed)


@given(FEED, SOIL)
def test_nothing_is_lost_and_nothing_comes_from_nowhere(feed: Json, soil: list[float]) -> None:
    found = release(feed, soil)
    free = sum(one["n_kg_m2"] for one in found["daily"])
    assert all(one["n_kg_m2"] >= 0 for one in found["daily"])
    assert found["left_kg_m2"] >= -1e-12
    assert free + found["left_kg_m2"] == pytest.approx(feed["n_kg_m2"], abs=1e-12)
    assert free == pytest.approx(found["free_kg_m2"], abs=1e-12)


@given(FEED, SOIL, st.floats(0, 8))
def test_warmer_soil_never_frees_less(feed: Json, soil: list[float], more: float) -> None:
    warmer = [one + more for one in soil]
    assert release(feed, warmer)["free_kg_m2"] >= release(feed, soil)["free_kg_m2"] - 1e-12


@given(FEED, SOIL, st.floats(0, 8))
def test_colour_comes_between_its_two_days_and_never_later_for_warmth(
    feed: Json, soil: list[float], more: float
) -> None:
    args = {"source": feed["source"], "slow_n_share": feed["slow_n_share"], "applied": str(FED)}
    cool = value("feeding.green_up", days=days(soil), **args)
    warm = value("feeding.green_up", days=days([one + more for one in soil]), **args)
    if cool["to"] is not None:
        assert cool["from"] <= cool["to"]
        assert warm["to"] is not None
        assert warm["to"] <= cool["to"]
    if cool["from"] is not None:
        assert warm["from"] <= cool["from"]


@given(st.lists(FEED, max_size=4), st.lists(st.floats(0, 30), min_size=10, max_size=60))
def test_what_is_free_of_a_zone_is_what_its_feeds_free(feeds: list[Json], soil: list[float]) -> None:
    today = str(FED + timedelta(len(soil) - 1))
    rows = [feed | {"zone": "z", "applied": str(FED + timedelta(at))} for at, feed in enumerate(feeds)]
    found = value("feeding.available", feeds=rows, days=days(soil), today=today)["zones"]
    alone = [value("feeding.release", days=days(soil), **{k: v for k, v in row.items() if k != "zone"}) for row in rows]
    if feeds:
        assert found[0]["free_kg_m2"] == pytest.approx(sum(one["free_kg_m2"] for one in alone), abs=1e-12)
        assert found[0]["left_kg_m2"] == pytest.approx(sum(one["left_kg_m2"] for one in alone), abs=1e-12)
