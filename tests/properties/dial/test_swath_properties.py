"""What must hold for a spreading job over any ground, with Shapely as the outside reference."""

import math
from itertools import pairwise
from typing import Any

import pytest
import shapely
from hypothesis import assume, example, given, settings
from hypothesis import strategies as st
from scipy import stats
from shapely import affinity
from shapely.geometry import LinearRing, LineString, Point, Polygon
from shapely.geometry.base import BaseGeometry

from tests.properties.asking import error, value
from tests.properties.grounds import Points, covered, doubled, furthest_outside, grounds, rows_of, stars, stepped

SWATH = st.sampled_from([0.6, 1.0, 1.5, 2.0, 3.0])
PATTERN = st.sampled_from(["plain", "offset", "crossed"])
LAWN: Points = [(0.0, 0.0), (20.0, 0.0), (20.0, 12.0), (0.0, 12.0)]
# At a swath of 0.6 m two lines of another heading graze a corner.
SIX_POINTED: Points = [
    (19.02113032590307, 6.180339887498948),
    (0.4158233816355189, 1.9562952014676112),
    (-14.562305898749052, 10.580134541264519),
    (-1.9021130325903073, -0.6180339887498946),
    (-4.158233816355196, -19.56295201467611),
    (1.4862896509547874, -1.3382612127177176),
]
Ground = tuple[Points, list[Points]]


def polygon(ground: Ground) -> Polygon:
    shape = Polygon(*ground)
    assume(shape.is_valid and shape.area > 1)
    return shape


def plan(ground: Ground, **wish: Any) -> dict[str, Any]:
    return value("swath.walk_plan", outline_m=ground[0], holes_m=ground[1], **wish)


TOUCH = 1e-9  # metres
NOTCHED: Points = [(0, 0), (16, 0), (16, 8), (11, 8), (11, 5), (8, 5), (8, 8), (0, 8)]


def across(heading: float, x: float, y: float) -> float:
    """Distance to the right of a line through the origin at a heading."""
    return x * math.cos(math.radians(heading)) - y * math.sin(math.radians(heading))


def along(heading: float, x: float, y: float) -> float:
    return x * math.sin(math.radians(heading)) + y * math.cos(math.radians(heading))


def line_at(heading: float, u: float) -> LineString:
    """A very long line at a heading, u to the right of the origin."""
    sin, cos = math.sin(math.radians(heading)), math.cos(math.radians(heading))
    return LineString([(u * cos + v * sin, -u * sin + v * cos) for v in (-500.0, 500.0)])


def lines_at(heading: float, u: float) -> list[LineString]:
    """The line and its neighbours a hair aside: one through a corner or along an edge may count as either."""
    return [line_at(heading, u + hairs * TOUCH) for hairs in (0, -1, -3, 1, 3)]


def left_of(line: BaseGeometry, taken: list[Polygon], shortest: float) -> float:
    """Length of the parts of a line outside all bands, the shortest ones apart."""
    for band in taken:
        if line.intersects(band):  # quick: the discs have thousands of corners
            line = line.difference(band)
    return math.fsum(part.length for part in shapely.get_parts(line) if part.length > shortest)


def by_line(found: dict[str, Any]) -> dict[float, list[float]]:
    """Lengths of the strips by the line they lie on."""
    lines: dict[float, list[float]] = {}
    for strip in found["strips"]:
        u = across(found["heading_deg"], strip["x1"], strip["y1"])
        place = next((key for key in lines if abs(key - u) < 1e-6), u)
        lines.setdefault(place, []).append(strip["length_m"])
    return lines


@settings(max_examples=60)
@given(ground=grounds(), swath=SWATH, pattern=PATTERN)
@example(ground=(LAWN, []), swath=1.5, pattern="plain")
@example(ground=([(0, 0), (30, 0), (30, 0.8), (0, 0.8)], []), swath=1.5, pattern="plain")
@example(
    ground=([(0, 0), (30, 0), (30, 20), (0, 20)], [[(1, 1), (29, 1), (29, 19), (1, 19)]]), swath=1.5, pattern="plain"
)
@example(ground=([(0, 0), (40, 1), (0, 2)], []), swath=1.0, pattern="plain")
def test_any_ground_is_covered_and_the_shares_are_shapelys(ground: Ground, swath: float, pattern: str) -> None:
    shape = polygon(ground)
    found = plan(ground, swath_m=swath, pattern=pattern)
    rows = rows_of(found)
    share = covered(rows, shape, swath)
    assert share >= 0.99
    assert abs(share - found["covered_share"]) <= 0.01
    assert abs(doubled(rows, shape, swath) - found["doubled_share"]) <= 0.01
    assert furthest_outside(rows, shape) <= swath / 2 + 1e-6


@given(ground=grounds(), swath=SWATH, heading=st.floats(0, 360))
@example(ground=([(0, 0), (4, 0), (4, 1), (3, 1), (3, 2), (2, 2), (2, 1), (0, 1)], []), swath=0.8, heading=0.0)
def test_without_headers_strips_are_shapelys_lines_cut_by_the_ground(
    ground: Ground, swath: float, heading: float
) -> None:
    shape = polygon(ground)
    found = plan(ground, swath_m=swath, heading_deg=heading, header_strips=0)
    assert found["headers"] == []
    lines = by_line(found)
    for u, lengths in lines.items():
        cuts = (left_of(line.intersection(shape), [], 0.001) for line in lines_at(heading, u))
        assert any(math.isclose(math.fsum(lengths), cut, abs_tol=1e-6) for cut in cuts)
    places = sorted(lines)
    assert all(abs(math.remainder(b - a, swath)) < 1e-6 for a, b in pairwise(places))
    edge = [across(heading, x, y) for x, y in ground[0]]
    wanted = math.ceil((max(edge) - min(edge)) / swath - 1e-6)
    middle = (max(edge) + min(edge)) / 2
    for at in range(wanted):
        u = middle + (at - (wanted - 1) / 2) * swath
        length = line_at(heading, u).intersection(shape).length
        assert length < 0.01 or any(abs(u - place) < 1e-6 for place in places)


@given(ground=grounds(), swath=SWATH, heading=st.floats(0, 180), headers=st.integers(1, 2))
@example(ground=([(0, 0), (1.3, 0), (1.3, 1.3), (0.65, 1.3), (0, 1.3)], []), swath=0.6, heading=0.0, headers=1)
@example(ground=(NOTCHED, []), swath=1.1, heading=0.0, headers=1)
def test_with_headers_strips_are_shapelys_lines_less_what_the_headers_take(
    ground: Ground, swath: float, heading: float, headers: int
) -> None:
    """The band beside each edge is as deep as the docstring says, the discs round corners finely chorded."""
    shape = polygon(ground)
    found = plan(ground, swath_m=swath, heading_deg=heading, header_strips=headers)
    way = (math.sin(math.radians(heading)), math.cos(math.radians(heading)))
    taken = []
    for ring in ground[0], *ground[1]:
        for a, b in pairwise([*ring, ring[0]]):
            slant = abs((b[0] - a[0]) * way[0] + (b[1] - a[1]) * way[1]) / math.dist(a, b)
            taken.append(LineString([a, b]).buffer((headers - slant / 2) * swath - 2 * TOUCH, cap_style="flat"))
            taken.append(Point(a).buffer((headers - 0.5) * swath, quad_segs=8000))
    shapely.prepare(taken)
    corners = [across(heading, x, y) for ring in (ground[0], *ground[1]) for x, y in ring]
    for u, lengths in by_line(found).items():
        if any(abs(abs(u - corner) - (headers - 0.5) * swath) < 1e-6 for corner in corners):
            continue  # it only grazes what the headers take: a hair aside its length is another
        kept = (left_of(line.intersection(shape), taken, swath / 10) for line in lines_at(heading, u))
        assert any(math.isclose(math.fsum(lengths), length, abs_tol=1e-6) for length in kept), u


@given(outline=stars(), swath=SWATH)
def test_a_header_runs_half_a_swath_inside_as_shapely_insets_it(outline: Points, swath: float) -> None:
    hull = Polygon(shapely.get_coordinates(Polygon(outline).convex_hull))
    assume(hull.buffer(-3 * swath).area > 1)
    ring: Points = [(x, y) for x, y in hull.exterior.coords][:-1]
    found = plan((ring, []), swath_m=swath, header_strips=2)
    rings = [line for line in found["headers"] if len(line) > 3]  # the others reach into sharp corners
    for depth, line in zip((0.5, 1.5), rings, strict=True):
        inset = hull.buffer(-depth * swath, join_style="mitre", mitre_limit=100)
        wanted = LinearRing(shapely.get_coordinates(inset))
        assert shapely.hausdorff_distance(LineString(line), wanted) < 1e-6
        assert math.isclose(LineString(line).length, wanted.length, rel_tol=1e-6)


@given(width=st.floats(6, 37), length=st.floats(41, 80), swath=SWATH)
def test_a_rectangle_gets_one_header_and_straight_strips_the_long_way(
    width: float, length: float, swath: float
) -> None:
    found = plan(([(0, 0), (width, 0), (width, length), (0, length)], []), swath_m=swath)
    inner = width - 2 * swath
    assert found["heading_deg"] == 0
    assert len(found["headers"]) == 1
    assert len(found["strips"]) == (math.ceil(inner / swath - 1e-6) if inner > 0 else 0)
    assert all(math.isclose(strip["length_m"], length - 2 * swath, rel_tol=1e-9) for strip in found["strips"])
    ways = [strip["y2"] > strip["y1"] for strip in found["strips"]]
    assert all(one is not other for one, other in pairwise(ways))
    extra = math.ceil(inner / swath - 1e-6) * swath - inner
    assert found["doubled_share"] <= extra / width + 1e-6


def test_a_lawn_of_20_by_12_at_a_swath_of_one_and_a_half_is_hardly_walked_twice() -> None:
    found = plan((LAWN, []), swath_m=1.5)
    assert (len(found["strips"]), found["turns"], len(found["headers"])) == (6, 5, 1)
    assert found["covered_share"] > 0.995
    assert found["doubled_share"] < 0.15
    assert doubled(rows_of(found), Polygon(LAWN), 1.5) < 0.15


@given(ground=grounds(), swath=SWATH)
def test_a_pass_offset_by_half_a_swath_runs_between_the_first_ones_strips(ground: Ground, swath: float) -> None:
    polygon(ground)
    plain, offset = plan(ground, swath_m=swath), plan(ground, swath_m=swath, pattern="offset")
    assert math.isclose(plain["heading_deg"], offset["heading_deg"])
    assert plain["headers"][:1] == offset["headers"][:1]
    for u in by_line(plain):
        for other in by_line(offset):
            assert math.isclose(abs(math.remainder(u - other, swath)), swath / 2, abs_tol=1e-6)


@given(ground=grounds(), swath=SWATH)
def test_a_crossed_pass_is_square_to_the_plain_one(ground: Ground, swath: float) -> None:
    polygon(ground)
    plain, crossed = plan(ground, swath_m=swath), plan(ground, swath_m=swath, pattern="crossed")
    assert math.isclose((crossed["heading_deg"] - plain["heading_deg"]) % 360, 90)


def strips_at(shape: Polygon, heading: float, swath: float, shortest: float) -> int:
    """Count the parts of parallel lines on the ground, evenly about its middle, by shapely alone."""
    places = [across(heading, x, y) for x, y in shape.exterior.coords]
    wanted = math.ceil((max(places) - min(places)) / swath - 1e-6)
    middle = (max(places) + min(places)) / 2
    lines = [line_at(heading, middle + (at - (wanted - 1) / 2) * swath) for at in range(wanted)]
    parts = [part for line in lines for part in shapely.get_parts(line.intersection(shape))]
    return sum(part.length >= shortest for part in parts)


def sighted(shape: Polygon) -> list[float]:
    """Headings along which edges and hull together run at least a quarter as far as along the longest."""
    run: dict[float, float] = {}
    for ring in shape.exterior, shapely.get_exterior_ring(shape.convex_hull):
        for a, b in pairwise(shapely.get_coordinates(ring).tolist()):
            heading = round(math.degrees(math.atan2(b[0] - a[0], b[1] - a[1])), 6) % 180
            run[heading] = run.get(heading, 0.0) + math.dist(a, b)
    return [heading for heading, length in run.items() if length > 0.26 * max(run.values())]


@given(outline=stars().filter(lambda ring: len(ring) <= 6), swath=SWATH)
@example(outline=SIX_POINTED, swath=0.6)
def test_no_long_edge_offers_a_heading_with_fewer_strips(outline: Points, swath: float) -> None:
    shape = polygon((outline, []))
    found = plan((outline, []), swath_m=swath, header_strips=0)["heading_deg"]
    # A line that grazes a corner cuts a strip too short to walk; the choice of heading counts it all the same.
    least = min(strips_at(shape, heading, swath, 0.0) for heading in sighted(shape))
    assert strips_at(shape, found, swath, 0.01) <= least


def test_a_round_bed_does_not_turn_the_strips_of_a_lawn() -> None:
    """A ring of many short edges offers many headings; along none of them can a person sight."""
    bed = [(14 + 1.5 * math.cos(at * math.pi / 12), 8 + 1.5 * math.sin(at * math.pi / 12)) for at in range(24)]
    notched = [(0.0, 0.0), (8.0, 0.0), (8.0, 3.0), (12.0, 3.0), (12.0, 0.0), *LAWN[1:]]
    assert plan((notched, [bed]), swath_m=1.5)["heading_deg"] in (0.0, 90.0)


@given(ground=grounds(), swath=SWATH, turn=st.floats(0, 360), east=st.floats(-900, 900))
def test_a_plan_turns_and_moves_with_its_ground(ground: Ground, swath: float, turn: float, east: float) -> None:
    shape = polygon(ground)
    moved = affinity.translate(affinity.rotate(shape, -turn, origin=(0, 0)), east, -east)
    rings = [list(ring.coords)[:-1] for ring in (moved.exterior, *moved.interiors)]
    here = plan(ground, swath_m=swath, heading_deg=0)
    there = plan((rings[0], rings[1:]), swath_m=swath, heading_deg=turn)
    lengths = [
        sorted(strip["length_m"] for strip in one["strips"] if strip["length_m"] > 0.2 * swath) for one in (here, there)
    ]
    assume(len(lengths[0]) == len(lengths[1]))  # a strip on an edge, or as short as the shortest, may fall either way
    assert all(math.isclose(a, b, abs_tol=1e-5) for a, b in zip(*lengths, strict=True))


@given(ground=grounds(), swath=SWATH, load=st.floats(0, 40), rate=st.floats(0.001, 0.1))
def test_what_is_left_falls_with_the_length_walked(ground: Ground, swath: float, load: float, rate: float) -> None:
    shape = polygon(ground)
    found = plan(ground, swath_m=swath, load_kg=load, rate_kg_m2=rate, speed_m_s=1.2)
    lengths = [LineString(row["points_m"]).length for row in found["order"]]
    walked = 0.0
    for row, length in zip(found["order"], lengths, strict=True):
        walked += length
        assert math.isclose(row["length_m"], length, rel_tol=1e-9)
        assert math.isclose(row["done_share"], walked / math.fsum(lengths), rel_tol=1e-9)
        wanted = max(0.0, load - rate * shape.area * walked / math.fsum(lengths))
        assert math.isclose(row["left_kg"], wanted, rel_tol=1e-6, abs_tol=1e-6)
    ends = pairwise(found["order"])
    ways = [math.dist(one["points_m"][-1], other["points_m"][0]) for one, other in ends]
    assert math.isclose(found["distance_m"], math.fsum(lengths) + math.fsum(ways), rel_tol=1e-9)
    assert math.isclose(found["minutes"] * 60 * 1.2, found["distance_m"], rel_tol=1e-9)
    assert found["turns"] == max(0, len(found["strips"]) - 1)
    assert [row["kind"] for row in found["order"]] == ["header"] * len(found["headers"]) + ["strip"] * len(
        found["strips"]
    )


@given(outlines=st.lists(stepped(), min_size=1, max_size=3), bare=st.integers(0, 2), swath=SWATH)
def test_a_tour_numbers_rows_across_zones_and_adds_their_plans_up(
    outlines: list[Points], bare: int, swath: float
) -> None:
    zones: list[dict[str, Any]] = [{"id": f"bare{at}", "area_m2": 50.0} for at in range(bare)]
    for at, outline in enumerate(outlines):
        shape = polygon((outline, []))
        zones.append({"id": f"z{at}", "area_m2": shape.area, "outline_m": outline})
    found = value("swath.tour", zones=zones, swath_m=swath, load_kg=90.0, rate_kg_m2=0.02, speed_m_s=1.0)
    whole = math.fsum(zone["area_m2"] for zone in zones)
    assert [row["number"] for row in found["rows"]] == list(range(1, found["strips_total"] + 1))
    for row in found["rows"]:
        assert math.isclose(row["done_area_m2"] + row["to_go_area_m2"], whole, rel_tol=1e-9)
        assert math.isclose(row["left_kg"], max(0.0, 90.0 - 0.02 * row["done_area_m2"]), rel_tol=1e-9, abs_tol=1e-9)
    done = [row["done_area_m2"] for row in found["rows"]]
    assert done == sorted(done)
    for zone, said in zip(zones, found["zones"], strict=True):
        rows = [row for row in found["rows"] if row["zone_id"] == zone["id"]]
        assert [row["of_zone"] for row in rows] == list(range(1, len(rows) + 1))
        if "outline_m" in zone:
            alone = plan((zone["outline_m"], []), swath_m=swath, speed_m_s=1.0)
            assert [row["points_m"] for row in rows] == rows_of(alone)
            assert all(said[key] == alone[key] for key in ("distance_m", "minutes", "turns", "covered_share"))
        else:
            assert [(row["kind"], row["points_m"], row["length_m"]) for row in rows] == [("whole", None, None)]
    assert math.isclose(rows[-1]["done_area_m2"], whole, rel_tol=1e-9)


@pytest.mark.parametrize(
    ("ground", "code", "name"),
    [
        (([(0, 0), (9, 9), (9, 0), (0, 9)], []), "crossing", "outline_m"),
        ((LAWN, [[(30, 30), (31, 30), (31, 31)]]), "outside", "holes_m[0]"),
        ((LAWN, [[(18, 5), (22, 5), (22, 7)]]), "outside", "holes_m[0]"),
        ((LAWN, [[(2, 2), (4, 2), (4, 4)], [(3, 2.5), (6, 2.5), (6, 3)]]), "outside", "holes_m[1]"),
        ((LAWN, [[(2, 2), (4, 4), (4, 2), (2, 4)]]), "crossing", "holes_m[0]"),
        (([(0, 0), (9, 9)], []), "wrong_count", "outline_m"),
    ],
)
def test_ground_that_cannot_be_is_refused_by_name(ground: Ground, code: str, name: str) -> None:
    refused = error("swath.walk_plan", outline_m=ground[0], holes_m=ground[1], swath_m=1.5)
    assert (refused["code"], refused["name"]) == (code, name)
    zone = {"id": "z", "area_m2": 9.0, "outline_m": ground[0], "holes_m": ground[1]}
    refused = error("swath.tour", zones=[{"id": "y", "area_m2": 9.0}, zone], swath_m=1.5)
    assert (refused["code"], refused["name"]) == (code, f"zones[1].{name}")


def test_a_swath_far_too_narrow_for_the_ground_is_refused_with_the_least_that_is_not() -> None:
    field: Points = [(0, 0), (300, 0), (300, 240), (0, 240)]
    refused = error("swath.walk_plan", outline_m=field, swath_m=0.2)
    assert (refused["code"], refused["name"], refused["value"]) == ("out_of_range", "swath_m", 0.2)
    assert plan((field, []), swath_m=refused["low"] * 1.001)["covered_share"] >= 0.99


@given(st.floats(12, 60), st.floats(12, 60), st.floats(0.8, 3))
def test_the_outermost_track_of_a_rotary_throws_an_eighth_over_the_edge(long: float, wide: float, swath: float) -> None:
    """A peaked throw reaching the next track: SciPy's triangle past half a swath, over all that is walked."""
    found = value("swath.walk_plan", outline_m=[[0, 0], [long, 0], [long, wide], [0, wide]], swath_m=swath)
    past = float(stats.triang.sf(swath / 2, 0.5, loc=-swath, scale=2 * swath))
    edge = 2 * (long + wide) - 4 * swath
    walked = sum(row["length_m"] for row in found["order"])
    assert found["over_edge_share"] == pytest.approx(past * edge / walked, rel=1e-6)
