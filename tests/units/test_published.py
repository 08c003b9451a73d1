"""The published tables: every row says where it comes from, and its conversions hold."""

import json
import statistics
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest

from lawn.units.registry import UNITS_FILE
from tests.units import printed

FOLDER = UNITS_FILE.parent / "published"
# The tables the phone ships; worked examples stand in the same folder, with sources of their own.
NAMES = ("bulk_density", "cautions", "grasses", "limits", "places", "signal_words", "tray_tests")
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
    return [*row.get("sources", []), *row.get("season_sources", []), *row.get("also_sources", [])]


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


def grasses() -> dict[str, Any]:
    return {grass["key"]: grass for grass in read(FOLDER / "grasses.json")["grasses"]}


def home_rows(grass: dict[str, Any]) -> list[dict[str, Any]]:
    return [row for row in grass["cut_rows"] if row["home_lawn"]]


def test_one_range_is_shown_only_where_all_home_lawn_sources_share_a_height() -> None:
    """California's 1 to 2 in of St. Augustinegrass and Florida's 3.5 to 4 in are two ranges, not one of 1 to 4."""
    for grass in grasses().values():
        home = home_rows(grass)
        shared = home and max(row["low_mm"] for row in home) < min(row["high_mm"] for row in home)
        spans = {"low": min(r["low_mm"] for r in home), "high": max(r["high_mm"] for r in home)} if shared else None
        assert grass["cut_mm"] == spans, grass["key"]
        assert all(row["where"] for row in home), grass["key"]
    assert grasses()["st_augustinegrass"]["cut_mm"] is None
    assert grasses()["tall_fescue"]["cut_mm"]["low"] == 50.8, "cut at 1 in it is scalped"


def test_heights_for_sports_and_levels_of_a_study_are_no_home_lawns() -> None:
    for grass in grasses().values():
        assert not {"ut_sorochan", "zoysia_study"} & {key for row in home_rows(grass) for key in row["sources"]}
        assert not [row for row in grass["nitrogen_year_rows"] if "zoysia_study" in row["sources"]]
    (trial,) = grasses()["zoysiagrass"]["nitrogen_trials"]
    assert trial["levels_kg_m2"] == [kg_ha / 10000 for kg_ha in (73, 171, 268)]


def test_every_printed_height_of_cut_stands_in_the_table_and_no_other() -> None:
    rows = [
        (grass["key"], row["low_in"], row["high_in"], ", ".join(row["sources"]))
        for grass in grasses().values()
        for row in grass["cut_rows"]
    ]
    assert sorted(rows) == sorted(printed.HEIGHTS)


def test_every_printed_years_nitrogen_stands_in_the_table_and_no_other() -> None:
    """A grass's types carry the rows of the grass; bahiagrass and centipedegrass have one uf_n row for two regions."""
    types = {"zoysiagrass_japonica", "zoysiagrass_matrella", "bermudagrass_hybrid", "st_augustinegrass_dwarf"}
    rows = [
        (grass["key"], row.get("low_lb_kft2"), row["high_lb_kft2"], *row["sources"])
        for grass in grasses().values()
        for row in grass["nitrogen_year_rows"]
        if grass["key"] not in types
    ]
    assert sorted(rows, key=str) == sorted(printed.YEARS, key=str)
    for key in types:
        assert grasses()[key]["nitrogen_year_rows"] == grasses()[key.rsplit("_", 1)[0]]["nitrogen_year_rows"]
    (nebraska,) = grasses()["buffalograss"]["nitrogen_application_rows"]
    assert (nebraska["low_lb_kft2"], nebraska["high_lb_kft2"], nebraska["sources"]) == (0.75, 1, ["unl_g2178"])
    general = read(FOLDER / "grasses.json")["lawns_in_general"]["nitrogen_year_rows"]
    found = [(row["low_lb_kft2"], row["high_lb_kft2"], *row["sources"]) for row in general]
    assert found == [(4, 6, "UC-FERTAMT"), (2, 4, "USGA-GSR62")]


def test_every_printed_most_of_one_feeding_stands_in_the_table_and_no_other() -> None:
    rows = read(FOLDER / "limits.json")["nitrogen_per_application"]
    assert {(*row["sources"], row["printed_quick"], row["printed_total"]) for row in rows} == set(printed.ONCE)
    assert len(rows) == len(printed.ONCE)


def test_one_page_is_one_witness() -> None:
    kept: list[tuple[str, dict[str, Any]]] = []
    for name in ("sources", "engine_sources", "worked_sources"):
        kept += read(FOLDER / f"{name}.json")["sources"].items()
    keys = {key for key, _ in kept}
    assert [pair for pair in printed.ONE_PAGE if set(pair) <= keys] == []
    pages: dict[str, set[str]] = {}
    for key, source in kept:
        if source.get("url"):
            pages.setdefault(source["url"].rstrip("/").split("://")[1].removeprefix("www."), set()).add(key)
    assert [sorted(found) for found in pages.values() if len(found) > 1] == []


def test_southern_names_are_found_under_the_grass_they_mean() -> None:
    also = {key: grass["also"] for key, grass in grasses().items() if "also" in grass}
    assert also == {"bermudagrass": ["couch"], "st_augustinegrass": ["buffalo"]}


def test_signal_words_stand_by_category_as_the_rule_says() -> None:
    """40 CFR 156.64 (a): I DANGER, II WARNING, III CAUTION; IV needs none, and if one is used it is CAUTION."""
    words = {row["word"]: row["categories"] for row in read(FOLDER / "signal_words.json")["words"]}
    assert words == {"DANGER": ["I"], "WARNING": ["II"], "CAUTION": ["III", "IV"], "": ["IV"]}


def test_childrens_safety_rests_on_its_own_rule_whatever_the_signal_word() -> None:
    """40 CFR 156.66 (a) asks for it on every product, those of category IV without a signal word included."""
    cautions = {row["key"]: row for row in read(FOLDER / "cautions.json")["before"]}
    assert "CFR-156.66" in cautions["children"]["sources"]
    assert cautions["children"]["needs"] is None
    assert "children" not in cautions["signal_word"]["says"].lower()
    assert cautions["grass"]["says"] == "The label lists the grass of every zone."
    assert cautions["grass"]["needs"] is None


# Printed for tall fescue by Oregon State University (key osu_tallfescue) and for a year's nitrogen by the
# University of Illinois (key illinois_n): 2 to 3 in, 2 to 4 lb per 1,000 square feet.
def test_tall_fescue_stands_as_printed() -> None:
    fescue = next(g for g in read(FOLDER / "grasses.json")["grasses"] if g["key"] == "tall_fescue")
    oregon = next(r for r in fescue["cut_rows"] if r["sources"] == ["osu_tallfescue"])
    assert (fescue["season"], oregon["low_in"], oregon["high_in"]) == ("cool", 2, 3)
    illinois = next(r for r in fescue["nitrogen_year_rows"] if r["sources"] == ["illinois_n"])
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
            for which in ("low", "high"):
                if f"{which}_lb_kft2" in row:
                    assert row[f"{which}_kg_m2"] == pytest.approx(row[f"{which}_lb_kft2"] * pound_per_kft2, rel=1e-6)


def test_bulk_densities_are_both_columns_as_the_sheet_prints_them() -> None:
    """The sheet (key bulk_sheet) prints urea as 705 to 769 kg/m3, not as 44 lb/ft3 worked out again (704.8124)."""
    rows = [row for row in read(FOLDER / "bulk_density.json")["rows"] if row["sources"] == ["bulk_sheet"]]
    columns = ("product", "low_lb_ft3", "high_lb_ft3", "low_kg_m3", "high_kg_m3")
    assert [tuple(row[name] for name in columns) for row in rows] == list(printed.DENSITIES)


def test_densities_from_memory_are_ranges_seed_and_natural_granules_among_them() -> None:
    rows = [row for row in read(FOLDER / "bulk_density.json")["rows"] if row["sources"] == ["from memory"]]
    assert all(row["low_kg_m3"] * 1.1 < row["high_kg_m3"] for row in rows)
    assert {"seed", "natural"} <= {word for row in rows for word in row["product"].split()}


def test_cautions_fit_the_walk_and_name_known_sorts() -> None:
    product = read(UNITS_FILE.with_name("kinds") / "product.json")
    sorts = set(product["groups"]["name"]["sort"]["choices"])
    words = set(product["groups"]["caution"]["signal_word"]["choices"])
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
