"""The order rows are walked in: headers first, then the strips to and fro, one part of the ground after another."""

import math

TYPE_CHECKING = False
if TYPE_CHECKING:  # never true at run time
    from lawn.engine.route.frame import Point, Ring
    from lawn.engine.route.strips import Strip

SAME = 1e-6  # metres: of two walks this alike the first listed is taken


def in_order(headers: "list[Ring]", found: "list[Strip]") -> "tuple[list[Ring], list[Ring]]":
    """Order framed headers and strips; each strip runs the way it is walked."""
    ordered = _headers_in_order(headers)
    return ordered, _strips_in_order(found, ordered[-1][-1] if ordered else None)


def moves_of(rows: "list[Ring]") -> list[float]:
    """Straight distances from the end of each row to the start of the next."""
    return [apart(rows[at][-1], rows[at + 1][0]) for at in range(len(rows) - 1)]


def apart(one: "Point", other: "Point") -> float:
    """Distance between two places [m]."""
    dx, dy = other[0] - one[0], other[1] - one[1]
    return math.sqrt(dx * dx + dy * dy)


def _headers_in_order(headers: "list[Ring]") -> "list[Ring]":
    """The first as it stands, then always the nearest; an open line may be walked from either end."""
    left = list(headers)
    ordered: list[Ring] = []
    while left:
        at, turned = (0, False) if not ordered else _nearest(left, ordered[-1][-1])
        line = left.pop(at)
        ordered.append(line[::-1] if turned else line)
    return ordered


def _nearest(lines: "list[Ring]", here: "Point") -> tuple[int, bool]:
    best, found = 1e18, (0, False)
    for at in range(len(lines)):
        for turned in (False, True):
            away = apart(here, lines[at][-1 if turned else 0])
            if away < best - SAME:
                best, found = away, (at, turned)
    return found


def _strips_in_order(found: "list[Strip]", here: "Point | None") -> "list[Ring]":
    """Walk to and fro; where an obstacle parts the lines, finish one side before the other."""
    beside = _neighbours(found)
    left = [True] * len(found)
    ordered: list[Ring] = []
    at = -1
    for _ in range(len(found)):
        choice = _ready(found, beside, left, at) if at >= 0 else []
        if not choice:
            choice = _ends(found, beside, left)
        at, upwards = _nearest_strip(found, choice, here)
        left[at] = False
        _, u, low, high = found[at]
        row = [(u, low), (u, high)] if upwards else [(u, high), (u, low)]
        ordered.append(row)
        here = row[1]
    return ordered


def _neighbours(found: "list[Strip]") -> list[list[int]]:
    """For each strip those on the next lines that it runs beside."""
    beside: list[list[int]] = [[] for _ in found]
    start = 0
    for one in range(len(found)):
        line, _, low, high = found[one]
        while found[start][0] < line - 1:
            start += 1
        at = start
        while at < len(found) and found[at][0] < line:
            if found[at][2] < high and low < found[at][3]:
                beside[one].append(at)
                beside[at].append(one)
            at += 1
    return beside


def _ready(found: "list[Strip]", beside: list[list[int]], left: list[bool], at: int) -> list[int]:
    """Strips beside this one that do not run on past another part still to be walked on this line."""
    line = found[at][0]
    return [to for to in beside[at] if left[to] and not any(left[k] and found[k][0] == line for k in beside[to])]


def _ends(found: "list[Strip]", beside: list[list[int]], left: list[bool]) -> list[int]:
    """Strips that have nothing left to walk on one of their sides, so that no part is begun in its middle."""
    chosen = []
    for at in range(len(found)):
        if left[at]:
            sides = [found[to][0] > found[at][0] for to in beside[at] if left[to]]
            if all(sides) or not any(sides):
                chosen.append(at)
    return chosen


def _nearest_strip(found: "list[Strip]", choice: list[int], here: "Point | None") -> tuple[int, bool]:
    """Nearest end among the chosen strips, and whether that is the end from which one walks with the heading."""
    if here is None:
        return choice[0], True
    best, nearest = 1e18, (choice[0], True)
    for at in choice:
        _, u, low, high = found[at]
        for upwards in (True, False):
            away = apart(here, (u, low if upwards else high))
            if away < best - SAME:
                best, nearest = away, (at, upwards)
    return nearest
