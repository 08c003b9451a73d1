"""The ground of a walk plan: its edges, turned into the frame of a heading, and distances from them.

An edge is (ax, ay, bx, by, ex, ey, length): its ends, its unit vector and its length, with the ground on its
left. Places are measured from the first corner, so that ground far from the origin keeps its digits.
In the frame of a heading a place is (u, v): u across to the right of the walker, v along the heading.
"""

import math

from lawn.engine.core.numeric import total
from lawn.engine.ground.outline import read_ground, signed_area_m2

TYPE_CHECKING = False
if TYPE_CHECKING:  # never true at run time
    Point = tuple[float, float]
    Ring = list[Point]
    Edge = tuple[float, float, float, float, float, float, float]
    Span = tuple[float, float]

TOUCH = 1e-9  # metres: nearer than this is the same place


def ground_of(path: str, outline_m: object, holes_m: object) -> "tuple[list[Ring], float]":
    """Read an outline and its holes: rings with the ground on the left, and the area in m2.

    path is put before the names of errors. Raises what area.outline raises.
    """
    read, _, area_m2 = read_ground(path, outline_m, holes_m)
    return [_turned(read[0], True)] + [_turned(hole, False) for hole in read[1:]], area_m2


def edges_of(rings: "list[Ring]") -> "list[Edge]":
    """List the edges of rings, one after another."""
    found = []
    for ring in rings:
        for at in range(len(ring)):
            (ax, ay), (bx, by) = ring[at], ring[(at + 1) % len(ring)]
            found.append(edge(ax, ay, bx, by))
    return found


def edges_along(row: "Ring") -> "list[Edge]":
    """List a row's straight pieces."""
    found = []
    for at in range(len(row) - 1):
        (ax, ay), (bx, by) = row[at], row[at + 1]
        if ax != bx or ay != by:
            found.append(edge(ax, ay, bx, by))
    return found


def edge(ax: float, ay: float, bx: float, by: float) -> "Edge":
    """Build an edge from its ends."""
    dx, dy = bx - ax, by - ay
    length = math.sqrt(dx * dx + dy * dy)
    return (ax, ay, bx, by, dx / length, dy / length, length)


def shifted(rings: "list[Ring]", x0: float, y0: float) -> "list[Ring]":
    """Move rings so that (x0, y0) becomes the origin."""
    return [[(x - x0, y - y0) for x, y in ring] for ring in rings]


def framed(rings: "list[Ring]", along: "Point") -> "list[Ring]":
    """Turn places into (u, v) for a heading given as a unit vector."""
    sx, sy = along
    return [[(x * sy - y * sx, x * sx + y * sy) for x, y in ring] for ring in rings]


def unframed(ring: "Ring", along: "Point", x0: float, y0: float) -> "Ring":
    """Turn places (u, v) back into x and y."""
    sx, sy = along
    return [(x0 + u * sy + v * sx, y0 - u * sx + v * sy) for u, v in ring]


def direction(heading_deg: float) -> "Point":
    """Unit vector of a heading, 0 along +y and clockwise; exact for the four quarters."""
    turn = heading_deg % 360.0
    if turn % 90.0 == 0.0:
        return ((0.0, 1.0), (1.0, 0.0), (0.0, -1.0), (-1.0, 0.0))[int(turn / 90.0)]
    return (math.sin(math.radians(turn)), math.cos(math.radians(turn)))


def heading(along: "Point") -> float:
    """Heading of a unit vector in degrees, at least 0 and below 360."""
    turn = math.degrees(math.atan2(along[0], along[1]))
    return turn + 360.0 if turn < 0.0 else turn


def disc_span(px: float, py: float, wx: float, wy: float, radius: float) -> "Span | None":
    """Where the line (px, py) + q (wx, wy) runs through the disc round the origin: from q to q."""
    b = px * wx + py * wy
    root = b * b - (px * px + py * py) + radius * radius
    if root <= TOUCH * radius:
        return None
    half = math.sqrt(root)
    return (-b - half, -b + half)


def band_span(px: float, py: float, wx: float, wy: float, one: "Edge", radius: float) -> "Span | None":
    """Where the line runs through the rectangle that lies `radius` to either side of an edge."""
    ax, ay, _, _, ex, ey, length = one
    dx, dy = px - ax, py - ay
    low, high = -1e18, 1e18
    beside = 2.0 * TOUCH  # a line along the rectangle's side does not run through it
    for start, slope, least, most, outside in (
        (dx * ex + dy * ey, wx * ex + wy * ey, 0.0, length, 0.0),
        (dy * ex - dx * ey, wy * ex - wx * ey, -radius, radius, beside),
    ):
        if -1e-12 < slope < 1e-12:
            if start <= least + outside or start >= most - outside:
                return None
            continue
        first, second = (least - start) / slope, (most - start) / slope
        low, high = max(low, min(first, second)), min(high, max(first, second))
        if low >= high:
            return None
    return (low, high)


def capsule_span(px: float, py: float, wx: float, wy: float, one: "Edge", radius: float) -> "Span | None":
    """Where the line comes nearer to an edge than radius: from q to q, None where it does not."""
    ax, ay, bx, by = one[0], one[1], one[2], one[3]
    low, high = 1e18, -1e18
    for span in (
        disc_span(px - ax, py - ay, wx, wy, radius),
        disc_span(px - bx, py - by, wx, wy, radius),
        band_span(px, py, wx, wy, one, radius),
    ):
        if span is not None:
            low, high = min(low, span[0]), max(high, span[1])
    return (low, high) if low < high else None


def left_over(low: float, high: float, cuts: "list[Span]") -> "list[Span]":
    """Give what remains of low to high when the cuts are taken out."""
    kept = []
    at = low
    for start, end in sorted(cuts):
        if start > at:
            kept.append((at, min(start, high)))
        at = max(at, end)
        if at >= high:
            return kept
    kept.append((at, high))
    return kept


def length_of(line: "Ring") -> float:
    """Length of a line of straight pieces [m]."""
    parts = []
    for at in range(len(line) - 1):
        dx, dy = line[at + 1][0] - line[at][0], line[at + 1][1] - line[at][1]
        parts.append(math.sqrt(dx * dx + dy * dy))
    return total(parts)


def _turned(ring: "Ring", anticlockwise: bool) -> "Ring":
    if (signed_area_m2(ring) > 0.0) == anticlockwise:
        return ring
    return [ring[0]] + ring[:0:-1]
