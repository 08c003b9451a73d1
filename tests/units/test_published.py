"""The published tables: every row says where it comes from, and its conversions hold."""

import json
import statistics
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest

from lawn.units import UNITS_FILE

FOLDER = UNITS_FILE.parent / "published"
# The tables the phone ships; worked examples stand in the same folder, with sources of their own.
NAMES = ("bulk_density", "cautions", "grasses", "limits", "signal_words", "tray_tests")
TABLES = [FOLDER / f"{name}.json" for name in NAMES]
SOURCES = json.loads((FOLDER / "sources.json").read_text(encoding="utf-8"))["sources"]
UNPUBLISHED = {"common practice", "from memory", "computed"}


def read(path: Path) -> Any:
    return json.loads(path.read_text(encoding="utf-8"))


def rows_within(value: Any) -> Iterator[dict[str, Any]]:
    """Every object of a table's lists, at any depth."""
    if isinstance(value, dict):
        for inner in value.values():
            yield from rows_within(inner)
    elif isinstance(value, list):
        for item in value:
            if isinstance(item, dict):
                yield item
                yield from rows_within(item)


def keys_of(row: dict[str, Any]) -> list[str]:
    return [*row.get("sources", []), *row.get("season_sources", [])]


@pytest.mark.parametrize("path", TABLES, ids=lambda path: path.name)
def test_every_row_names_a_known_source_or_says_it_has_none(path: Path) -> None:
    rows = list(rows_within(read(path)))
    assert rows
    for row in rows:
        assert keys_of(row), row
        assert set(keys_of(row)) <= SOURCES.keys() | UNPUBLISHED, row


def test_every_source_is_used_and_titled() -> None:
    used = {key for path in TABLES for row in rows_within(read(path)) for key in keys_of(row)}
    assert used - UNPUBLISHED == SOURCES.keys()
    assert all(source["title"] and source["institution"] for source in SOURCES.values())


def test_heights_of_cut_are_the_printed_inches() -> None:
    for grass in read(FOLDER / "grasses.json")["grasses"]:
        for row in grass["cut_rows"]:
            assert row["low_mm"] == pytest.approx(row["low_in"] * 25.4, rel=1e-6)
            assert row["high_mm"] == pytest.approx(row["high_in"] * 25.4, rel=1e-6)
            assert 0 < row["low_mm"] < row["high_mm"]


def test_the_range_shown_spans_what_home_lawn_sources_print() -> None:
    for grass in read(FOLDER / "grasses.json")["grasses"]:
        home = [row for row in grass["cut_rows"] if row["home_lawn"]]
        spans = {"low": min(r["low_mm"] for r in home), "high": max(r["high_mm"] for r in home)} if home else None
        assert grass["cut_mm"] == spans


# Printed for tall fescue by Oregon State University (key osu_tallfescue) and for a year's nitrogen by the
# University of Illinois (key illinois_n): 2 to 3 in, 2 to 4 lb per 1,000 square feet.
def test_tall_fescue_stands_as_printed() -> None:
    fescue = next(g for g in read(FOLDER / "grasses.json")["grasses"] if g["key"] == "tall_fescue")
    oregon = next(r for r in fescue["cut_rows"] if r["sources"] == ["osu_tallfescue"])
    assert (fescue["season"], oregon["low_in"], oregon["high_in"]) == ("cool", 2, 3)
    (illinois,) = fescue["nitrogen_year_rows"]
    assert (illinois["low_lb_kft2"], illinois["high_lb_kft2"]) == (2, 4)


def test_nitrogen_and_phosphate_masses_are_the_printed_pounds() -> None:
    pound_per_kft2 = 0.45359237 / 92.90304  # exact, NIST SP 811
    limits = read(FOLDER / "limits.json")
    for row in limits["nitrogen_per_application"]:
        for which in ("quick", "total"):
            if f"{which}_lb_kft2" in row:
                assert row[f"{which}_kg_m2"] == pytest.approx(row[f"{which}_lb_kft2"] * pound_per_kft2, rel=1e-6)
                assert f"{row[f'{which}_lb_kft2']:g}" in row[f"printed_{which}"]
    for grass in read(FOLDER / "grasses.json")["grasses"]:
        for row in grass["nitrogen_year_rows"]:
            assert row["high_kg_m2"] == pytest.approx(row["high_lb_kft2"] * pound_per_kft2, rel=1e-6)


def test_bulk_densities_agree_with_the_sheets_own_metric_column() -> None:
    """The sheet (key bulk_sheet) prints both columns; its kg/m3 are whole numbers."""
    printed = {
        "urea, granular": (705, 769),
        "ammonium sulfate, granular": (753, 849),
        "triple superphosphate": (1041, 1201),
    }
    rows = {row["product"]: row for row in read(FOLDER / "bulk_density.json")["rows"]}
    for product, (low, high) in printed.items():
        assert (round(rows[product]["low_kg_m3"]), round(rows[product]["high_kg_m3"])) == (low, high)


def test_cautions_fit_the_walk_and_name_known_sorts() -> None:
    kinds = read(UNITS_FILE.with_name("kinds.json"))
    sorts = set(kinds["kinds"]["product"]["groups"]["name"]["sort"]["choices"])
    words = set(kinds["kinds"]["product"]["groups"]["caution"]["signal_word"]["choices"])
    cautions = read(FOLDER / "cautions.json")
    for row in [*cautions["before"], *cautions["after"]]:
        assert set(row["sorts"] or []) <= sorts
        assert row["needs"] in {None, "signal_word", "near_water", "steep", "phosphate", "water_in", "keep_dry"}
        assert len(row["says"]) <= 120
    assert {row["group"] for row in cautions["before"]} == set(cautions["groups"])
    assert len(cautions["groups"]) == 4
    assert {row["key"] for row in read(FOLDER / "signal_words.json")["words"]} == words


def test_tray_tests_offer_the_printed_limits() -> None:
    """LandWISE: at most 15 % for nitrogen, 25 % for low-analysis products; stripes from 20 % (uk20)."""
    table = read(FOLDER / "tray_tests.json")
    assert [row["limit_share"] for row in table["limits"]] == [0.1, 0.15, 0.25]
    cited = {row["limit_share"]: row["sources"] for row in table["limits"]}
    assert cited[0.1] == ["common practice"]
    assert all("landwise" in cited[limit] for limit in (0.15, 0.25))
    assert all(row["offset_share"] < row["to_and_fro_share"] for row in table["lopsided"])


def lopsided(peak: float) -> Callable[[float], float]:
    """A triangle from -2 to 2 with its peak moved to one side; tracks are 2 apart."""

    def caught(x: float) -> float:
        if not -2 < x < 2:
            return 0.0
        return (x + 2) / (peak + 2) if x <= peak else (2 - x) / (2 - peak)

    return caught


def to_and_fro(caught: Callable[[float], float], x: float, apart: float) -> float:
    """Every second track is walked the other way, so its pattern is mirrored."""
    tracks = range(-8, 9)
    return sum(caught((1 - 2 * (k % 2)) * (x - apart * k)) for k in tracks)


def unevenness(values: list[float]) -> float:
    return statistics.pstdev(values) / statistics.fmean(values)


def test_the_lopsided_patterns_come_out_again_on_a_fine_grid() -> None:
    """Added up here from the triangle itself, without the engine's trays."""
    grid = [4 * (k + 0.5) / 2000 for k in range(2000)]
    for peak, row in zip((0.2, 0.4, 0.6, 0.8), read(FOLDER / "tray_tests.json")["lopsided"], strict=True):
        caught = lopsided(peak)
        heavy = sum(caught(x) for x in grid) / sum(caught(x - 2) for x in grid)
        assert heavy == pytest.approx(row["heavy_share"], abs=0.0005)
        once = [to_and_fro(caught, x, 2) for x in grid]
        twice = [to_and_fro(caught, x, 2) + to_and_fro(caught, x - 1, 2) for x in grid]
        half_apart = [to_and_fro(caught, x, 1) for x in grid]
        assert unevenness(once) == pytest.approx(row["to_and_fro_share"], abs=0.0005)
        assert unevenness(twice) == pytest.approx(row["offset_share"], abs=0.0005)
        assert unevenness(half_apart) == pytest.approx(row["half_apart_share"], abs=0.0005)
