"""How much of the ground the rows of a walk cover, how much they cover twice, and what they miss.

The ground is cut by scan lines along the heading, one in the middle of each slab between the places where
coverage changes. On a scan line everything is exact: ground, the rectangle half a swath to either side of
every straight piece, and the discs that round off the outside of a row's corners.
"""

import math

from lawn.engine.route.frame import disc_span, edges_along, edges_of

TYPE_CHECKING = False
if TYPE_CHECKING:  # never true at run time
    from lawn.engine.route.frame import Edge, Ring, Span

    Missed = tuple[float, float, float, float]  # u, width of the slab, from v, to v
    Seen = tuple[float, float, int, int, int]  # from v, to v, row, place, places in the row

FEWEST_LINES = 128
MOST_LINES = 400


def cover(rings: "list[Ring]", rows: "list[Ring]", swath: float) -> "tuple[float, float, float, list[Missed]]":
    """Measure framed rows over framed ground.

    Returns ground, covered and doubled area in m2, and the missed pieces of scan lines as (u, width, from v, to v).
    Doubled is ground under two pieces of rows that do not follow each other in one row.
    """
    edges = edges_of(rings)
    pieces = [edges_along(row) for row in rows]
    lines = _lines(edges, pieces, swath)
    spans = _ground(lines, edges)
    seen, rounded = _seen(lines, pieces, 0.5 * swath)
    ground = covered = doubled = 0.0
    missed = []
    for at in range(len(lines)):
        u, width = lines[at]
        whole = _length(spans[at])
        gaps = _gaps(spans[at], [(one[0], one[1]) for one in seen[at]] + rounded[at])
        ground += width * whole
        covered += width * (whole - _length(gaps))
        twice = _twice(seen[at])
        if twice:
            doubled += width * (whole - _length(_gaps(spans[at], twice)))
        for low, high in gaps:
            missed.append((u, width, low, high))
    return ground, covered, doubled, missed


def _length(spans: "list[Span]") -> float:
    length = 0.0
    for low, high in spans:
        length += high - low
    return length


def _ground(lines: "list[Span]", edges: "list[Edge]") -> "list[list[Span]]":
    """Where each scan line lies on the ground."""
    crossings: list[list[float]] = [[] for _ in lines]
    for one in edges:
        ua, va, ub, vb = one[0], one[1], one[2], one[3]
        first, last = _first_at(lines, min(ua, ub)), _first_at(lines, max(ua, ub))
        if first < last:
            slope = (vb - va) / (ub - ua)
            for at in range(first, last):
                crossings[at].append(va + (lines[at][0] - ua) * slope)
    found = []
    for met in crossings:
        met.sort()
        found.append([(met[at], met[at + 1]) for at in range(0, len(met) - 1, 2)])
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
    most = max(min(0.5 * swath, (high - low) / FEWEST_LINES), (high - low) / MOST_LINES)
    found = []
    before = low
    for end in sorted(ends) + [high]:
        end = min(max(end, low), high)
        if end - before < 0.01 * most and end < high:
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
            first, last = _first_at(lines, low), _first_at(lines, high)
            for start, end, at in _under(lines, first, last, one, half):
                seen[at].append((start, end, row, place, many))
            if place == many - 1:
                continue  # where a ring closes it is taken to end square, as any row
            after = pieces[row][place + 1]
            for at in range(_first_at(lines, one[2] - half), _first_at(lines, one[2] + half)):
                wedge = _wedge(lines[at][0], one, after, half)
                if wedge is not None:
                    rounded[at].append(wedge)
    return seen, rounded


def _under(lines: "list[Span]", first: int, last: int, one: "Edge", half: float) -> "list[tuple[float, float, int]]":
    """What of scan lines lies in the rectangle half a swath to either side of a piece."""
    ax, ay, _, by, ex, ey, length = one
    if abs(ex) < 1e-12:  # along the heading: the same on every line
        return [(min(ay, by), max(ay, by), at) for at in range(first, last)]
    slope, reach = ey / ex, half / abs(ex)
    if abs(ey) < 1e-12:
        return [(ay - reach, ay + reach, at) for at in range(first, last)]
    back, far = -ex / ey, length / ey
    found = []
    for at in range(first, last):
        du = lines[at][0] - ax
        middle, near = ay + du * slope, ay + du * back
        low, high = (near, near + far) if far > 0.0 else (near + far, near)
        if middle - reach > low:
            low = middle - reach
        if middle + reach < high:
            high = middle + reach
        if low < high:
            found.append((low, high, at))
    return found


def _wedge(u: float, one: "Edge", after: "Edge", half: float) -> "Span | None":
    """What of a scan line lies on the round outside of the corner between two pieces."""
    off = u - one[2]
    span = disc_span(off, -one[3], 0.0, 1.0, half)
    if span is None:
        return None
    low, high = span
    for ex, ey in ((one[4], one[5]), (-after[4], -after[5])):
        if abs(ey) < 1e-12:
            if off * ex < 0.0:
                return None
            continue
        level = one[3] - off * ex / ey
        low, high = (max(low, level), high) if ey > 0.0 else (low, min(high, level))
    return (low, high) if low < high else None


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
