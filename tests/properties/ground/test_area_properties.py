"""What must hold for every piece of ground, with Shapely as the outside reference."""

import math
from typing import Any

import pytest
from hypothesis import assume, example, given
from hypothesis import strategies as st
from shapely import affinity
from shapely.geometry import Point, Polygon, box
from shapely.ops import unary_union

from tests.properties.asking import error, value

LENGTH = st.floats(0.1, 200)
SHARE = st.floats(0, 0.3)
COORDINATE = st.integers(-40, 40).map(lambda n: n / 4)
RING = st.lists(st.tuples(COORDINATE, COORDINATE), min_size=3, max_size=9)
Points = list[tuple[float, float]]


def round_its_middle(points: Points) -> Points:
    """The same corners in the order they stand round their mean, so that the ring seldom crosses itself."""
    x = sum(p[0] for p in points) / len(points) + 0.0137
    y = sum(p[1] for p in points) / len(points) + 0.0071
    return sorted(set(points), key=lambda p: math.atan2(p[1] - y, p[0] - x))


SIMPLE_RING = st.lists(st.tuples(COORDINATE, COORDINATE), min_size=4, max_size=9, unique=True).map(round_its_middle)


def one(**part: Any) -> dict[str, Any]:
    """The value of a single added shape."""
    return value("area.shapes", parts=[{"add": True, **part}], length_error_share=0.02)


def close(got: float, wanted: float, near: float = 1e-9) -> bool:
    return math.isclose(got, wanted, rel_tol=near)


@given(LENGTH, LENGTH)
def test_a_rectangle_is_shapelys(length: float, width: float) -> None:
    box = Polygon([(0, 0), (length, 0), (length, width), (0, width)])
    assert close(one(shape="rectangle", length_m=length, width_m=width)["area_m2"], box.area)


@given(LENGTH, LENGTH, st.floats(-100, 100))
def test_a_triangle_is_shapelys_by_height_and_by_sides(base: float, height: float, foot: float) -> None:
    corners = [(0.0, 0.0), (base, 0.0), (foot, height)]
    a, b, c = (math.dist(corners[i], corners[(i + 1) % 3]) for i in range(3))
    wanted = Polygon(corners).area
    assert close(one(shape="triangle", base_m=base, height_m=height)["area_m2"], wanted)
    assume(min(a, b, c) > 0.1)
    # A flat triangle's area hangs on the last digits of its sides, whoever computes it.
    assert close(one(shape="triangle", a_m=a, b_m=b, c_m=c)["area_m2"], wanted, 1e-6)


@given(LENGTH, LENGTH, st.floats(0.1, 50))
def test_a_trapezoid_is_shapelys(side_a: float, side_b: float, height: float) -> None:
    wanted = Polygon([(0, 0), (side_a, 0), (side_b, height), (0, height)]).area
    assert close(one(shape="trapezoid", side_a_m=side_a, side_b_m=side_b, height_m=height)["area_m2"], wanted)


@given(LENGTH, LENGTH)
def test_circle_and_ellipse_are_the_limit_of_shapelys_polygons(length: float, width: float) -> None:
    many = Point(0, 0).buffer(1, quad_segs=400)
    ellipse = affinity.scale(many, length / 2, width / 2).area
    assert close(one(shape="ellipse", length_m=length, width_m=width)["area_m2"], ellipse, 1e-4)
    assert close(one(shape="circle", radius_m=length)["area_m2"], many.area * length**2, 1e-4)
    assert close(one(shape="ellipse", length_m=2 * length, width_m=2 * length)["area_m2"], math.pi * length**2)


@given(LENGTH, LENGTH, st.floats(0.1, 5))
def test_shapes_grow_with_the_square_of_their_lengths(length: float, width: float, by: float) -> None:
    small = one(shape="rectangle", length_m=length, width_m=width)
    large = one(shape="rectangle", length_m=by * length, width_m=by * width)
    assert close(large["area_m2"], by * by * small["area_m2"])
    assert close(large["sd_m2"], by * by * small["sd_m2"])


@given(st.lists(st.tuples(LENGTH, LENGTH), min_size=2, max_size=6), st.randoms())
def test_parts_add_up_in_any_order_and_their_errors_as_squares(sizes: list[tuple[float, float]], mix: Any) -> None:
    parts = [{"shape": "rectangle", "add": True, "length_m": a, "width_m": b} for a, b in sizes]
    singles = [value("area.shapes", parts=[part], length_error_share=0.02) for part in parts]
    mix.shuffle(parts)
    whole = value("area.shapes", parts=parts, length_error_share=0.02)
    assert close(whole["area_m2"], math.fsum(row["area_m2"] for row in singles), 1e-12)
    assert close(whole["sd_m2"] ** 2, math.fsum(row["sd_m2"] ** 2 for row in singles))


@given(st.floats(5, 50), st.floats(5, 50), st.floats(0.1, 2))
def test_cutting_out_is_taking_away_but_adds_doubt(length: float, width: float, radius: float) -> None:
    bed = {"shape": "circle", "radius_m": radius}
    lawn = {"shape": "rectangle", "add": True, "length_m": length, "width_m": width}
    got = value("area.shapes", parts=[lawn, {**bed, "add": False}], length_error_share=0.02)
    assert close(got["area_m2"], length * width - math.pi * radius**2)
    assert got["sd_m2"] > one(**{k: v for k, v in lawn.items() if k != "add"})["sd_m2"]


@given(a=LENGTH, b=LENGTH, fold=st.floats(0.1, 3.0), share=st.floats(0.001, 0.02))
def test_the_error_of_three_sides_is_what_moving_each_side_does(a: float, b: float, fold: float, share: float) -> None:
    """The stated error against slopes measured by nudging each side (finite differences)."""
    c = math.sqrt(a * a + b * b - 2 * a * b * math.cos(fold))
    assume(c > 0.1 and min(a, b) > 1)
    sides = {"a_m": a, "b_m": b, "c_m": c}
    got = value("area.shapes", parts=[{"shape": "triangle", "add": True, **sides}], length_error_share=share)
    assume(got["area_m2"] > 0.02 * max(a, b, c) ** 2)
    squares = 0.0
    for name, length in sides.items():
        nudged = [one(shape="triangle", **{**sides, name: length * (1 + n)})["area_m2"] for n in (-1e-6, 1e-6)]
        squares += ((nudged[1] - nudged[0]) / 2e-6) ** 2
    assert close(got["sd_m2"], share * math.sqrt(squares), 1e-4)


@given(points=RING)
@example(points=[(0.0, 0.0), (1.0, 0.0), (0.0, 1.0)])
@example(points=[(0.0, 0.0), (4.0, 3.0), (4.0, 0.0), (0.0, 3.0)])
@example(points=[(0.0, 0.0), (4.0, 0.0), (2.0, 0.0), (2.0, 3.0)])
@example(points=[(0.0, 0.0), (4.0, 0.0), (4.0, 4.0), (2.0, 0.0), (0.0, 4.0)])
def test_an_outline_is_measured_when_shapely_calls_it_valid_and_refused_when_not(points: Points) -> None:
    shape = Polygon(points)
    distinct = [p for at, p in enumerate(points) if p != points[at - 1]]
    if len(set(distinct)) < 3:
        assert error("area.outline", points_m=points)["code"] in ("wrong_count", "crossing")
    elif shape.is_valid and shape.area > 0:
        got = value("area.outline", points_m=points)
        assert close(got["area_m2"], shape.area)
        assert close(got["perimeter_m"], shape.length)
    else:
        assert error("area.outline", points_m=points)["code"] == "crossing"


@given(points=SIMPLE_RING, turn=st.floats(0, 360), east=st.floats(-1000, 1000), first=st.integers(0, 8))
def test_an_outline_keeps_its_area_turned_moved_begun_elsewhere_or_walked_backwards(
    points: Points, turn: float, east: float, first: int
) -> None:
    shape = Polygon(points)
    assume(shape.is_valid and shape.area > 1)
    moved = affinity.translate(affinity.rotate(shape, turn), east, -east)
    ring = list(moved.exterior.coords)[:-1]
    ring = ring[first % len(ring) :] + ring[: first % len(ring)]
    assert close(value("area.outline", points_m=ring)["area_m2"], shape.area, 1e-7)
    assert close(value("area.outline", points_m=ring[::-1])["area_m2"], shape.area, 1e-7)


@given(hole=SIMPLE_RING)
def test_a_hole_is_taken_out_when_shapely_finds_it_inside_and_refused_when_not(hole: Points) -> None:
    lawn = [(-8.0, -8.0), (8.0, -8.0), (8.0, 8.0), (3.0, 8.0), (3.0, 1.0), (-8.0, 1.0)]
    cut, ground = Polygon(hole), Polygon(lawn)
    assume(cut.is_valid and cut.area > 0)
    if ground.contains_properly(cut):
        got = value("area.outline", points_m=lawn, holes_m=[hole])
        wanted = Polygon(lawn, [hole])
        assert close(got["area_m2"], wanted.area)
        assert close(got["perimeter_m"], wanted.length)
        assert close(got["outer_perimeter_m"], ground.length)
    else:
        assert error("area.outline", points_m=lawn, holes_m=[hole])["code"] == "outside"


@given(one_hole=SIMPLE_RING, other=SIMPLE_RING)
def test_holes_that_meet_are_refused(one_hole: Points, other: Points) -> None:
    lawn = [(-20.0, -20.0), (20.0, -20.0), (20.0, 20.0), (-20.0, 20.0)]
    first, second = Polygon(one_hole), Polygon(other)
    assume(first.is_valid and second.is_valid and first.area > 0 and second.area > 0)
    if first.disjoint(second):
        got = value("area.outline", points_m=lawn, holes_m=[one_hole, other])
        assert close(got["area_m2"], 1600 - first.area - second.area)
    else:
        assert error("area.outline", points_m=lawn, holes_m=[one_hole, other])["name"] == "holes_m[1]"


@given(st.lists(st.floats(0, 50), min_size=2, max_size=30), st.floats(0.1, 10))
def test_widths_with_both_ends_are_the_polygon_through_them(widths: list[float], spacing: float) -> None:
    """Shapely's area of the very ground whose widths were taken, whatever its ends are."""
    assume(sum(widths) > 1)
    span = (len(widths) - 1) * spacing
    ring = [(0.0, 0.0), (span, 0.0), *[(at * spacing, width) for at, width in enumerate(widths)][::-1]]
    got = value("area.offsets", spacing_m=spacing, offsets_m=widths)["area_m2"]
    assert close(got, Polygon(ring).buffer(0).area, 1e-6)


@given(st.lists(st.floats(0.1, 50), min_size=2, max_size=30), st.floats(0.1, 10))
def test_widths_in_the_middle_of_equal_strips_are_those_strips(widths: list[float], spacing: float) -> None:
    strips = [box(at * spacing, 0.0, (at + 1) * spacing, width) for at, width in enumerate(widths)]
    got = value("area.offsets", spacing_m=spacing, offsets_m=widths, method="sum")["area_m2"]
    assert close(got, unary_union(strips).area, 1e-6)


def test_five_widths_of_ten_metres_are_the_four_steps_between_them() -> None:
    """Counting both ends whole gave 152.5 m2, a quarter too much, and the load followed."""
    got = value("area.offsets", spacing_m=3.05, offsets_m=[10.0] * 5)["area_m2"]
    assert close(got, 4 * 3.05 * 10)
    assert close(value("area.offsets", spacing_m=3.05, offsets_m=[10.0] * 5, method="trapezoid")["area_m2"], got)


def test_a_rounded_lawn_is_not_read_high() -> None:
    """Half an ellipse of shapely's between cut-off ends: nine widths read 0 to 3 % low, never 15 % high."""
    lawn = Point(0, 0).buffer(1, quad_segs=256)
    span = 1.8
    widths = [20 * math.sqrt(1 - (span / 2 - at * span / 8) ** 2) for at in range(9)]
    cut = affinity.scale(lawn.intersection(box(-span / 2, 0, span / 2, 1)), 10, 20, origin=(0, 0))
    got = value("area.offsets", spacing_m=10 * span / 8, offsets_m=widths)["area_m2"]
    assert 0.97 * cut.area <= got <= cut.area


@given(
    cubic=st.tuples(*[st.floats(0, 2)] * 4), strips=st.integers(1, 12).map(lambda n: 2 * n), spacing=st.floats(0.1, 5)
)
def test_simpson_is_exact_for_any_edge_up_to_a_cubic(cubic: tuple[float, ...], strips: int, spacing: float) -> None:
    span = strips * spacing
    widths = [sum(k * (at / strips) ** n for n, k in enumerate(cubic)) for at in range(strips + 1)]
    assume(sum(widths) > 0.1)
    wanted = span * sum(k / (n + 1) for n, k in enumerate(cubic))
    got = value("area.offsets", spacing_m=spacing, offsets_m=widths, method="simpson")
    assert close(got["area_m2"], wanted)


@given(st.lists(st.floats(1, 50), min_size=3, max_size=40))
def test_the_mean_radius_never_claims_more_ground_than_the_sectors(radii: list[float]) -> None:
    mean = value("area.radii", radii_m=radii)
    sectors = value("area.radii", radii_m=radii, method="sectors")
    assert mean["area_m2"] <= sectors["area_m2"] * (1 + 1e-12)
    assert sectors["area_m2"] - mean["area_m2"] <= mean["sd_m2"] + 1e-9


@given(st.floats(1, 50), st.integers(3, 60))
def test_equal_radii_are_a_circle(radius: float, count: int) -> None:
    for method in ("mean", "sectors"):
        got = value("area.radii", radii_m=[radius] * count, method=method)["area_m2"]
        assert close(got, math.pi * radius**2)


@pytest.mark.parametrize("count", [401, 2000])
def test_more_corners_than_a_phone_can_check_are_refused(count: int) -> None:
    ring = [[math.cos(2 * math.pi * i / count), math.sin(2 * math.pi * i / count)] for i in range(count)]
    assert error("area.outline", points_m=ring)["code"] == "wrong_count"
