"""Ground that stays clear of water: an outline less everything nearer than a setback to its edges at the water.

Round each edge at the water lies a band with round ends, drawn with corners just outside the circle, so that no ground
within the setback is ever left in. What remains is joined from the outline outside the bands and the bands inside it.
"""

import math

from lawn.engine.core.errors import EngineError, impossible, out_of_range
from lawn.engine.core.numeric import listing, total, whole
from lawn.engine.ground.outline import MOST_CORNERS, line_of, signed_area_m2
from lawn.engine.route.frame import edge, edges_along, edges_of, left_over, length_of

TYPE_CHECKING = False
if TYPE_CHECKING:  # never true at run time
    from lawn.engine.route.frame import Edge, Point, Ring, Span

    Side = tuple[float, float, float]  # outward unit normal, and how far along it the band reaches
    Band = tuple[list[Side], Ring]  # its sides, and its corners anticlockwise

TURNS = 16  # corners of the two round ends of a band together
MOST_BANDS = 40  # more edges than that are joined; about a second on a phone
ROUGH = 0.01  # of the setback: edges that run on as straight as this are taken as one, the band as much wider
HAIR = 1e-6  # metres: a band's side along an edge of the ground lies this far beyond it
SLIVER = 1e-9  # metres: shorter pieces are dropped
JOIN = 1e-4  # metres: ends nearer than this are one place
LEAST_M2 = 1e-3  # smaller leftovers are no ground to walk


def edges_at_water(path: str, outline_m: object, value: object) -> "list[tuple[Point, Point]]":
    """Read the edges at the water, each as its two ends.

    Edge 0 goes from corner 0 to corner 1 of the outline as given; the last edge closes it.
    """
    corners = line_of(path + "outline_m", outline_m)
    count = len(corners)
    seen: list[int] = []
    for at, item in enumerate(listing(path + "water_edges", value, 0, MOST_CORNERS)):
        name = path + "water_edges[" + str(at) + "]"
        place = whole(name, item)
        if place >= count:
            raise out_of_range(name=name, value=place, low=0, high=count - 1)
        if place in seen:
            raise EngineError(code="repeated", name=name, value=place, message="This edge stands twice in the list.")
        seen.append(place)
    found = [(corners[place], corners[(place + 1) % count]) for place in sorted(seen)]
    return [one for one in found if one[0] != one[1]]


def length_at_water(water: "list[tuple[Point, Point]]") -> float:
    """Length of the edges at the water together [m]."""
    return total([math.sqrt((b[0] - a[0]) ** 2 + (b[1] - a[1]) ** 2) for a, b in water])


def kept_clear(rings: "list[Ring]", water: "list[tuple[Point, Point]]", setback_m: float) -> "list[Ring]":
    """What is left of the ground, as rings with the ground on their left, the largest first; none where nothing is.

    rings have the ground on their left.
    """
    if not water or setback_m <= 0.0:
        return rings
    bands = bands_of(water, setback_m)
    ground = edges_of(rings)
    pieces = [piece for one in ground for piece in _outside(one, bands)]
    for at in range(len(bands)):
        corners = bands[at][1]
        for here in range(len(corners)):
            (ax, ay), (bx, by) = corners[here - 1], corners[here]
            pieces += _within(edge(bx, by, ax, ay), ground, bands, at)
    found = [ring for ring in _rings(pieces) if abs(signed_area_m2(ring)) > LEAST_M2]
    return sorted(found, key=_largest_first)


def bands_of(water: "list[tuple[Point, Point]]", reach_m: float) -> "list[Band]":
    """Everything nearer to the edges than that."""
    return [_band(a, b, reach_m + wider + HAIR) for a, b, wider in _joined(water, reach_m)]


def cut_off(lines: "list[Ring]", bands: "list[Band]", shortest_m: float) -> "list[Ring]":
    """What of lines lies outside the bands; lines as they are where there are none."""
    if not bands:
        return lines
    found: list[Ring] = []
    for line in lines:
        for piece in edges_along(line):
            for one in _outside(piece, bands):
                start, end = (one[0], one[1]), (one[2], one[3])
                if found and found[-1][-1] == start:
                    found[-1].append(end)
                else:
                    found.append([start, end])
    return [line for line in found if length_of(line) > shortest_m]


def area_of(rings: "list[Ring]") -> float:
    """Area of rings with the ground on their left [m2]."""
    return total([signed_area_m2(ring) for ring in rings])


def left_or_raise(path: str, rings: "list[Ring]", water: "list[tuple[Point, Point]]", setback_m: float) -> "list[Ring]":
    """The same as kept_clear, refused where nothing is left to walk."""
    left = kept_clear(rings, water, setback_m)
    if not left:
        message = "All of this ground lies nearer to the water than that."
        raise impossible(name=path + "setback_m", value=setback_m, message=message)
    return left


def _joined(water: "list[tuple[Point, Point]]", setback_m: float) -> "list[tuple[Point, Point, float]]":
    """Edges that run on almost straight as one, with how far they leave its line; fewer where there are too many."""
    rough = ROUGH * setback_m
    while True:
        found = _runs(water, rough)
        if len(found) <= MOST_BANDS:
            return found
        rough = 2.0 * rough


def _runs(water: "list[tuple[Point, Point]]", rough: float) -> "list[tuple[Point, Point, float]]":
    found: list[tuple[Point, Point, float]] = []
    run: Ring = []
    for a, b in water:
        wider = _off_line(run + [b]) if run and run[-1] == a else rough + 1.0
        if wider <= rough and run[0] != b:
            run.append(b)
            found[-1] = (run[0], b, wider)
        else:
            run = [a, b]
            found.append((a, b, 0.0))
    return found


def _off_line(run: "Ring") -> float:
    """How far the corners between lie from the stretch between the first and the last."""
    (ax, ay), (bx, by) = run[0], run[-1]
    dx, dy = bx - ax, by - ay
    square = dx * dx + dy * dy
    most = 0.0
    for x, y in run[1:-1]:
        share = 0.0 if square <= 0.0 else min(1.0, max(0.0, ((x - ax) * dx + (y - ay) * dy) / square))
        most = max(most, math.sqrt((x - ax - share * dx) ** 2 + (y - ay - share * dy) ** 2))
    return most


def _band(a: "Point", b: "Point", reach: float) -> "Band":
    """Everything within reach of a stretch, as a ring of tangents."""
    first = math.atan2(b[1] - a[1], b[0] - a[0]) + math.pi / 2.0
    turn = 2.0 * math.pi / TURNS
    out = reach / math.cos(0.5 * turn)
    sides, corners = [], []
    for at in range(TURNS):
        nx, ny = math.cos(first + at * turn), math.sin(first + at * turn)
        sides.append((nx, ny, max(nx * a[0] + ny * a[1], nx * b[0] + ny * b[1]) + reach))
        # From the left side of the stretch round its start, then round its end.
        x, y = a if at < TURNS // 2 else b
        half = first + (at + 0.5) * turn
        corners.append((x + out * math.cos(half), y + out * math.sin(half)))
    return sides, corners


def _span(one: "Edge", sides: "list[Side]", more: float) -> "Span | None":
    """Where an edge runs within a band made wider by so much; None where it does not."""
    ax, ay, _, _, ex, ey, length = one
    low, high = 0.0, length
    for nx, ny, reach in sides:
        off, slope = nx * ax + ny * ay - reach - more, nx * ex + ny * ey
        if abs(slope) < 1e-12:
            if off > 0.0:
                return None
        elif slope > 0.0:
            high = min(high, -off / slope)
        else:
            low = max(low, -off / slope)
        if low >= high:
            return None
    return (low, high)


def _outside(one: "Edge", bands: "list[Band]", own: int = -1) -> "list[Edge]":
    """The parts of an edge outside all bands. Of two bands that end on one line the first listed keeps it."""
    cuts = []
    for at in range(len(bands)):
        if at != own:
            more = 0.0 if own < 0 else (SLIVER if at < own else -SLIVER)
            span = _span(one, bands[at][0], more)
            if span is not None:
                cuts.append(span)
    return [_part(one, low, high) for low, high in left_over(0.0, one[6], cuts) if high - low > SLIVER]


def _within(one: "Edge", ground: "list[Edge]", bands: "list[Band]", own: int) -> "list[Edge]":
    """The parts of a band's side that lie on the ground, outside the other bands."""
    return [part for kept in _on_ground(one, ground) for part in _outside(kept, bands, own)]


def _on_ground(one: "Edge", ground: "list[Edge]") -> "list[Edge]":
    """The parts of an edge that lie on the ground: its line is inside from each odd crossing to the next."""
    ax, ay, _, _, ex, ey, length = one
    met = []
    for other in ground:
        first = (other[0] - ax) * ey - (other[1] - ay) * ex
        last = (other[2] - ax) * ey - (other[3] - ay) * ex
        if (first > 0.0) != (last > 0.0):
            share = first / (first - last)
            x, y = other[0] + share * (other[2] - other[0]) - ax, other[1] + share * (other[3] - other[1]) - ay
            met.append(x * ex + y * ey)
    met.sort()
    found = []
    for at in range(0, len(met) - 1, 2):
        low, high = max(0.0, met[at]), min(length, met[at + 1])
        if high - low > SLIVER:
            found.append(_part(one, low, high))
    return found


def _part(one: "Edge", low: float, high: float) -> "Edge":
    if low <= 0.0 and high >= one[6]:
        return one
    ax, ay, bx, by, ex, ey, length = one
    start = (ax, ay) if low <= 0.0 else (ax + low * ex, ay + low * ey)
    end = (bx, by) if high >= length else (ax + high * ex, ay + high * ey)
    return edge(start[0], start[1], end[0], end[1])


def _rings(pieces: "list[Edge]") -> "list[Ring]":
    """Join pieces end to start into rings; what does not close is left out."""
    done = [False] * len(pieces)
    found = []
    for first in range(len(pieces)):
        ring: Ring = []
        at = first
        while at >= 0 and not done[at]:
            done[at] = True
            ring.append((pieces[at][0], pieces[at][1]))
            here = (pieces[at][2], pieces[at][3])
            if _near(here, ring[0]) and len(ring) > 2:
                found.append(ring)
                break
            at = _next_of(pieces, done, at)
    return found


def _next_of(pieces: "list[Edge]", done: list[bool], at: int) -> int:
    """The nearest piece not yet joined that begins where this one ends; -1 where none does."""
    x, y = pieces[at][2], pieces[at][3]
    best, found = JOIN, -1
    for to in range(len(pieces)):
        away = max(abs(pieces[to][0] - x), abs(pieces[to][1] - y))
        if not done[to] and away < best:
            best, found = away, to
    return found


def _near(a: "Point", b: "Point") -> bool:
    return abs(a[0] - b[0]) < JOIN and abs(a[1] - b[1]) < JOIN


def _largest_first(ring: "Ring") -> float:
    return -signed_area_m2(ring)
