"""Rings of straight edges: read, measured, and refused where they cross or touch.

A crossing outline has no area a person could mean, so it is refused rather than measured.
"""

import math

from lawn.engine.core.errors import EngineError, impossible, wrong_type
from lawn.engine.core.numeric import listing, number, total

LEAST_GROUND_M2 = 1e-6
MOST_LINE = 2000  # a round of the edge has more corners than the edge
MOST_HOLES = 40
MOST_CORNERS = 400  # every pair of edges is tried, about 0.1 s at this size on a phone


def ring_of(path: str, value: object) -> list[tuple[float, float]]:
    """Read a closed ring of corners: the repeated last corner and repeats in a row are dropped.

    Args:
        path: where the ring stands, for error names [text]
        value: list of [x, y] pairs in metres [list]
    Returns:
        ring: corners, at least 3, the first not repeated [list]
    Raises:
        wrong_count: fewer than 3 different corners or more than 400
        wrong_type: a corner is no pair of numbers
        out_of_range: a coordinate is outside -50000 to 50000 m
    Source: definition
    """
    ring: list[tuple[float, float]] = []
    for at, item in enumerate(listing(path, value, 3, MOST_CORNERS)):
        corner = _corner(path + "[" + str(at) + "]", item)
        if not ring or ring[-1] != corner:
            ring.append(corner)
    if len(ring) > 1 and ring[0] == ring[-1]:
        ring.pop()
    listing(path, ring, 3, MOST_CORNERS)
    return ring


def line_of(path: str, value: object) -> list[tuple[float, float]]:
    """Read an open line of corners, such as a row as walked; two corners at least, up to 2000."""
    corners = listing(path, value, 2, MOST_LINE)
    return [_corner(path + "[" + str(at) + "]", corners[at]) for at in range(len(corners))]


def signed_area_m2(ring: list[tuple[float, float]]) -> float:
    """Area inside a ring, positive when its corners run anticlockwise [m2].

    Measured from the first corner, so that ground far from the origin keeps its digits.
    """
    x0, y0 = ring[0]
    parts = []
    for at in range(1, len(ring) - 1):
        ax, ay = ring[at][0] - x0, ring[at][1] - y0
        bx, by = ring[at + 1][0] - x0, ring[at + 1][1] - y0
        parts.append(0.5 * (ax * by - bx * ay))
    return total(parts)


def enclosed_by(path: str, area_m2: float) -> float:
    """Return an outline's area, or raise `impossible` where it encloses no ground a person could stand on.

    Corners at 1e-308 enclose more than nothing and less than arithmetic can go on with.
    """
    if area_m2 < LEAST_GROUND_M2:
        raise impossible(name=path, value=area_m2, low=LEAST_GROUND_M2, message="This outline encloses no ground.")
    return area_m2


def perimeter_of(ring: list[tuple[float, float]]) -> float:
    """Length of a ring's edges [m]."""
    return total([distance(ring[at], ring[(at + 1) % len(ring)]) for at in range(len(ring))])


def corner_spread(ring: list[tuple[float, float]]) -> float:
    """Standard deviation of a ring's area for corners off by 1 m along each axis, each on its own [m2 per m].

    Moving corner i by (dx, dy) changes the area by the cross product of half the line from the corner before to the
    corner after.
    """
    count = len(ring)
    return 0.5 * math.sqrt(total([distance(ring[at - 1], ring[(at + 1) % count]) ** 2 for at in range(count)]))


def check_simple(path: str, ring: list[tuple[float, float]]) -> None:
    """Raise `crossing` where two edges of the ring meet anywhere but at the corner they share."""
    for first, second in crossings(ring, 1):
        raise _crossing(path, first, second)


def crossings(ring: list[tuple[float, float]], most: int) -> list[tuple[int, int]]:
    """Edges that meet anywhere but at the corner they share, as pairs of their first corners' places, at most `most`.

    Edge 0 goes from corner 0 to corner 1; the last edge closes the ring.
    """
    count = len(ring)
    found: list[tuple[int, int]] = []
    for first in range(count):
        a, b = ring[first], ring[(first + 1) % count]
        if _turns_back(a, b, ring[(first + 2) % count]):
            found.append((first, (first + 1) % count))
        for second in range(first + 2, count):
            if len(found) >= most:
                return found
            if first == 0 and second == count - 1:
                continue  # neighbours across the closing corner
            if _meet(a, b, ring[second], ring[(second + 1) % count]):
                found.append((first, second))
    return found[:most]


def read_ground(
    path: str,
    outline_m: object,
    holes_m: object,
    rounds: "list[tuple[str, list[tuple[float, float]]]] | None" = None,
    named: str = "outline_m",
) -> "tuple[list[list[tuple[float, float]]], list[float], float]":
    """Read an outline with its holes: the rings, outer edge first, their areas (holes below 0), and the area in all.

    path is put before the names of errors; named is the outline's own. rounds are round obstacles as rings, each with
    its name, cut out like the holes.
    """
    outer = ring_of(path + named, outline_m)
    check_simple(path + named, outer)
    items = [] if holes_m is None else listing(path + "holes_m", holes_m, 0, MOST_HOLES)
    paths = [path + "holes_m[" + str(at) + "]" for at in range(len(items))]
    holes = [ring_of(paths[at], item) for at, item in enumerate(items)]
    for at, hole in enumerate(holes):
        check_simple(paths[at], hole)
    paths.extend([name for name, _ in rounds or []])
    holes.extend([ring for _, ring in rounds or []])
    check_holes(outer, holes, paths)
    areas = [abs(signed_area_m2(outer))] + [-abs(signed_area_m2(hole)) for hole in holes]
    return [outer] + holes, areas, enclosed_by(path + named, total(areas))


def check_holes(
    outer: list[tuple[float, float]], holes: list[list[tuple[float, float]]], paths: "list[str] | None" = None
) -> None:
    """Raise `outside` where a hole leaves the outline or touches an edge or another hole.

    `paths` name the holes in errors; holes_m[0], holes_m[1] ... where not given.
    """
    for at, hole in enumerate(holes):
        path = "holes_m[" + str(at) + "]" if paths is None else paths[at]
        if _edges_meet(hole, outer) or not _inside(hole[0], outer):
            raise _outside(path, "This hole is not wholly inside the outline.")
        for other in holes[:at]:
            apart = not _inside(hole[0], other) and not _inside(other[0], hole)
            if _edges_meet(hole, other) or not apart:
                raise _outside(path, "This hole meets another hole.")


def _corner(path: str, item: object) -> tuple[float, float]:
    if not isinstance(item, (list, tuple)) or len(item) != 2:
        raise wrong_type(name=path, value=item, wanted="a pair of numbers, x and y")
    return (number(path, item[0], -50000.0, 50000.0), number(path, item[1], -50000.0, 50000.0))


def distance(a: tuple[float, float], b: tuple[float, float]) -> float:
    """Straight distance between two corners [m]."""
    return math.sqrt((b[0] - a[0]) ** 2 + (b[1] - a[1]) ** 2)


def _side(a: tuple[float, float], b: tuple[float, float], c: tuple[float, float]) -> float:
    """Positive when c lies left of the line from a to b, 0 when on it."""
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


def _between(a: tuple[float, float], b: tuple[float, float], c: tuple[float, float]) -> bool:
    across = min(a[0], b[0]) <= c[0] <= max(a[0], b[0])
    return across and min(a[1], b[1]) <= c[1] <= max(a[1], b[1])


def _meet(a: tuple[float, float], b: tuple[float, float], c: tuple[float, float], d: tuple[float, float]) -> bool:
    """Tell whether edge ab and edge cd share any point."""
    if min(a[0], b[0]) > max(c[0], d[0]) or max(a[0], b[0]) < min(c[0], d[0]):
        return False
    if min(a[1], b[1]) > max(c[1], d[1]) or max(a[1], b[1]) < min(c[1], d[1]):
        return False
    c_side, d_side = _side(a, b, c), _side(a, b, d)
    a_side, b_side = _side(c, d, a), _side(c, d, b)
    if _opposite(c_side, d_side) and _opposite(a_side, b_side):
        return True
    on_ab = (c_side == 0.0 and _between(a, b, c)) or (d_side == 0.0 and _between(a, b, d))
    return on_ab or (a_side == 0.0 and _between(c, d, a)) or (b_side == 0.0 and _between(c, d, b))


def _opposite(one: float, other: float) -> bool:
    return (one < 0.0 < other) or (other < 0.0 < one)


def _turns_back(a: tuple[float, float], b: tuple[float, float], c: tuple[float, float]) -> bool:
    """Tell whether the edge bc runs back over the edge ab."""
    along = (b[0] - a[0]) * (c[0] - b[0]) + (b[1] - a[1]) * (c[1] - b[1])
    return _side(a, b, c) == 0.0 and along < 0.0


def _edges_meet(one: list[tuple[float, float]], other: list[tuple[float, float]]) -> bool:
    for at in range(len(one)):
        a, b = one[at], one[(at + 1) % len(one)]
        for to in range(len(other)):
            if _meet(a, b, other[to], other[(to + 1) % len(other)]):
                return True
    return False


def _inside(point: tuple[float, float], ring: list[tuple[float, float]]) -> bool:
    """Count the edges a ray to the right crosses; points on an edge are met by _edges_meet before."""
    x, y = point
    inside = False
    for at in range(len(ring)):
        (x1, y1), (x2, y2) = ring[at], ring[(at + 1) % len(ring)]
        if (y1 > y) != (y2 > y) and x < x1 + (y - y1) / (y2 - y1) * (x2 - x1):
            inside = not inside
    return inside


def _crossing(path: str, first: int, second: int) -> EngineError:
    return EngineError(
        code="crossing",
        name=path,
        value="edges " + str(first + 1) + " and " + str(second + 1),
        message="The edge meets itself: two of its edges cross or touch. Put the corners in order round the ground.",
    )


def _outside(path: str, message: str) -> EngineError:
    return EngineError(code="outside", name=path, value="a list", message=message)
