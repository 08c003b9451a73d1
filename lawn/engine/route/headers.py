"""Header strips: lines that follow every edge at a fixed distance inside the ground.

The line at distance t is where the ground comes exactly t from its nearest edge: each edge moved in by t,
less whatever lies nearer than t to another edge, with arcs (as chords) round corners that point inwards.
"""

import math

from lawn.engine.route.frame import TOUCH, capsule_span, edge, edges_along, edges_of, left_over

TYPE_CHECKING = False
if TYPE_CHECKING:  # never true at run time
    from lawn.engine.route.frame import Edge, Point, Ring, Span

CHORD_TURN = math.pi / 4.0  # most a single chord turns round an inward corner
HARDLY_TURNS = 0.94  # cosine of 20 degrees
SLIVER = 1e-6  # metres: shorter pieces are dropped
JOIN = 1e-4  # metres: ends nearer than this are one place


def inset(rings: "list[Ring]", distance: float) -> "list[Ring]":
    """List the lines at a distance inside the ground; a closed line ends where it began."""
    edges = edges_of(rings)
    pieces: list[Edge] = []
    first = 0
    for ring in rings:
        count = len(ring)
        for at in range(count):
            here, after = first + at, first + (at + 1) % count
            before = first + (at + count - 1) % count
            pieces += _moved_edge(edges, here, (before, after), distance)
            pieces += _corner(edges, here, after, distance)
        first += count
    return _chained(pieces)


def _moved_edge(edges: "list[Edge]", here: int, beside: tuple[int, int], distance: float) -> "list[Edge]":
    ax, ay, _, _, ex, ey, length = edges[here]
    px, py = ax - distance * ey, ay + distance * ex
    cuts = _cuts(edges, (px, py), (ex, ey), length, distance, (here,), beside)
    kept = left_over(0.0, length, cuts)
    return [
        edge(px + low * ex, py + low * ey, px + high * ex, py + high * ey) for low, high in kept if high - low > SLIVER
    ]


def _corner(edges: "list[Edge]", here: int, after: int, distance: float) -> "list[Edge]":
    """Chords round the corner between two edges where it points into the ground; none elsewhere."""
    ex, ey = edges[here][4], edges[here][5]
    fx, fy = edges[after][4], edges[after][5]
    turn = math.atan2(ex * fy - ey * fx, ex * fx + ey * fy)
    if turn > -1e-6:
        return []
    cx, cy = edges[here][2], edges[here][3]
    count = math.ceil(-turn / CHORD_TURN - 1e-9)
    spokes = [(-ey, ex)]
    for at in range(1, count):
        back = -turn * at / count
        sin, cos = math.sin(back), math.cos(back)
        spokes.append((ex * sin - ey * cos, ex * cos + ey * sin))
    spokes.append((-fy, fx))
    found: list[Edge] = []
    for at in range(count):
        (ax, ay), (bx, by) = spokes[at], spokes[at + 1]
        chord = edge(cx + distance * ax, cy + distance * ay, cx + distance * bx, cy + distance * by)
        px, py, _, _, gx, gy, length = chord
        cuts = _cuts(edges, (px, py), (gx, gy), length, distance, (here, after), ())
        for low, high in left_over(0.0, length, cuts):
            if high - low > SLIVER:
                found.append(edge(px + low * gx, py + low * gy, px + high * gx, py + high * gy))
    return found


def _cuts(
    edges: "list[Edge]",
    start: "Point",
    way: "Point",
    length: float,
    distance: float,
    own: tuple[int, ...],
    beside: tuple[int, ...],
) -> "list[Span]":
    """Where a piece comes nearer than distance to edges that are not its own.

    Neighbouring edges are touched at that very distance; other edges cut there too, so that two
    lines never lie on each other.
    """
    (px, py), (wx, wy) = start, way
    qx, qy = px + length * wx, py + length * wy
    west, east = min(px, qx) - distance - TOUCH, max(px, qx) + distance + TOUCH
    south, north = min(py, qy) - distance - TOUCH, max(py, qy) + distance + TOUCH
    found = []
    for at in range(len(edges)):
        one = edges[at]
        ax, ay, bx, by = one[0], one[1], one[2], one[3]
        if (ax < west and bx < west) or (ax > east and bx > east):
            continue
        if (ay < south and by < south) or (ay > north and by > north) or at in own:
            continue
        radius = distance - TOUCH if at in beside else distance + TOUCH
        span = capsule_span(px, py, wx, wy, one, radius)
        if span is not None and span[1] > 0.0 and span[0] < length:
            found.append(span)
    return found


def _chained(pieces: "list[Edge]") -> "list[Ring]":
    """Join pieces end to start into lines, closed ones first begun at their first piece."""
    after = [_next_of(pieces, at) for at in range(len(pieces))]
    follows = [False] * len(pieces)
    for to in after:
        if to >= 0:
            follows[to] = True
    done = [False] * len(pieces)
    lines = []
    for opening in (True, False):
        for at in range(len(pieces)):
            if not done[at] and not (opening and follows[at]):
                line = _line_from(pieces, after, done, at)
                lines.append(line if opening else _well_begun(line))
    return lines


def _next_of(pieces: "list[Edge]", at: int) -> int:
    x, y = pieces[at][2], pieces[at][3]
    count = len(pieces)
    for ahead in range(1, count + 1):
        to = (at + ahead) % count
        if abs(pieces[to][0] - x) < JOIN and abs(pieces[to][1] - y) < JOIN and to != at:
            return to
    return -1


def _line_from(pieces: "list[Edge]", after: list[int], done: list[bool], start: int) -> "Ring":
    points = [(pieces[start][0], pieces[start][1])]
    at = start
    while True:
        done[at] = True
        to = after[at]
        if to < 0 or (done[to] and to != start):
            points.append((pieces[at][2], pieces[at][3]))
            return points
        point = _joint(pieces[at], pieces[to])
        if point != points[-1]:
            points.append(point)
        if to == start:
            points[0] = points[-1]
            return points
        at = to


def _well_begun(line: "Ring") -> "Ring":
    """Begin a closed line where its end meets its beginning well, so that no corner is left with two square ends.

    That is a place where it hardly turns, else the middle of its longest piece.
    """
    pieces = edges_along(line)
    if len(line) != len(pieces) + 1 or line[0] != line[-1]:
        return line
    straightest, longest = 0, 0
    for at in range(len(pieces)):
        if _straight(pieces, at) > _straight(pieces, straightest) + 1e-6:
            straightest = at
        if pieces[at][6] > pieces[longest][6] + 1e-6:
            longest = at
    if _straight(pieces, straightest) > HARDLY_TURNS:
        return line[straightest:-1] + line[: straightest + 1]
    ax, ay, bx, by = pieces[longest][0], pieces[longest][1], pieces[longest][2], pieces[longest][3]
    middle = (0.5 * (ax + bx), 0.5 * (ay + by))
    return [middle] + line[longest + 1 : -1] + line[: longest + 1] + [middle]


def _straight(pieces: "list[Edge]", at: int) -> float:
    """Cosine of the turn from the piece before into a piece."""
    one, other = pieces[at - 1], pieces[at]
    return one[4] * other[4] + one[5] * other[5]


def _joint(one: "Edge", other: "Edge") -> "Point":
    """Where two pieces meet: the crossing of their lines, which has all its digits."""
    x, y, ex, ey = one[2], one[3], one[4], one[5]
    cross = ex * other[5] - ey * other[4]
    if abs(cross) > 1e-3:
        by = ((other[0] - x) * other[5] - (other[1] - y) * other[4]) / cross
        if abs(by) < JOIN:
            return (x + by * ex, y + by * ey)
    return (0.5 * (x + other[0]), 0.5 * (y + other[1]))
