"""Ground walked round with the phone: the fixes in a local plane, their area, and how far off it may be."""

import math

from lawn.engine.core.errors import EngineError, impossible
from lawn.engine.core.numeric import group, listing, number, optional_number, positive, total
from lawn.engine.core.working import COMMON, DEFINITION, step
from lawn.engine.ground.outline import crossings, distance, perimeter_of, signed_area_m2
from lawn.engine.ground.plane import east_north, in_sight

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

WORST_ACCURACY = 10.0  # m; wider than most home lawns are across
MOST_FIXES = 5000
MOST_KEPT = 400  # as many corners as an outline may have
LEAST_STEP = 0.5  # m, and
STEP_SHARE = 0.2  # of the accuracy: nearer than that, two fixes differ by the phone's jitter, not by a step
FARTHEST = 5000.0  # m; there the plane is short by 0.3 millionths
# The radius that holds 95 % of the errors of a fix, in standard deviations along one axis: sqrt(-2 ln 0.05).
RADIUS_95 = 2.4477468306808161
ALIKE_OVER = 15.0  # m of walking over which the errors of fixes stay alike: ten seconds or so
FLOOR_SHARE = 0.016  # the published error of a hectare under open sky
MOST_NAMED = 5


def gps(
    *, fixes: list[object], worst_accuracy_m: float | None = None
) -> tuple[dict[str, object], list[dict[str, object]]]:
    """Area of ground walked round with a phone, from its fixes in the order they came.

    A fix worse than the worst accuracy is left out (inaccurate), and so is one nearer to the fix before than half a
    metre or a fifth of its accuracy (too_close): what lies between such fixes is the phone's jitter. The last fixes
    near the first are the first again (too_close). Where the walk's end crosses its beginning, the fewest last
    fixes within reach of the first are left out (past_start). Any other crossing is refused.

    The error follows from the corners' parts in the area and each fix's own accuracy, the radius of 95 % (the
    standard's confidence level). What all fixes share, such as a shift of the whole sky, moves the ground and leaves
    its area; errors of neighbouring fixes are alike over some 15 m of walking, which makes the area less sure than
    independent errors would. No less than the published 1.6 % is ever stated.

    Args:
        fixes: the fixes in order round the edge, 3 to 5000 [list]
        fixes.lat: latitude, north positive [deg; -90 to 90]
        fixes.lon: longitude, east positive [deg; -180 to 180]
        fixes.accuracy_m: accuracy as the phone states it [m; 0 to 10000000]
        worst_accuracy_m?: worst accuracy taken; 10 when not said [m; 0.5 to 100]
    Returns:
        area_m2: area [m2]
        sd_m2: its likely error, one standard deviation [m2]
        points_m: corners [x, y] east and north of the first kept fix [list of corners]
        perimeter_m: length of the edge [m]
        origin: lat and lon of the first kept fix [group of values]
        origin.lat: latitude, north positive [deg]
        origin.lon: longitude, east positive [deg]
        left_out: every fix left out [list]
        left_out.index: its place in the list, from 0 [place]
        left_out.why: what was wrong with it [one of inaccurate, too_close, past_start]
    Raises:
        wrong_count: fewer than 3 fixes are kept
        crossing: the walk crosses itself; edge 3 goes from the third kept fix to the fourth
        impossible: the fixes lie kilometres apart, or enclose nothing
        out_of_range: a number is outside its range
    Source: IOGP-373-7-2
    Checked: a second of arc each way at 55 N, 17.776 m by 30.923 m, is 549.69 m2, as its geodesics enclose (computed)
    """
    worst = optional_number("worst_accuracy_m", worst_accuracy_m)
    worst = WORST_ACCURACY if worst is None else worst
    read = _read(fixes, 3)
    kept, left_out, origin = _kept(read, worst)
    _closed(kept, left_out)
    if len(kept) < 3:
        message = "Fewer than three of these fixes are accurate and far enough apart to close a ring."
        raise EngineError(code="wrong_count", name="fixes", value=len(kept), low=3, high=MOST_FIXES, message=message)
    points = [fix["at"] for fix in kept]
    _refuse_crossings(points)
    area_m2 = positive("fixes", abs(signed_area_m2(points)), "These fixes enclose no ground.")
    perimeter_m = perimeter_of(points)
    by_fixes_m2 = _area_error(kept)
    sd_m2 = max(by_fixes_m2, FLOOR_SHARE * area_m2)
    value: dict[str, object] = {
        "area_m2": area_m2,
        "sd_m2": sd_m2,
        "points_m": [[x, y] for x, y in points],
        "perimeter_m": perimeter_m,
        "origin": origin,
        "left_out": _in_order(left_out),
    }
    working = [_kept_step(len(read), len(kept), worst), _plane_step(origin), _area_step(len(kept), area_m2)]
    working.append(_length_step("Length of the edge", len(kept), perimeter_m))
    return value, working + _error_steps(kept, area_m2, by_fixes_m2, sd_m2)


def track(
    *, fixes: list[object], worst_accuracy_m: float | None = None
) -> tuple[dict[str, object], list[dict[str, object]]]:
    """The line walked so far, by the same choice of fixes as the area's; one fix is enough, and it may be a bad one.

    Args:
        fixes: the fixes in order, 1 to 5000 [list]
        fixes.lat: latitude, north positive [deg; -90 to 90]
        fixes.lon: longitude, east positive [deg; -180 to 180]
        fixes.accuracy_m: accuracy as the phone states it [m; 0 to 10000000]
        worst_accuracy_m?: worst accuracy taken; 10 when not said [m; 0.5 to 100]
    Returns:
        points_m: [x, y] east and north of the first kept fix [list of corners]
        length_m: length of the line [m]
        here_m: [x, y] of the last fix, kept or not; null while none is kept [corner or null]
        origin: lat and lon of the first kept fix; null while none is kept [group of values or null]
        origin.lat: latitude, north positive [deg]
        origin.lon: longitude, east positive [deg]
        left_out: every fix left out [list]
        left_out.index: its place in the list, from 0 [place]
        left_out.why: what was wrong with it [one of inaccurate, too_close, past_start]
    Raises:
        impossible: the fixes lie kilometres apart
        out_of_range: a number is outside its range
    Source: IOGP-373-7-2
    Checked: a second of arc east at 55 N is 17.776 m (computed)
    """
    worst = optional_number("worst_accuracy_m", worst_accuracy_m)
    worst = WORST_ACCURACY if worst is None else worst
    read = _read(fixes, 1)
    kept, left_out, origin = _kept(read, worst)
    points = [fix["at"] for fix in kept]
    length_m = total([distance(points[at - 1], points[at]) for at in range(1, len(points))])
    here = list(_placed(read[-1], origin)) if origin is not None else None
    value: dict[str, object] = {
        "points_m": [[x, y] for x, y in points],
        "length_m": length_m,
        "here_m": here,
        "origin": origin,
        "left_out": _in_order(left_out),
    }
    return value, [
        _kept_step(len(read), len(kept), worst),
        _length_step("Length of the line walked", len(kept), length_m),
    ]


def _read(fixes: object, fewest: int) -> "list[dict[str, Any]]":
    rows: list[dict[str, Any]] = []
    for index, item in enumerate(listing("fixes", fixes, fewest, MOST_FIXES)):
        path = "fixes[" + str(index) + "]"
        fix = group(path, item, ("lat", "lon", "accuracy_m"))
        row: dict[str, Any] = {"index": index}
        for name in ("lat", "lon", "accuracy_m"):
            row[name] = number(path + "." + name, fix.get(name))
        rows.append(row)
    return rows


def _kept(
    read: "list[dict[str, Any]]", worst: float
) -> "tuple[list[dict[str, Any]], list[dict[str, Any]], dict[str, float] | None]":
    """Kept fixes with their places, those left out, and the origin; a long walk is thinned until it fits."""
    left_out: list[dict[str, Any]] = []
    good: list[dict[str, Any]] = []
    for fix in read:
        if fix["accuracy_m"] > worst:
            left_out.append({"index": fix["index"], "why": "inaccurate"})
        else:
            good.append(fix)
    if not good:
        return [], left_out, None
    origin = {"lat": good[0]["lat"], "lon": good[0]["lon"]}
    for fix in good:
        fix["at"] = _placed(fix, origin)
    thinner = 1.0
    kept, near = _spaced(good, thinner)
    while len(kept) > MOST_KEPT:
        thinner *= 1.25
        kept, near = _spaced(good, thinner)
    return kept, left_out + near, origin


def _placed(fix: "dict[str, Any]", origin: dict[str, float]) -> tuple[float, float]:
    x, y = east_north(lat=fix["lat"], lon=fix["lon"], origin_lat=origin["lat"], origin_lon=origin["lon"])
    seen = in_sight(lat=fix["lat"], lon=fix["lon"], origin_lat=origin["lat"], origin_lon=origin["lon"])
    if not seen or abs(x) > FARTHEST or abs(y) > FARTHEST:
        path = "fixes[" + str(fix["index"]) + "]"
        raise impossible(name=path, value="a place far off", message="This fix lies kilometres away from the first.")
    return x, y


def _least_step(fix: "dict[str, Any]") -> float:
    return max(LEAST_STEP, STEP_SHARE * float(fix["accuracy_m"]))


def _spaced(good: "list[dict[str, Any]]", thinner: float) -> "tuple[list[dict[str, Any]], list[dict[str, Any]]]":
    kept = [good[0]]
    near: list[dict[str, Any]] = []
    for fix in good[1:]:
        if distance(fix["at"], kept[-1]["at"]) < thinner * _least_step(fix):
            near.append({"index": fix["index"], "why": "too_close"})
        else:
            kept.append(fix)
    return kept, near


def _closed(kept: "list[dict[str, Any]]", left_out: "list[dict[str, Any]]") -> None:
    """Leave out the last fixes that are the first again; both lists are changed in place."""
    while len(kept) > 1 and distance(kept[-1]["at"], kept[0]["at"]) < _least_step(kept[-1]):
        left_out.append({"index": kept.pop()["index"], "why": "too_close"})
    past = _past_start(kept)
    for _ in range(past):
        left_out.append({"index": kept.pop()["index"], "why": "past_start"})


def _past_start(kept: "list[dict[str, Any]]") -> int:
    """How many last fixes to leave out so that the end of the walk no longer crosses its beginning; 0 if none helps.

    Only fixes the phone cannot tell from the first, by the accuracy of either, may go, and never a quarter of all.
    """
    within = 0
    while within < len(kept) // 4:
        fix = kept[len(kept) - 1 - within]
        if distance(fix["at"], kept[0]["at"]) > max(fix["accuracy_m"], kept[0]["accuracy_m"]):
            break
        within += 1
    points = [fix["at"] for fix in kept]
    for without in range(within + 1):
        if not crossings(points[: len(points) - without], 1):
            return without
    return 0


def _refuse_crossings(points: list[tuple[float, float]]) -> None:
    found = crossings(points, MOST_NAMED)
    if found:
        pairs = [str(first + 1) + " and " + str(second + 1) for first, second in found]
        raise EngineError(
            code="crossing",
            name="fixes",
            value="edges " + "; ".join(pairs),
            message="The walk crosses itself, so that no ground can be told. Walk it again, once round the edge.",
        )


def _area_error(kept: "list[dict[str, Any]]") -> float:
    """Standard deviation of the area [m2].

    Moving corner i by (dx, dy) changes the area by the cross product with half the line from the corner before to
    the corner after. Errors of two fixes correlate as exp(-walked between them / 15 m); that form lets the double
    sum be carried along from fix to fix.
    """
    squares: list[float] = []
    carried_x, carried_y = 0.0, 0.0
    for at in range(len(kept)):
        (x0, y0), (x2, y2) = kept[at - 1]["at"], kept[(at + 1) % len(kept)]["at"]
        by = 0.5 * kept[at]["accuracy_m"] / RADIUS_95
        part_x, part_y = by * (y2 - y0), by * (x0 - x2)
        if at > 0:
            fading = math.exp(-distance(kept[at]["at"], kept[at - 1]["at"]) / ALIKE_OVER)
            carried_x, carried_y = carried_x * fading, carried_y * fading
        squares.append(part_x * part_x + part_y * part_y + 2.0 * (part_x * carried_x + part_y * carried_y))
        carried_x, carried_y = carried_x + part_x, carried_y + part_y
    return math.sqrt(max(0.0, total(squares)))


def _in_order(left_out: "list[dict[str, Any]]") -> "list[dict[str, Any]]":
    whys = {row["index"]: row["why"] for row in left_out}
    return [{"index": index, "why": whys[index]} for index in sorted(whys)]


def _kept_step(given: int, kept: int, worst: float) -> dict[str, object]:
    return step(
        what="Fixes kept",
        formula="those no worse than the worst accuracy, and a step away from the one before: half a metre, or a fifth "
        "of the accuracy",
        numbers={"fixes": given, "worst_accuracy_m": worst},
        result=kept,
        unit="fixes",
        source=COMMON,
    )


def _plane_step(origin: "dict[str, float] | None") -> dict[str, object]:
    numbers: dict[str, object] = dict(origin or {})
    return step(
        what="Flat map of the fixes",
        formula="the ellipsoid WGS 84 seen straight down on the plane that touches it at the first kept fix",
        numbers=numbers,
        result=0,
        unit="m at the first fix",
        source="IOGP-373-7-2",
    )


def _area_step(corners: int, area_m2: float) -> dict[str, object]:
    return step(
        what="Area inside the walk",
        formula="half the sum of the corners' cross products",
        numbers={"corners": corners},
        result=area_m2,
        unit="m2",
        source=DEFINITION,
    )


def _length_step(what: str, corners: int, length_m: float) -> dict[str, object]:
    return step(
        what=what,
        formula="distances from fix to fix, added",
        numbers={"fixes": corners},
        result=length_m,
        unit="m",
        source=DEFINITION,
    )


def _error_steps(
    kept: "list[dict[str, Any]]", area_m2: float, by_fixes_m2: float, sd_m2: float
) -> list[dict[str, object]]:
    mean_m = total([fix["accuracy_m"] for fix in kept]) / len(kept)
    return [
        step(
            what="Error of the area that the fixes' own accuracy leaves",
            formula="each fix off by its accuracy over 2.448 (its circle holds 95 %), along half the line from the fix "
            "before to the fix after; alike over 15 m of walking",
            numbers={"mean_accuracy_m": mean_m, "fixes": len(kept), "alike_over_m": ALIKE_OVER},
            result=by_fixes_m2,
            unit="m2",
            source="W3C-GEOLOCATION",
        ),
        step(
            what="Likely error of the area",
            formula="that, but no less than the published 1.6 % under open sky",
            numbers={"area_m2": area_m2, "share": FLOOR_SHARE, "by_fixes_m2": by_fixes_m2},
            result=sd_m2,
            unit="m2",
            source="gps_fr",
        ),
    ]
