"""Outlines for ground that was measured without one: corners of shapes, rings of radii, round obstacles.

Curves become corners with the very area of the curve, so that a map and a figure never disagree.
"""

import math

from lawn.engine.ground.outline import signed_area_m2

ROUND_CORNERS = 24
RADII_CORNERS = 48  # at least so many, by radii drawn evenly between the measured ones


def round_ring(x: float, y: float, across: float, along: float) -> "list[tuple[float, float]]":
    """Corners of an ellipse with half axes `across` and `along` [m], set out so far that they enclose its area.

    24 corners stand 0.6 % outside the curve.
    """
    angle = 2.0 * math.pi / ROUND_CORNERS
    out = math.sqrt(angle / math.sin(angle))
    ring = []
    for at in range(ROUND_CORNERS):
        ring.append((x + out * across * math.sin(at * angle), y + out * along * math.cos(at * angle)))
    return ring


def shape_ring(kind: str, of: "dict[str, float]", area_m2: float) -> "list[tuple[float, float]]":
    """Corners of a shape [m], from its lengths as lawn.engine.ground.shapes names them; a triangle of sides is `sides`.

    What its lengths leave open is drawn even on both sides: a triangle's tip and a trapezoid's upper side stand over
    the middle of the base.
    """
    if kind == "rectangle":
        return [(0.0, 0.0), (of["length_m"], 0.0), (of["length_m"], of["width_m"]), (0.0, of["width_m"])]
    if kind == "triangle":
        return [(0.0, 0.0), (of["base_m"], 0.0), (0.5 * of["base_m"], of["height_m"])]
    if kind == "sides":
        return _sides_ring(of["a_m"], of["b_m"], of["c_m"], area_m2)
    if kind == "trapezoid":
        a, b, high = of["side_a_m"], of["side_b_m"], of["height_m"]
        return [(0.0, 0.0), (a, 0.0), (0.5 * (a + b), high), (0.5 * (a - b), high)]
    across = of["radius_m"] if kind == "circle" else 0.5 * of["length_m"]
    along = of["radius_m"] if kind == "circle" else 0.5 * of["width_m"]
    return round_ring(across, along, across, along)


def radii_ring(lengths: list[float], area_m2: float) -> "list[tuple[float, float]]":
    """Corners round an inner point from radii at equal angles, the first upwards, then clockwise [m].

    Between two radii the edge is drawn evenly; the ring is then sized so that it encloses the area stated.
    """
    between = max(1, math.ceil(RADII_CORNERS / len(lengths)))
    count = between * len(lengths)
    ring = []
    for at in range(count):
        whole, part = at // between, (at % between) / between
        reach = (1.0 - part) * lengths[whole] + part * lengths[(whole + 1) % len(lengths)]
        angle = 2.0 * math.pi * at / count
        ring.append((reach * math.sin(angle), reach * math.cos(angle)))
    size = math.sqrt(area_m2 / abs(signed_area_m2(ring)))
    return [(size * x, size * y) for x, y in ring]


def offsets_ring(spacing_m: float, widths: list[float], area_m2: float, middles: bool) -> "list[tuple[float, float]]":
    """Corners over a straight line, from widths measured square to it at equal spacing [m].

    The edge runs straight from width to width. Widths from the middle of equal strips (`middles`) begin half a strip
    in, and the first and the last run level to the ends of the line. All widths are then sized alike so that the edge
    encloses the area stated; only Simpson's needs it.
    """
    first = 0.5 if middles else 0.0
    over = [((at + first) * spacing_m, width) for at, width in enumerate(widths)]
    if middles and widths[0] > 0.0:
        over.insert(0, (0.0, widths[0]))
    if middles and widths[-1] > 0.0:
        over.append((len(widths) * spacing_m, widths[-1]))
    base = [(over[0][0], 0.0), (over[-1][0], 0.0)]
    ring = base + [corner for corner in over[::-1] if corner[1] > 0.0]
    if len(ring) < 3:  # two offsets, and no ground between them
        return ring
    size = area_m2 / abs(signed_area_m2(ring))
    return [(x, size * y) for x, y in ring]


def _sides_ring(a: float, b: float, c: float, area_m2: float) -> "list[tuple[float, float]]":
    """Corners of a triangle with side a as its base, b from the base's end and c from its beginning."""
    x = (a * a + c * c - b * b) / (2.0 * a)
    return [(0.0, 0.0), (a, 0.0), (x, 2.0 * area_m2 / a)]
