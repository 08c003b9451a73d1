"""Parallel strips: the heading with fewest of them, where they lie, and how the ground clips them.

With header strips a strip ends where the headers' band begins. At an edge it meets square that is the band's
full width; at an edge it meets aslant it runs on by up to half a swath, so that its whole width reaches the
band: the distance kept is (headers - sin(slant) / 2) swaths, slant being 0 where the strip meets the edge square.
Round corners the distance kept is (headers - 1/2) swaths.
"""

import math

from lawn.engine.route.frame import TOUCH, band_span, disc_span, edges_of, framed, left_over

TYPE_CHECKING = False
if TYPE_CHECKING:  # never true at run time
    from lawn.engine.route.frame import Edge, Point, Ring, Span

    Strip = tuple[int, float, float, float]  # place of its line, u, from v, to v

LEAST_USE = 0.02  # of a swath: less new ground is not worth a strip
SHORTEST = 0.1  # of a swath: nobody walks a shorter strip between headers
SHORTEST_ALONE_M = 0.001
ALIKE = 1e-4  # sine of the angle below which two directions are one
MOST_DIRECTIONS = 12
SIGHTED = 0.25  # of the longest direction's edges: along less edge nobody can sight a strip (common practice)


def best_direction(rings: "list[Ring]", inner: "list[Ring]", swath: float) -> "Point":
    """Choose the direction of an edge that needs fewest strips; of those alike the shorter walk, then the first."""
    found = _directions(rings)
    if not inner:  # headers alone cover the ground: along its longest edge
        longest = max(edges_of(rings), key=_length)
        return _upwards(longest[4], longest[5])
    best = found[0]
    least: tuple[int, float] = (0, 0.0)
    for at, along in enumerate(found):
        cost = _cost(inner, along, swath)
        shorter = cost[0] == least[0] and cost[1] < least[1] * (1.0 - 1e-9)
        if at == 0 or cost[0] < least[0] or shorter:
            best, least = along, cost
    return best


def centres(inner: "list[Ring]", swath: float, offset: bool) -> list[float]:
    """Place the strips' middles over the framed lines the headers leave: evenly about the middle of them."""
    if not inner:
        return []
    low, high, count = _extent(inner, swath)
    middle = 0.5 * (low + high)
    if not offset:
        return [middle + (at - 0.5 * (count - 1)) * swath for at in range(count)]
    found = [middle + (at - 0.5 * count) * swath for at in range(count + 1)]
    half, least = 0.5 * swath, LEAST_USE * swath
    return [u for u in found if min(u + half, high) - max(u - half, low) > least and low < u + half and u - half < high]


def strips(rings: "list[Ring]", lines: list[float], swath: float, headers: int) -> "list[Strip]":
    """Clip lines at the given u to framed ground, less what the headers take."""
    edges = edges_of(rings)
    shortest = SHORTEST * swath if headers else SHORTEST_ALONE_M
    found = []
    for at, u in enumerate(lines):
        cuts = _taken(edges, u, swath, headers) if headers else []
        for low, high in ground_spans(edges, u):
            for start, end in left_over(low, high, cuts):
                if end - start > shortest:
                    found.append((at, u, start, end))
    return found


def ground_spans(edges: "list[Edge]", u: float) -> "list[Span]":
    """Where the line at u lies on the ground; a line along an edge counts as a hair to its left."""
    line = u - TOUCH
    crossings = []
    for one in edges:
        ua, ub = one[0], one[2]
        if (ua > line) != (ub > line):
            crossings.append(one[1] + (u - ua) / (ub - ua) * (one[3] - one[1]))
    crossings.sort()
    return [(crossings[at], crossings[at + 1]) for at in range(0, len(crossings) - 1, 2)]


def _taken(edges: "list[Edge]", u: float, swath: float, headers: int) -> "list[Span]":
    """What the headers take of the line at u; as in ground_spans it counts as a hair to its left."""
    cuts = []
    line = u - TOUCH
    corner = (headers - 0.5) * swath
    widest = headers * swath
    for one in edges:
        ua, ub = one[0], one[2]
        if (ua > u + widest and ub > u + widest) or (ua < u - widest and ub < u - widest):
            continue
        reach = (headers - 0.5 * abs(one[5])) * swath
        for span in (band_span(line, 0.0, 0.0, 1.0, one, reach), disc_span(line - ua, -one[1], 0.0, 1.0, corner)):
            if span is not None:
                cuts.append(span)
    return cuts


def _extent(inner: "list[Ring]", swath: float) -> tuple[float, float, int]:
    low, high = inner[0][0][0], inner[0][0][0]
    for line in inner:
        for u, _ in line:
            low, high = min(low, u), max(high, u)
    return low, high, max(1, math.ceil((high - low) / swath - 1e-6))


def _cost(inner: "list[Ring]", along: "Point", swath: float) -> tuple[int, float]:
    """Count the strips a heading needs and add their lengths, from where each edge crosses the strips' lines."""
    turned = framed(inner, along)
    low, high, count = _extent(turned, swath)
    first = 0.5 * (low + high) - 0.5 * (count - 1) * swath
    ends, length = 0, 0.0
    for line in turned:
        before, ua, va = 0, 0.0, 0.0
        for at in range(len(line)):
            ub, vb = line[at]
            here = min(count, max(0, math.ceil((ub - first) / swath - 1e-9)))
            if at and here != before:
                mean = first + 0.5 * (before + here - 1) * swath
                length -= (here - before) * (va + (mean - ua) / (ub - ua) * (vb - va))
                ends += abs(here - before)
            before, ua, va = here, ub, vb
    return (ends // 2, length)


def _directions(rings: "list[Ring]") -> "list[Point]":
    """Directions worth trying, each once: of the outline's hull and the edges, where enough of them runs that way."""
    found: list[Point] = []
    lengths: list[float] = []
    for one in edges_of(rings) + edges_of([_hull([place for ring in rings for place in ring])]):
        x, y = _upwards(one[4], one[5])
        at = 0
        while at < len(found) and abs(x * found[at][1] - y * found[at][0]) > ALIKE:
            at += 1
        if at == len(found):
            found.append((x, y))
            lengths.append(0.0)
        lengths[at] -= one[6]
    least = SIGHTED * min(lengths)  # lengths are kept below 0, so that the longest sorts first
    ranked = sorted([(lengths[at], at) for at in range(len(found)) if lengths[at] <= least])
    return [found[at] for _, at in sorted(ranked[:MOST_DIRECTIONS], key=_place)]


def _length(one: "Edge") -> float:
    return one[6]


def _place(ranked: tuple[float, int]) -> int:
    return ranked[1]


def _upwards(x: float, y: float) -> "Point":
    """The same direction with a heading from 0 to below 180 degrees; a hair off the axes counts as on them."""
    if abs(x) < 1e-9:
        return (0.0, 1.0)
    if abs(y) < 1e-9:
        return (1.0, 0.0)
    return (x, y) if x > 0.0 else (-x, -y)


def _hull(ring: "Ring") -> "Ring":
    """Corners of the least convex ring round a ring."""
    sides = []
    for points in (sorted(ring), sorted(ring)[::-1]):
        side: Ring = []
        for x, y in points:
            while len(side) > 1 and _right(side[-2], side[-1], x, y):
                side.pop()
            side.append((x, y))
        sides += side[:-1]
    return sides


def _right(a: "Point", b: "Point", x: float, y: float) -> bool:
    return (b[0] - a[0]) * (y - a[1]) - (b[1] - a[1]) * (x - a[0]) <= 0.0
