"""Tracing over a picture, and the outlines drawn for ground measured without one, held against Shapely."""

import math
from typing import Any

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from shapely import affinity
from shapely.geometry import Point, Polygon

from tests.properties.asking import error, value
from tests.properties.ground.test_gps import RINGS, Places

LENGTH = st.floats(0.1, 200)
SCALE = st.floats(0.005, 2)
WAYS = st.sampled_from(["trapezoid", "sum", "simpson"])


def on_picture(places: Places, scale: float, turn_deg: float) -> list[list[float]]:
    """Ground drawn on a picture of so many metres a pixel, north turned clockwise from up."""
    shape = affinity.rotate(Polygon(places), -turn_deg, origin=(0, 0))
    return [[700 + x / scale, 400 - y / scale] for x, y in list(shape.exterior.coords)[:-1]]


def bar(length_m: float, scale: float) -> dict[str, float]:
    return {"x1": 20, "y1": 30, "x2": 20 + length_m / scale * 0.6, "y2": 30 + length_m / scale * 0.8} | {
        "distance_m": length_m
    }


@given(places=RINGS, scale=SCALE, turn=st.floats(-180, 180), hole=st.booleans())
def test_a_traced_plan_gives_the_ground_back_north_up(places: Places, scale: float, turn: float, hole: bool) -> None:
    assume(max(abs(x) for place in places for x in place) / scale < 40000)
    inner = [(0.2 * x, 0.2 * y) for x, y in places]
    args: dict[str, Any] = {"holes_px": [on_picture(inner, scale, turn)]} if hole else {}
    got = value(
        "area.trace",
        points_px=on_picture(places, scale, turn),
        known=[bar(100 * scale, scale)],
        north_px_deg=turn,
        **args,
    )
    wanted = Polygon(places, [inner] if hole else [])
    assert got["metres_per_px"] == pytest.approx(scale, rel=1e-9)
    assert got["area_m2"] == pytest.approx(wanted.area, rel=1e-7)
    assert got["perimeter_m"] == pytest.approx(wanted.length, rel=1e-7)
    assert got["north_deg"] == 0
    x0, y0 = places[0]
    size = max(abs(x) for place in places for x in place)
    for (x, y), (px, py) in zip(got["points_m"], places, strict=True):
        assert (x, y) == pytest.approx((px - x0, py - y0), abs=1e-7 * size)


@given(st.lists(st.floats(0.96, 1.04), min_size=2, max_size=6), st.floats(0.001, 0.1), st.floats(0, 5))
def test_the_scale_lies_among_what_the_distances_say(offs: list[float], share: float, pointing: float) -> None:
    known = [bar(20 * off, 0.05 * off) for off in offs]
    points = [[0, 0], [400, 0], [400, 300], [0, 300]]
    got = value("area.trace", points_px=points, known=known, distance_error_share=share, pointing_px=pointing)
    assert min(offs) * 0.05 * (1 - 1e-9) <= got["metres_per_px"] <= max(offs) * 0.05 * (1 + 1e-9)
    alone = value("area.trace", points_px=points, known=known[:1], distance_error_share=share, pointing_px=pointing)
    agreeing = value(
        "area.trace", points_px=points, known=known[:1] * 2, distance_error_share=share, pointing_px=pointing
    )
    assert agreeing["scale_sd_share"] == pytest.approx(alone["scale_sd_share"] / math.sqrt(2), rel=1e-6)
    assert agreeing["sd_m2"] <= alone["sd_m2"]


def outline_of(call: str, **args: Any) -> tuple[dict[str, Any], Polygon]:
    got = value(call, **args)
    return got, Polygon(got["outline_m"])


@given(st.sampled_from(["rectangle", "ellipse"]), LENGTH, LENGTH)
def test_a_boxed_shape_is_drawn_with_its_area_and_size(shape: str, length: float, width: float) -> None:
    got, drawn = outline_of("area.shapes", parts=[{"shape": shape, "length_m": length, "width_m": width}])
    assert drawn.is_valid
    assert drawn.area == pytest.approx(got["area_m2"], rel=1e-9)
    x0, y0, x1, y1 = drawn.bounds
    assert (x1 - x0, y1 - y0) == pytest.approx((length, width), rel=0.007)


@given(LENGTH, LENGTH, st.floats(0.05, 3.0))
def test_a_triangle_of_sides_is_drawn_with_its_sides(a: float, b: float, fold: float) -> None:
    c = math.sqrt(a * a + b * b - 2 * a * b * math.cos(fold))
    assume(0.1 < c < 5000)
    got, drawn = outline_of("area.shapes", parts=[{"shape": "triangle", "a_m": a, "b_m": b, "c_m": c}])
    p, q, r = got["outline_m"]
    assert [math.dist(p, q), math.dist(q, r), math.dist(r, p)] == pytest.approx([a, b, c], rel=1e-5, abs=1e-5)
    assert drawn.area == pytest.approx(got["area_m2"], rel=1e-6)


@given(LENGTH, LENGTH, LENGTH)
def test_a_trapezoid_and_a_triangle_are_drawn_even(side_a: float, side_b: float, height: float) -> None:
    part = {"shape": "trapezoid", "side_a_m": side_a, "side_b_m": side_b, "height_m": height}
    got, drawn = outline_of("area.shapes", parts=[part])
    assert drawn.is_valid
    assert drawn.area == pytest.approx(got["area_m2"], rel=1e-9)
    tip, tent = outline_of("area.shapes", parts=[{"shape": "triangle", "base_m": side_a, "height_m": height}])
    assert tent.area == pytest.approx(tip["area_m2"], rel=1e-9)


@given(st.lists(st.floats(2, 50), min_size=3, max_size=60), st.sampled_from(["mean", "sectors"]))
def test_radii_are_drawn_with_the_area_stated(lengths: list[float], method: str) -> None:
    got, drawn = outline_of("area.radii", radii_m=lengths, method=method)
    assert drawn.is_valid
    assert drawn.area == pytest.approx(got["area_m2"], rel=1e-9)
    assert drawn.contains(Point(0, 0))


@given(st.lists(st.floats(0.5, 50), min_size=2, max_size=30), st.floats(0.1, 10), WAYS)
def test_offsets_are_drawn_with_the_area_stated(widths: list[float], spacing: float, method: str) -> None:
    assume(method != "simpson" or (len(widths) % 2 == 1))
    got, drawn = outline_of("area.offsets", spacing_m=spacing, offsets_m=widths, method=method)
    assert drawn.is_valid
    assert drawn.area == pytest.approx(got["area_m2"], rel=1e-9)
    steps = len(widths) if method == "sum" else len(widths) - 1
    assert drawn.bounds[2] == pytest.approx(steps * spacing)


@given(st.floats(-6, 6), st.floats(-6, 6), st.floats(0.05, 4))
def test_a_round_bed_is_cut_out_where_it_has_its_place(x: float, y: float, radius: float) -> None:
    lawn = [(-8.0, -8.0), (8.0, -8.0), (8.0, 8.0), (3.0, 8.0), (3.0, 1.0), (-8.0, 1.0)]
    bed = {"x_m": x, "y_m": y, "radius_m": radius}
    room = Polygon(lawn).exterior.distance(Point(x, y)) if Polygon(lawn).contains(Point(x, y)) else -1.0
    assume(not radius <= room <= 1.01 * radius)  # there the corners, which stand 0.6 % out, decide
    if room > radius:
        got = value("area.outline", points_m=lawn, circles_m=[bed])
        assert got["area_m2"] == pytest.approx(Polygon(lawn).area - math.pi * radius**2, rel=1e-9)
        (hole,) = got["holes_m"]
        assert Polygon(hole).area == pytest.approx(math.pi * radius**2, rel=1e-9)
    else:
        assert error("area.outline", points_m=lawn, circles_m=[bed])["name"] == "circles_m[0]"


@given(RINGS, st.floats(0.001, 0.5))
def test_the_error_of_an_outline_is_what_moving_each_corner_does(places: Places, corner: float) -> None:
    """The stated error against slopes measured by nudging every corner along each axis (the area is linear in each)."""
    got = value("area.outline", points_m=places, corner_error_m=corner)
    area, squares = Polygon(places).area, 0.0
    for at in range(len(places)):
        for dx, dy in ((1e-3, 0.0), (0.0, 1e-3)):
            x, y = places[at]
            nudged = [*places[:at], (x + dx, y + dy), *places[at + 1 :]]
            squares += ((Polygon(nudged).area - area) / 1e-3) ** 2
    assert got["sd_m2"] == pytest.approx(corner * math.sqrt(squares), rel=1e-3)
