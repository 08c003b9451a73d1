"""The sides of an outline, as somebody names them who stands on it: edges that run on without a corner, as one."""

import math

from lawn.engine.core.errors import impossible
from lawn.engine.core.numeric import total
from lawn.engine.core.working import COMMON, DEFINITION, step
from lawn.engine.ground.outline import distance, line_of

TYPE_CHECKING = False
if TYPE_CHECKING:  # never true at run time: MicroPython has no typing module
    from typing import Any

# Common practice: a smaller turn is a bend of one side; a side that bends a quarter round has become another.
CORNER_DEG = 30.0
QUARTER_DEG = 90.0
NEARLY_DEG = 1e-6


def sides(*, points_m: list[object]) -> "tuple[dict[str, Any], list[dict[str, object]]]":
    """Sides of an outline: from corner to corner, a rounded edge cut where it has turned a quarter.

    A corner is a turn of more than 30 degrees. Edge 0 runs from the first corner to the second; the last one closes
    the outline.

    Args:
        points_m: corners [x, y] in order round the edge, in metres; 3 to 400 [list of corners]
    Returns:
        sides: the sides in order round the edge [list]
        sides.number: its number, from 1 [sides]
        sides.edges: its edges [list of numbers]
        sides.length_m: its length [m]
    Raises:
        impossible: all corners are in one place
        out_of_range: a coordinate is outside -50000 to 50000 m
    Source: common practice
    Checked: a rectangle of 20 m by 10 m has sides of 20, 10, 20 and 10 m (definition)
    """
    corners = line_of("points_m", points_m)
    lengths = [distance(corners[at], corners[(at + 1) % len(corners)]) for at in range(len(corners))]
    if not total(lengths) > 0.0:
        raise impossible(name="points_m", value="a list", message="All corners are in one place.")
    turns = _turns(corners, lengths)
    found = _runs(turns)
    said: list[dict[str, Any]] = [
        {"number": at + 1, "edges": found[at], "length_m": total([lengths[edge] for edge in found[at]])}
        for at in range(len(found))
    ]
    numbers: dict[str, object] = {"corners": len(corners), "corner_deg": CORNER_DEG, "quarter_deg": QUARTER_DEG}
    formula = "edges from one turn of more than a corner to the next; cut where they have turned a quarter"
    working = [step(what="Sides", formula=formula, numbers=numbers, result=len(said), unit="sides", source=COMMON)]
    for side in said:
        own: dict[str, object] = {"edges_m": [lengths[edge] for edge in side["edges"]]}
        what, length_m = "Length of side " + str(side["number"]), side["length_m"]
        working.append(
            step(what=what, formula="edges, added", numbers=own, result=length_m, unit="m", source=DEFINITION)
        )
    return {"sides": said}, working


def _turns(corners: "list[tuple[float, float]]", lengths: list[float]) -> list[float]:
    """How far one turns, either way, from the edge before into each edge [deg]; 0 into an edge of no length."""
    found: list[float] = []
    before: float | None = None
    for _ in range(2):  # the first edge turns out of the last, which is known the second time round
        found = []
        for at in range(len(corners)):
            (ax, ay), (bx, by) = corners[at], corners[(at + 1) % len(corners)]
            if lengths[at] <= 0.0:
                found.append(0.0)
                continue
            way = math.degrees(math.atan2(by - ay, bx - ax))
            off = 0.0 if before is None else (way - before) % 360.0
            found.append(min(off, 360.0 - off))
            before = way
    return found


def _runs(turns: list[float]) -> list[list[int]]:
    """Edges that belong together, begun at the first corner of the outline."""
    count = len(turns)
    cornered = [at for at in range(count) if turns[at] > CORNER_DEG + NEARLY_DEG]
    first = cornered[0] if cornered else 0
    found: list[list[int]] = []
    turned = 0.0
    for ahead in range(count):
        at = (first + ahead) % count
        turned += turns[at]
        if not found or turns[at] > CORNER_DEG + NEARLY_DEG or turned > QUARTER_DEG + NEARLY_DEG:
            found.append([at])
            turned = 0.0
        else:
            found[-1].append(at)
    return found
