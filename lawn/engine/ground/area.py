"""How large the ground is: from shapes, from offsets, from radii, from an outline."""

import math

from lawn.engine.core.errors import EngineError
from lawn.engine.core.numeric import choice, flag, group, listing, number, optional_number, positive, total
from lawn.engine.core.working import COMMON, DEFINITION, step
from lawn.engine.ground.corners import offsets_ring, radii_ring, round_ring
from lawn.engine.ground.outline import (
    corner_spread,
    perimeter_of,
    read_ground,
)
from lawn.engine.ground.shapes import SHAPES, SIDES, fields_of, measured

# A tape or wheel over grass, walked once: common practice, stated in the working wherever it is used.
ASSUMED_LENGTH_ERROR = 0.02
# "Within 5 %, use as many offsets as possible": taken as two standard deviations.
OFFSET_ERROR = 0.025
OFFSET_SOURCE = "MU-CAL2010"
MOST_PARTS = 40
MOST_OFFSETS = 400


def shapes(
    *, parts: list[object], length_error_share: float | None = None
) -> tuple[dict[str, object], list[dict[str, object]]]:
    """Area of ground pieced together from shapes, some of them cut out.

    Args:
        parts: the shapes, 1 to 40 [list]
        parts.shape: rectangle, triangle, circle, ellipse or trapezoid [one of rectangle, triangle, circle, ellipse,
            trapezoid]
        parts.add?: true to add the shape, false to cut it out; added when not said [true or false]
        parts.length_m?: of a rectangle or ellipse [m; 0.01 to 5000]
        parts.width_m?: of a rectangle or ellipse [m; 0.01 to 5000]
        parts.base_m?: of a triangle [m; 0.01 to 5000]
        parts.height_m?: of a triangle or trapezoid [m; 0.01 to 5000]
        parts.a_m?: first side of a triangle, in place of base and height [m; 0.01 to 5000]
        parts.b_m?: second side [m; 0.01 to 5000]
        parts.c_m?: third side [m; 0.01 to 5000]
        parts.radius_m?: of a circle [m; 0.01 to 5000]
        parts.side_a_m?: of a trapezoid [m; 0.01 to 5000]
        parts.side_b_m?: of a trapezoid [m; 0.01 to 5000]
        length_error_share?: how far one measured length is likely off; 0.02 is assumed and said so [share; 0 to 0.3]
    Returns:
        area_m2: area [m2]
        sd_m2: its likely error, one standard deviation [m2]
        estimated: true where the error rests on the assumed 0.02 [true or false]
        outline_m: corners [x, y] of a single shape, drawn even where its lengths leave it open, a curve as corners with
            its area; null where several shapes are added or cut out [list of corners or null]
    Raises:
        out_of_range: a length is outside its range
        impossible: more is cut out than added, or three sides close no triangle
    Source: GM-AREAS
    Checked: sides 50 ft and 70 ft, 30 ft apart, is 1,800 ft2 (GM-AREAS)
    """
    share = optional_number("length_error_share", length_error_share)
    areas: list[float] = []
    variances: list[float] = []
    working: list[dict[str, object]] = []
    ring: list[tuple[float, float]] = []
    for index, item in enumerate(listing("parts", parts, 1, MOST_PARTS)):
        signed_m2, spread, shown, ring = _part("parts[" + str(index) + "]", item)
        areas.append(signed_m2)
        variances.append((signed_m2 * spread) ** 2)
        working.append(shown)
    message = "More is cut out than there is ground."
    area_m2 = positive("parts", total(areas), message)
    used = ASSUMED_LENGTH_ERROR if share is None else share
    sd_m2 = used * math.sqrt(total(variances))
    working.append(_sum_step(areas, area_m2))
    working.append(_length_error_step(used, share is None, sd_m2))
    outline_m = _pairs(ring) if len(areas) == 1 else None
    return {"area_m2": area_m2, "sd_m2": sd_m2, "estimated": share is None, "outline_m": outline_m}, working


def offsets(
    *, spacing_m: float, offsets_m: list[object], method: str | None = None
) -> tuple[dict[str, object], list[dict[str, object]]]:
    """Area of a free shape from widths measured square to a line, equally far apart.

    Args:
        spacing_m: distance from one offset to the next [m; 0.01 to 1000]
        offsets_m: the widths in order, 2 to 400; both ends included (0 where the shape comes to a point), except for
            sum, where each stands in the middle of a strip as wide as the spacing [list of numbers]
        method?: trapezoid (ends count half, the default), simpson (odd number of offsets) or sum (the handbooks' sum
            times spacing, for widths from the middle of equal strips or ends of 0) [one of trapezoid, simpson, sum]
    Returns:
        area_m2: area [m2]
        sd_m2: likely error, from the published "within 5 %" taken as two standard deviations [m2]
        outline_m: corners [x, y] over the line, drawn straight from offset to offset, sized to the area for simpson;
            null where an offset between the ends is 0 [list of corners or null]
    Raises:
        out_of_range: an offset is outside 0 to 5000 m
        wrong_count: too few or too many offsets; for simpson an even number of them
        impossible: all offsets are 0
    Source: SANTAANA-49
    Checked: offsets 0, 15, 10, 15, 25, 20, 0 ft every 10 ft is 850 ft2 (SANTAANA-49)
    """
    spacing = number("spacing_m", spacing_m)
    way = "trapezoid" if method is None else choice("method", method, ("trapezoid", "sum", "simpson"))
    rows = listing("offsets_m", offsets_m, 3 if way == "simpson" else 2, MOST_OFFSETS)
    widths = [number("offsets_m[" + str(at) + "]", row, 0.0, 5000.0) for at, row in enumerate(rows)]
    weights = _weights(way, len(widths))
    added = total([weights[at] * widths[at] for at in range(len(widths))])
    area_m2 = positive("offsets_m", spacing * added, "Every offset is 0, so there is no ground.")
    sd_m2 = OFFSET_ERROR * area_m2
    drawn = min(widths[1:-1] + [1.0]) > 0.0
    outline_m = _pairs(offsets_ring(spacing, widths, area_m2, way == "sum")) if drawn else None
    return {"area_m2": area_m2, "sd_m2": sd_m2, "outline_m": outline_m}, [
        _offset_step(way, spacing, added, area_m2),
        _offset_error_step(area_m2, sd_m2),
    ]


def radii(*, radii_m: list[object], method: str | None = None) -> tuple[dict[str, object], list[dict[str, object]]]:
    """Area of a roundish shape from distances to its edge, taken from one inner point at equal angles.

    Args:
        radii_m: the distances in order, 3 to 360 of them [list of numbers]
        method?: mean (the handbooks' circle of the mean radius, the default) or sectors (a sector for each) [one of
            mean, sectors]
    Returns:
        area_m2: area [m2]
        sd_m2: likely error: how unevenly the radii lie, and 2 % on each of them [m2]
        outline_m: corners [x, y] round the inner point, the first radius upwards and the others clockwise, drawn evenly
            from radius to radius and sized to the area [list of corners]
    Raises:
        out_of_range: a radius is outside 0.01 to 5000 m
        wrong_count: too few or too many radii
    Source: SANTAANA-49
    Checked: 16 radii with a mean of 12.25 ft is 471 ft2 with pi as 3.14 (SANTAANA-49)
    """
    way = "mean" if method is None else choice("method", method, ("mean", "sectors"))
    rows = listing("radii_m", radii_m, 3, 360)
    lengths = [number("radii_m[" + str(at) + "]", row, 0.01, 5000.0) for at, row in enumerate(rows)]
    mean_m = total(lengths) / len(lengths)
    mean_square_m2 = total([length * length for length in lengths]) / len(lengths)
    unevenness_m2 = max(0.0, math.pi * (mean_square_m2 - mean_m * mean_m))
    area_m2 = math.pi * (mean_square_m2 if way == "sectors" else mean_m * mean_m)
    reading_m2 = 2.0 * ASSUMED_LENGTH_ERROR * area_m2 / math.sqrt(len(lengths))
    sd_m2 = math.sqrt(unevenness_m2 * unevenness_m2 + reading_m2 * reading_m2)
    outline_m = _pairs(radii_ring(lengths, area_m2))
    return {"area_m2": area_m2, "sd_m2": sd_m2, "outline_m": outline_m}, [
        _radii_step(way, len(lengths), mean_m, mean_square_m2, area_m2),
        _radii_error_step(unevenness_m2, reading_m2, sd_m2),
    ]


def outline(
    *,
    points_m: list[object],
    holes_m: list[object] | None = None,
    circles_m: list[object] | None = None,
    corner_error_m: float | None = None,
) -> tuple[dict[str, object], list[dict[str, object]]]:
    """Area inside an outline of straight edges, less its holes.

    Args:
        points_m: corners [x, y] in order round the edge, in metres; 3 to 400, the first may be repeated last [list of
            corners]
        holes_m?: such lists of corners, one for each bed, tree or building cut out; up to 40 [list of lists of corners]
        circles_m?: round obstacles cut out, up to 40 [list]
        circles_m.x_m: middle, across [m; -50000 to 50000]
        circles_m.y_m: middle, up [m; -50000 to 50000]
        circles_m.radius_m: radius [m; 0.01 to 5000]
        corner_error_m?: how far a corner is likely off along each axis, on its own [m; 0 to 100]
    Returns:
        area_m2: area [m2]
        perimeter_m: length of all edges, those of holes and round obstacles included [m]
        outer_perimeter_m: length of the outer edge alone [m]
        holes_m: the holes, and the round obstacles as 24 corners of the same area [list of lists of corners]
        sd_m2: likely error, one standard deviation; null where no corner error is given [m2 or null]
    Raises:
        crossing: the edge crosses or touches itself
        outside: a hole is not wholly inside, or touches an edge or another hole
        out_of_range: a coordinate is outside -50000 to 50000 m
        impossible: the outline encloses nothing
    Source: definition
    Checked: corners (0, 0), (50, 0), (50, 25), (0, 25) ft is 1,250 ft2 (CLEMSON-1220)
    """
    circles = [round_ring(x, y, radius, radius) for x, y, radius in circles_of(circles_m)]
    rounds = [("circles_m[" + str(at) + "]", ring) for at, ring in enumerate(circles)]
    read, areas, area_m2 = read_ground("", points_m, holes_m, rounds, "points_m")
    outer, rings = read[0], read[1:]
    outer_m = perimeter_of(outer)
    perimeter_m = total([outer_m] + [perimeter_of(ring) for ring in rings])
    corner_m = optional_number("corner_error_m", corner_error_m)
    spread_m = math.sqrt(total([corner_spread(ring) ** 2 for ring in [outer] + rings]))
    value: dict[str, object] = {
        "area_m2": area_m2,
        "perimeter_m": perimeter_m,
        "outer_perimeter_m": outer_m,
        "holes_m": [_pairs(ring) for ring in rings],
        "sd_m2": None if corner_m is None else corner_m * spread_m,
    }
    working = [_outline_step(outer, areas, area_m2)] + _perimeter_steps(outer_m, len(outer), perimeter_m)
    if corner_m is not None:
        working.append(_corner_error_step(corner_m, spread_m))
    return value, working


def _pairs(ring: "list[tuple[float, float]]") -> list[list[float]]:
    return [[x, y] for x, y in ring]


def circles_of(value: object, before: str = "") -> list[tuple[float, float, float]]:
    """Middle and radius of each round obstacle; before stands before the names of errors."""
    found = []
    for at, item in enumerate([] if value is None else listing(before + "circles_m", value, 0, MOST_PARTS)):
        path = before + "circles_m[" + str(at) + "]"
        circle = group(path, item, ("x_m", "y_m", "radius_m"))
        x, y = number(path + ".x_m", circle.get("x_m")), number(path + ".y_m", circle.get("y_m"))
        found.append((x, y, number(path + ".radius_m", circle.get("radius_m"))))
    return found


def _part(path: str, item: object) -> "tuple[float, float, dict[str, object], list[tuple[float, float]]]":
    every: tuple[str, ...] = ("shape", "add") + SIDES
    for names in SHAPES.values():
        every = every + tuple([name for name in names if name not in every])
    part = group(path, item, every)
    shape = choice(path + ".shape", part.get("shape"), tuple(sorted(SHAPES)))
    group(path, item, ("shape", "add") + fields_of(shape, part))
    area_m2, spread, shown, ring = measured(shape, path, part)
    adds = flag(path + ".add", part.get("add"), default=True)
    shown["what"] = str(shown["what"]) + (", added" if adds else ", cut out")
    return (area_m2 if adds else -area_m2), spread, shown, ring


def _weights(way: str, count: int) -> list[float]:
    """How much each width counts, in spacings: an end of the line has ground on one side only."""
    if way == "sum":
        return [1.0] * count
    if way == "trapezoid":
        return [0.5] + [1.0] * (count - 2) + [0.5]
    if count % 2 == 0:
        raise EngineError(
            code="wrong_count",
            name="offsets_m",
            value=count,
            message="Simpson's rule needs an odd number of offsets, so an even number of strips between them.",
            low=3,
            high=MOST_OFFSETS - 1,
        )
    inner = [(4.0 if at % 2 else 2.0) / 3.0 for at in range(1, count - 1)]
    return [1.0 / 3.0] + inner + [1.0 / 3.0]


def _sum_step(areas: list[float], area_m2: float) -> dict[str, object]:
    added = total([area for area in areas if area > 0])
    cut = total([-area for area in areas if area < 0])
    numbers: dict[str, object] = {"added_m2": added, "cut_out_m2": cut}
    what = "Area of the ground"
    return step(what=what, formula="added less cut out", numbers=numbers, result=area_m2, unit="m2", source=DEFINITION)


def _length_error_step(share: float, assumed: bool, sd_m2: float) -> dict[str, object]:
    return step(
        what="Likely error of the area" + (", each length taken to be off by 2 %" if assumed else ""),
        formula="each length off by the share, on its own; the errors added as squares",
        numbers={"length_error_share": share},
        result=sd_m2,
        unit="m2",
        source=COMMON,
    )


def _offset_step(way: str, spacing_m: float, added: float, area_m2: float) -> dict[str, object]:
    formulas = {
        "trapezoid": "sum of the offsets, the two ends counted half, times their spacing",
        "sum": "sum of the offsets, each in the middle of its strip, times their spacing",
        "simpson": "sum of the offsets, weighted 1, 4, 2 ... 4, 1 and divided by 3, times their spacing",
    }
    return step(
        what="Area from offsets",
        formula=formulas[way],
        numbers={"sum_m": added, "spacing_m": spacing_m},
        result=area_m2,
        unit="m2",
        source="SANTAANA-49" if way == "sum" else DEFINITION,
    )


def _offset_error_step(area_m2: float, sd_m2: float) -> dict[str, object]:
    return step(
        what="Likely error of the area",
        formula="published as within 5 %, taken as two standard deviations",
        numbers={"area_m2": area_m2, "share": OFFSET_ERROR},
        result=sd_m2,
        unit="m2",
        source=OFFSET_SOURCE,
    )


def _radii_step(way: str, count: int, mean_m: float, square_m2: float, area_m2: float) -> dict[str, object]:
    sectors = way == "sectors"
    numbers: dict[str, object] = {"radii": count, "mean_m": mean_m}
    if sectors:
        numbers["mean_square_m2"] = square_m2
    return step(
        what="Area from radii",
        formula="pi times the mean of the squared radii" if sectors else "pi times the mean radius squared",
        numbers=numbers,
        result=area_m2,
        unit="m2",
        source=DEFINITION if sectors else "SANTAANA-49",
    )


def _radii_error_step(unevenness_m2: float, reading_m2: float, sd_m2: float) -> dict[str, object]:
    return step(
        what="Likely error of the area, each radius taken to be off by 2 %",
        formula="what uneven radii may hide, and the reading error, added as squares",
        numbers={"unevenness_m2": unevenness_m2, "reading_m2": reading_m2},
        result=sd_m2,
        unit="m2",
        source=COMMON,
    )


def _outline_step(outer: list[tuple[float, float]], areas: list[float], area_m2: float) -> dict[str, object]:
    return step(
        what="Area inside the outline",
        formula="half the sum of the corners' cross products, less the holes",
        numbers={"corners": len(outer), "outer_m2": areas[0], "holes_m2": -total(areas[1:])},
        result=area_m2,
        unit="m2",
        source=DEFINITION,
    )


def _corner_error_step(corner_m: float, spread_m: float) -> dict[str, object]:
    return step(
        what="Likely error of the area",
        formula="each corner off on its own, along half the line from the corner before to the corner after, added as "
        "squares",
        numbers={"corner_error_m": corner_m, "half_lines_m": spread_m},
        result=corner_m * spread_m,
        unit="m2",
        source=DEFINITION,
    )


def _perimeter_steps(outer_m: float, corners: int, perimeter_m: float) -> list[dict[str, object]]:
    return [
        step(
            what="Length of the outer edge",
            formula="distances from corner to corner, added",
            numbers={"corners": corners},
            result=outer_m,
            unit="m",
            source=DEFINITION,
        ),
        step(
            what="Length of all edges",
            formula="outer edge and the edges of the holes",
            numbers={"outer_perimeter_m": outer_m},
            result=perimeter_m,
            unit="m",
            source=DEFINITION,
        ),
    ]
