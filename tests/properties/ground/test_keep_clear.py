"""Ground that stays clear of marked edges at water: its size and its place by shapely, and the strips beside it."""

import math
from typing import Any

import pytest
import shapely
from hypothesis import assume, given
from hypothesis import strategies as st
from shapely.geometry.base import BaseGeometry

from tests.properties.asking import error, value
from tests.properties.grounds import Points, spiked, stars, stepped

Json = dict[str, Any]
# A band's round ends are drawn with 16 corners just outside the circle, and edges nearly in line are taken as one.
WIDER = 1.032
ROWS: list[Json] = [{"where": "x", "setback_m": 7.62, "sources": ["VT-ACT37"]}]
LAWN: Json = {"id": "back", "area_m2": 240, "outline_m": [[0, 0], [20, 0], [20, 12], [0, 12]], "heading_deg": 90}


def setback(outline: Points | list[list[float]], edges: list[int], **more: Any) -> Json:
    area = shapely.Polygon(outline).area
    zone: Json = {"id": "z", "area_m2": area, "near_water": True, "outline_m": outline, "water_edges": edges}
    zone.update(more)
    got: Json = value("limits.setback", zones=[zone], rows=ROWS)
    return got


def lines_of(outline: Points | list[list[float]], edges: list[int]) -> BaseGeometry:
    return shapely.union_all([shapely.LineString([outline[at], outline[(at + 1) % len(outline)]]) for at in edges])


def even_odd(rings: list[list[list[float]]]) -> BaseGeometry:
    ground: BaseGeometry = shapely.Polygon()
    for ring in rings:
        ground = ground.symmetric_difference(shapely.Polygon(ring))
    return ground


@given(st.one_of(stars(), spiked(), stepped()), st.data())
def test_the_ground_left_out_is_what_shapely_finds_within_the_setback(outline: Points, data: st.DataObject) -> None:
    ground = shapely.Polygon(outline)
    assume(ground.is_valid and ground.area > 1)
    edges = data.draw(st.lists(st.integers(0, len(outline) - 1), min_size=1, unique=True))
    clear = data.draw(st.one_of(st.sampled_from([1.0, 2.0, 3.0]), st.floats(0.2, 12)))
    got = setback(outline, edges, setback_m=clear)
    water = lines_of(outline, edges)
    least = ground.intersection(water.buffer(clear, quad_segs=64)).area
    most = ground.intersection(water.buffer(clear * WIDER + 1e-3, quad_segs=64)).area
    assert least - 1e-4 * ground.area <= got["out_m2"] <= most + 2e-3
    assert got["out_m2"] + got["area_m2"] == pytest.approx(ground.area)


@given(st.one_of(stars(), spiked(), stepped()), st.data())
def test_no_row_of_the_walk_lies_in_the_setback(outline: Points, data: st.DataObject) -> None:
    """The ground left is the outline less the band, and rows keep half a swath from the band as from an edge."""
    ground, swath = shapely.Polygon(outline), 1.5
    assume(ground.is_valid and ground.area > 30)
    edges = data.draw(st.lists(st.integers(0, len(outline) - 1), min_size=1, max_size=4, unique=True))
    clear = data.draw(st.sampled_from([1.0, 2.5, 4.0]))
    water = lines_of(outline, edges).buffer(clear, quad_segs=64)
    left = ground.difference(water)
    assume(left.area > 20)
    zone = {"id": "z", "area_m2": left.area, "outline_m": outline, "water_edges": edges, "setback_m": clear}
    got = value("swath.tour", zones=[zone], swath_m=swath)
    said = even_odd(got["zones"][0]["ground_m"])
    assert said.difference(left).area < 1e-4 * ground.area
    for row in got["rows"]:
        deep = shapely.LineString(row["points_m"]).intersection(water.buffer(-0.02))
        assert deep.length < 0.2 * swath, row


def test_a_rectangle_at_water_loses_a_plain_strip() -> None:
    got = setback(LAWN["outline_m"], [0], setback_m=3)
    assert got["out_m2"] == pytest.approx(60, abs=1e-3)
    assert got["zones"][0]["drawn"] is True


def test_the_strips_begin_where_the_setback_ends() -> None:
    """20 by 12 m with 3 m clear is 20 by 9 m: between its headers 6 m, so 4 strips of 17 m at 1.5 m."""
    zone = {**LAWN, "area_m2": 180, "water_edges": [0], "setback_m": 3}
    got = value("swath.tour", zones=[zone], swath_m=1.5, header_strips=1)
    rows = got["rows"]
    assert [row["kind"] for row in rows] == ["header"] + ["strip"] * 4
    assert [round(row["length_m"], 3) for row in rows[1:]] == [17] * 4
    assert min(y for row in rows for _, y in row["points_m"]) == pytest.approx(3.75, abs=1e-5)
    assert rows[-1]["done_area_m2"] == 180
    plain = value("swath.tour", zones=[LAWN], swath_m=1.5, header_strips=1)
    assert plain["zones"][0]["ground_m"] is None
    assert min(y for row in plain["rows"] for _, y in row["points_m"]) == pytest.approx(0.75)


def test_a_bed_in_the_setback_is_not_left_out_twice() -> None:
    hole = [[5, 1], [8, 1], [8, 5], [5, 5]]
    ground = shapely.Polygon(LAWN["outline_m"], [hole])
    got = setback(LAWN["outline_m"], [0], setback_m=3, holes_m=[hole], area_m2=ground.area)
    assert got["out_m2"] == pytest.approx(60 - 3 * 2, abs=1e-3)


def test_the_area_on_record_loses_the_outlines_share() -> None:
    """An outline drawn only for the plan: the area stays as measured, 300 m2 instead of 240."""
    got = setback(LAWN["outline_m"], [0], setback_m=3, area_m2=300)
    assert got["out_m2"] == pytest.approx(75, abs=1e-3)


def test_the_edges_hold_before_a_length_entered_and_the_widest_rule_where_no_setback_was() -> None:
    got = setback(LAWN["outline_m"], [1], water_edge_m=500)
    assert got["setback_m"] == 7.62
    assert got["out_m2"] == pytest.approx(12 * 7.62, abs=1e-3)


def test_without_edges_or_water_it_stays_as_it_was() -> None:
    nothing: list[list[int] | None] = [[], None]
    for none in nothing:
        zone = {"id": "z", "area_m2": 240, "near_water": True, "outline_m": LAWN["outline_m"], "water_edges": none}
        got = value("limits.setback", zones=[{**zone, "water_edge_m": 20}], rows=ROWS)
        assert got["out_m2"] == pytest.approx(20 * 7.62)
        assert got["zones"][0]["drawn"] is False
        assert value("limits.setback", zones=[zone], rows=ROWS)["zones"][0]["out_m2"] is None
    dry = setback(LAWN["outline_m"], [0], near_water=False)
    assert (dry["out_m2"], dry["area_m2"]) == (0, 240)


@pytest.mark.parametrize(
    ("edges", "code", "name"),
    [
        ([4], "out_of_range", "zones[0].water_edges[0]"),
        ([0, -1], "out_of_range", "zones[0].water_edges[1]"),
        ([1, 1], "repeated", "zones[0].water_edges[1]"),
        ([0.5], "wrong_type", "zones[0].water_edges[0]"),
        ("0", "wrong_type", "zones[0].water_edges"),
    ],
)
def test_an_edge_that_is_none_is_refused_by_name(edges: Any, code: str, name: str) -> None:
    zone = {"id": "z", "area_m2": 240, "near_water": True, "outline_m": LAWN["outline_m"], "water_edges": edges}
    got = error("limits.setback", zones=[zone], rows=ROWS)
    assert (got["code"], got["name"]) == (code, name)
    walked = {**LAWN, "water_edges": edges, "setback_m": 3}
    assert error("swath.tour", zones=[walked], swath_m=1.5)["name"] == name


def test_a_zone_wholly_within_the_setback_has_nothing_to_walk() -> None:
    got = setback(LAWN["outline_m"], [0], setback_m=30)
    assert got["area_m2"] == pytest.approx(0, abs=1e-6)
    refused = error("swath.tour", zones=[{**LAWN, "water_edges": [0], "setback_m": 30}], swath_m=1.5)
    assert (refused["code"], refused["name"]) == ("impossible", "zones[0].setback_m")
    thin = error("swath.tour", zones=[{**LAWN, "water_edges": [0], "setback_m": 11.5}], swath_m=1.5)
    assert (thin["code"], thin["name"]) == ("impossible", "zones[0].setback_m")


def test_a_shore_of_many_corners_is_quick_and_on_the_safe_side() -> None:
    shore = [[40 * math.cos(math.pi * at / 199), 40 * math.sin(math.pi * at / 199)] for at in range(200)]
    got = setback(shore, list(range(199)), setback_m=5)
    band = shapely.Polygon(shore).intersection(lines_of(shore, list(range(199))).buffer(5, quad_segs=64)).area
    assert band <= got["out_m2"] <= band * 1.03


@pytest.mark.parametrize("turned", [False, True])
def test_sides_run_from_corner_to_corner(turned: bool) -> None:
    corners = [[0, 0], [12, 0], [20, 0], [20, 10], [0, 10]]
    got = value("area.sides", points_m=corners[::-1] if turned else corners)["sides"]
    assert sorted(round(side["length_m"], 9) for side in got) == [10, 10, 20, 20]
    assert sorted(edge for side in got for edge in side["edges"]) == [0, 1, 2, 3, 4]


def test_a_round_lawn_has_four_sides_or_five() -> None:
    circle = [[math.cos(2 * math.pi * at / 24), math.sin(2 * math.pi * at / 24)] for at in range(24)]
    got = value("area.sides", points_m=circle)["sides"]
    assert len(got) in (4, 5)
    assert math.fsum(side["length_m"] for side in got) == pytest.approx(shapely.Polygon(circle).length)
