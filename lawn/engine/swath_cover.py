"""How much of the ground the rows of a walk cover, how much they cover twice, and what they miss.

The ground is cut by scan lines along the heading, one in the middle of each slab between the places where
coverage changes. On a scan line everything is exact: ground, the rectangle half a swath to either side of
every straight piece, and the discs that round off the outside of a row's corners.
"""

import math

from lawn.engine.numeric import total
from lawn.engine.swath_ground import band_span, disc_span, edge, edges_of
from lawn.engine.swath_lines import ground_spans

TYPE_CHECKING = False
if TYPE_CHECKING:  # never true at run time
    from lawn.engine.swath_ground import Edge, Ring, Span

    Missed = tuple[float, float, float, float]  # u, width of the slab, from v, to v
    Seen = tuple[float, float, int, int, int]  # from v, to v, row, place, places in the row

FEWEST_LINES = 48
MOST_LINES = 400


def cover(rings: "list[Ring]", rows: "list[Ring]", swath: float) -> "tuple[float, float, float, list[Missed]]":
    """Measure framed rows over framed ground.

    Returns ground, covered and doubled area in m2, and the missed pieces of scan lines as (u, width, from v, to v).
    Doubled is ground under two pieces of rows that do not follow each other in one row.
    """
    edges = edges_of(rings)
    pieces = [edges_along(row) for row in rows]
    lines = _lines(edges, pieces, swath)
    seen, rounded = _seen(lines, pieces, 0.5 * swath)
    ground, covered, doubled = [], [], []
    missed = []
    for at in range(len(lines)):
        u, width = lines[at]
        spans = ground_spans(edges, u)
        under = [(one[0], one[1]) for one in seen[at]] + rounded[at]
        gaps = _gaps(spans, under)
        whole = total([high - low for low, high in spans])
        lost = total([high - low for low, high in gaps])
        ground.append(width * whole)
        covered.append(width * (whole - lost))
        twice = _twice(seen[at])
        if twice:
            once = total([high - low for low, high in _gaps(spans, twice)])
            doubled.append(width * (whole - once))
        missed += [(u, width, low, high) for low, high in gaps]
    return total(ground), total(covered), total(doubled), missed


def edges_along(row: "Ring") -> "list[Edge]":
    """List a row's straight pieces."""
    found = []
    for at in range(len(row) - 1):
        (ax, ay), (bx, by) = row[at], row[at + 1]
        if ax != bx or ay != by:
            found.append(edge(ax, ay, bx, by))
    return found


def _lines(edges: "list[Edge]", pieces: "list[list[Edge]]", swath: float) -> "list[Span]":
    """Scan lines as (u, width of their slab): slabs end where something runs along the heading."""
    low, high = edges[0][0], edges[0][0]
    for one in edges:
        low, high = min(low, one[0]), max(high, one[0])
    nearly = 0.2 * swath
    ends = [one[0] for one in edges if abs(one[2] - one[0]) < nearly]
    for row in pieces:
        for one in row:
            if abs(one[2] - one[0]) < nearly:
                middle = 0.5 * (one[0] + one[2])
                ends += [middle - 0.5 * swath, middle + 0.5 * swath]
    most = max(min(0.25 * swath, (high - low) / FEWEST_LINES), (high - low) / MOST_LINES)
    found = []
    before = low
    for end in sorted(ends) + [high]:
        end = min(max(end, low), high)
        if end - before < 0.1 * most and end < high:
            continue
        count = math.ceil((end - before) / most - 1e-9)
        for at in range(count):
            found.append((before + (at + 0.5) * (end - before) / count, (end - before) / count))
        before = max(before, end)
    return found


def _seen(lines: "list[Span]", pieces: "list[list[Edge]]", half: float) -> "tuple[list[list[Seen]], list[list[Span]]]":
    """For each scan line what of it lies under each piece, and under the round outside of corners."""
    seen: list[list[Seen]] = [[] for _ in lines]
    rounded: list[list[Span]] = [[] for _ in lines]
    for row in range(len(pieces)):
        many = len(pieces[row])
        for place in range(many):
            one = pieces[row][place]
            spread = half * abs(one[5])
            low, high = min(one[0], one[2]) - spread, max(one[0], one[2]) + spread
            for at in range(_first_at(lines, low), _first_at(lines, high)):
                span = band_span(lines[at][0], 0.0, 0.0, 1.0, one, half)
                if span is not None:
                    seen[at].append((span[0], span[1], row, place, many))
            last = place == many - 1
            closed = many > 2 and pieces[row][0][0] == one[2] and pieces[row][0][1] == one[3]
            if last and not closed:
                continue
            for at in range(_first_at(lines, one[2] - half), _first_at(lines, one[2] + half)):
                span = disc_span(lines[at][0] - one[2], -one[3], 0.0, 1.0, half)
                if span is not None:
                    rounded[at].append(span)
    return seen, rounded


def _first_at(lines: "list[Span]", u: float) -> int:
    """Place of the first scan line at or beyond u."""
    low, high = 0, len(lines)
    while low < high:
        middle = (low + high) // 2
        if lines[middle][0] < u:
            low = middle + 1
        else:
            high = middle
    return low


def _gaps(spans: "list[Span]", under: "list[Span]") -> "list[Span]":
    """What of the spans does not lie under anything; both are sorted here."""
    found = []
    under.sort()
    for low, high in spans:
        at = low
        for start, end in under:
            if start >= high:
                break
            if start > at:
                found.append((at, start))
            if end > at:
                at = end
        if at < high:
            found.append((at, high))
    return found


def _twice(seen: "list[Seen]") -> "list[Span]":
    """Where two pieces overlap that do not follow each other in one row."""
    found = []
    seen.sort()
    for first in range(len(seen)):
        one = seen[first]
        for second in range(first + 1, len(seen)):
            other = seen[second]
            if other[0] >= one[1]:
                break
            if one[2] != other[2] or abs(one[3] - other[3]) not in (1, one[4] - 1):
                found.append((other[0], min(one[1], other[1])))
    return found
