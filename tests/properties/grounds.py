"""Pieces of ground drawn by Hypothesis, and Shapely's answer to what rows of a spreading job cover.

Bands are taken a hair wider where they are joined and a hair narrower where they are overlapped, so that no two only
touch: GEOS 3.14 now and then drops a rectangle from a union of touching ones, or takes two that touch for one (seen
as a covered share that was 3 to 7 % short).
"""

import math
from typing import Any

import shapely
from hypothesis import strategies as st
from shapely.geometry import LineString, Point, Polygon

HAIR = 1e-6  # metres
Points = list[tuple[float, float]]


def ring(reaches: list[float], turns: list[float]) -> Points:
    """A ring once round the origin: a corner for each reach, its angle moved within its sector."""
    count = len(reaches)
    angles = [2 * math.pi * (at + turn) / count for at, turn in enumerate(turns)]
    return [(reach * math.cos(angle), reach * math.sin(angle)) for reach, angle in zip(reaches, angles, strict=True)]


@st.composite
def stars(draw: st.DrawFn) -> Points:
    """Corners in order round a point, near and far."""
    count = draw(st.integers(3, 14))
    reaches = draw(st.lists(st.integers(12, 40).map(lambda n: n / 2), min_size=count, max_size=count))
    turns = draw(st.lists(st.integers(1, 9).map(lambda n: n / 10), min_size=count, max_size=count))
    return ring(reaches, turns)


@st.composite
def spiked(draw: st.DrawFn) -> Points:
    """Long spikes and deep bays, turn about."""
    count = draw(st.integers(3, 8))
    far = draw(st.lists(st.integers(8, 22), min_size=count, max_size=count))
    near = draw(st.lists(st.integers(4, 12).map(lambda n: n / 2), min_size=count, max_size=count))
    turns = draw(st.lists(st.integers(3, 7).map(lambda n: n / 10), min_size=2 * count, max_size=2 * count))
    return ring([float(reach) for pair in zip(far, near, strict=True) for reach in pair], turns)


@st.composite
def stepped(draw: st.DrawFn) -> Points:
    """Square corners only: a skyline of towers, some of them narrow, turned by any angle."""
    towers = draw(
        st.lists(st.tuples(st.sampled_from([0.5, 0.8, 1, 2, 3, 5]), st.integers(1, 8)), min_size=2, max_size=8)
    )
    scale = draw(st.sampled_from([1.0, 1.3, 2.0, 3.0]))
    top: Points = []
    across = 0.0
    for width, height in towers:
        top += [(across * scale, height * scale), ((across + width) * scale, height * scale)]
        across += width
    turn = draw(st.sampled_from([0.0, 0.3, math.pi / 4, 1.1]))
    corners = [(0.0, 0.0), (across * scale, 0.0), *top[::-1]]
    cos, sin = math.cos(turn), math.sin(turn)
    turned = [(x * cos - y * sin, x * sin + y * cos) for x, y in corners]
    return [p for at, p in enumerate(turned) if p != turned[at - 1]]


@st.composite
def grounds(draw: st.DrawFn) -> tuple[Points, list[Points]]:
    """Ground of any of the three sorts, with up to three obstacles that lie inside and apart."""
    outline = draw(st.one_of(stars(), spiked(), stepped()))
    ground = Polygon(outline)
    holes: list[Points] = []
    west, south, east, north = ground.bounds
    for _ in range(draw(st.integers(0, 3))):
        x, y = draw(st.floats(0, 1)), draw(st.floats(0, 1))
        size = draw(st.sampled_from([0.2, 0.6, 1.5, 3.0]))
        reaches = [size * n for n in draw(st.lists(st.floats(0.4, 1), min_size=3, max_size=6))]
        shape = ring(reaches, [0.5] * len(reaches))
        hole = [(west + x * (east - west) + dx, south + y * (north - south) + dy) for dx, dy in shape]
        cut = Polygon(hole)
        apart = all(cut.disjoint(Polygon(other)) for other in holes)
        if cut.is_valid and ground.is_valid and ground.contains_properly(cut) and apart:
            holes.append(hole)
    return outline, holes


def rows_of(plan: dict[str, Any]) -> list[list[list[float]]]:
    """The rows of a plan as walked, each a list of places."""
    return [row["points_m"] for row in plan["order"]]


def covered(rows: list[list[list[float]]], ground: Polygon, swath: float) -> float:
    """Share of the ground within half a swath of a row, row ends cut off square."""
    bands = [LineString(row).buffer(swath / 2 + HAIR, cap_style="flat") for row in rows]
    return float(shapely.union_all(bands).intersection(ground).area / ground.area)


def doubled(rows: list[list[list[float]]], ground: Polygon, swath: float) -> float:
    """Share of the ground under two straight pieces that do not follow each other in one row."""
    pieces = [
        (at, place, len(row) - 1, LineString(row[place : place + 2]).buffer(swath / 2 - HAIR, cap_style="flat"))
        for at, row in enumerate(rows)
        for place in range(len(row) - 1)
    ]
    twice = []
    for first, one in enumerate(pieces):
        for other in pieces[first + 1 :]:
            follow = one[0] == other[0] and abs(one[1] - other[1]) in (1, one[2] - 1)
            if not follow and one[3].intersects(other[3]):
                both = one[3].intersection(other[3])
                twice += [both] if both.geom_type == "Polygon" and both.area > 1e-9 else []
    return float(shapely.union_all(twice).intersection(ground).area / ground.area) if twice else 0.0


def furthest_outside(rows: list[list[list[float]]], ground: Polygon) -> float:
    """How far any row leaves the ground at most, looked at every 5 cm."""
    outside = [LineString(row).difference(ground).segmentize(0.05) for row in rows]
    places = shapely.get_coordinates(outside)
    return max((ground.distance(Point(x, y)) for x, y in places.tolist()), default=0.0)
