"""Ground traced over a picture of a plan: pixels to metres by distances that are known on it."""

import math

from lawn.engine.core.errors import impossible
from lawn.engine.core.numeric import group, listing, number, optional_number, total
from lawn.engine.core.working import COMMON, DEFINITION, step
from lawn.engine.ground.outline import (
    check_holes,
    check_simple,
    corner_spread,
    distance,
    enclosed_by,
    perimeter_of,
    ring_of,
    signed_area_m2,
)

ASSUMED_DISTANCE_ERROR = 0.02  # as for any other length measured at home
ASSUMED_POINTING = 3.0  # px; a finger on a picture that fills a phone's screen
MOST_KNOWN = 20
MOST_HOLES = 40
SHORTEST = 10.0  # px; over less, pointing alone spoils the scale
DISAGREE = 0.25  # two distances further apart than this are a slip, not an error of measuring


def trace(
    *,
    points_px: list[object],
    known: list[object],
    holes_px: list[object] | None = None,
    distance_error_share: float | None = None,
    pointing_px: float | None = None,
    north_px_deg: float | None = None,
) -> tuple[dict[str, object], list[dict[str, object]]]:
    """Area traced on a picture of a plan, in metres by one or more distances known on it.

    The scale is the mean of what each known distance gives, each weighted by how sure it is: its own share of error,
    and the pointing at its two ends. Where they differ by more than that, the error grows with it.

    Args:
        points_px: corners [x, y] on the picture, y downwards, 3 to 400; the first may be repeated last [list of
            corners]
        known: the known distances, 1 to 20 [list]
        known.x1: first end, across [px; -50000 to 50000]
        known.y1: first end, down [px; -50000 to 50000]
        known.x2: second end, across [px; -50000 to 50000]
        known.y2: second end, down [px; -50000 to 50000]
        known.distance_m: how far apart they are on the ground [m; 0.1 to 5000]
        holes_px?: such lists of corners, one for each bed or building cut out; up to 40 [list of lists of corners]
        distance_error_share?: how far one known distance is likely off; 0.02 is assumed and said so [share; 0 to 0.3]
        pointing_px?: how far a corner is likely pointed wrong; 3 when not said [px; 0 to 100]
        north_px_deg?: where north points on the picture, clockwise from up [deg; -360 to 360]
    Returns:
        area_m2: area [m2]
        sd_m2: its likely error, one standard deviation [m2]
        points_m: corners [x, y] from the first corner, y up; turned so that up is north where north is told [list of
            corners]
        holes_m: the holes' corners alike [list of lists of corners]
        perimeter_m: length of all edges, those of the holes included [m]
        metres_per_px: scale of the picture [m/px]
        scale_sd_share: its likely error [share]
        north_deg: bearing of up, which is 0 where north is told; else null [deg or null]
    Raises:
        crossing: an edge crosses or touches itself
        outside: a hole is not wholly inside, or touches an edge or another hole
        impossible: a known distance is too short on the picture, or they disagree by more than a quarter
        out_of_range: a number is outside its range
    Source: definition
    """
    share = optional_number("distance_error_share", distance_error_share)
    pointing = optional_number("pointing_px", pointing_px)
    pointing = ASSUMED_POINTING if pointing is None else pointing
    used = ASSUMED_DISTANCE_ERROR if share is None else share
    rings_px = _rings(points_px, holes_px)
    scale, scale_share, scaling = _scale(known, used, share is None, pointing)
    turn = optional_number("north_px_deg", north_px_deg)
    rings = [_metres(ring, rings_px[0][0], scale, turn) for ring in rings_px]
    areas = [abs(signed_area_m2(rings[0]))] + [-abs(signed_area_m2(ring)) for ring in rings[1:]]
    area_m2 = enclosed_by("points_px", total(areas))
    spread_m = math.sqrt(total([corner_spread(ring) ** 2 for ring in rings]))
    by_scale_m2, by_corners_m2 = 2.0 * scale_share * area_m2, pointing * scale * spread_m
    perimeter_m = total([perimeter_of(ring) for ring in rings])
    value: dict[str, object] = {
        "area_m2": area_m2,
        "sd_m2": math.sqrt(by_scale_m2 * by_scale_m2 + by_corners_m2 * by_corners_m2),
        "points_m": [[x, y] for x, y in rings[0]],
        "holes_m": [[[x, y] for x, y in ring] for ring in rings[1:]],
        "perimeter_m": perimeter_m,
        "metres_per_px": scale,
        "scale_sd_share": scale_share,
        "north_deg": None if turn is None else 0.0,
    }
    working = scaling + _area_steps(areas, area_m2, by_scale_m2, by_corners_m2, value["sd_m2"])
    working.append(_perimeter_step(len(rings), perimeter_m))
    return value, working + ([] if turn is None else [_north_step(turn)])


def _rings(points_px: object, holes_px: object) -> list[list[tuple[float, float]]]:
    """The outline and its holes on the picture, each simple and each hole inside."""
    outer = ring_of("points_px", points_px)
    check_simple("points_px", outer)
    holes = [] if holes_px is None else listing("holes_px", holes_px, 0, MOST_HOLES)
    paths = ["holes_px[" + str(at) + "]" for at in range(len(holes))]
    rings = [ring_of(paths[at], hole) for at, hole in enumerate(holes)]
    for at, ring in enumerate(rings):
        check_simple(paths[at], ring)
    check_holes(outer, rings, paths)
    return [outer] + rings


def _scale(known: object, share: float, assumed: bool, pointing: float) -> tuple[float, float, list[dict[str, object]]]:
    """Metres per pixel, its error as a share, and the working."""
    scales: list[float] = []
    weights: list[float] = []
    for at, item in enumerate(listing("known", known, 1, MOST_KNOWN)):
        distance_m, length_px = _known("known[" + str(at) + "]", item)
        scales.append(distance_m / length_px)
        # Both ends are pointed at, each off along the line; a little is left so that nothing is ever certain.
        off = share * share + 2.0 * (pointing / length_px) ** 2
        weights.append(1.0 / max(off, 1e-12))
    mean = total([weights[at] * scales[at] for at in range(len(scales))]) / total(weights)
    shares = [scale / mean - 1.0 for scale in scales]
    farthest = max([abs(share) for share in shares])
    if farthest > DISAGREE:
        at = [abs(share) for share in shares].index(farthest)
        message = "The known distances do not fit each other on this picture: one of them is off by a quarter or more."
        raise impossible(name="known[" + str(at) + "].distance_m", value=scales[at], message=message)
    expected = 1.0 / math.sqrt(total(weights))
    found = total([weights[at] * shares[at] ** 2 for at in range(len(shares))])
    wider = math.sqrt(found / (len(shares) - 1)) if len(shares) > 1 else 1.0
    spread = expected * max(1.0, wider)
    return mean, spread, [_scale_step(len(scales), mean), _scale_error_step(share, assumed, pointing, spread)]


def _known(path: str, item: object) -> tuple[float, float]:
    """A known distance in metres and on the picture."""
    row = group(path, item, ("x1", "y1", "x2", "y2", "distance_m"))
    at: dict[str, float] = {}
    for name in ("x1", "y1", "x2", "y2", "distance_m"):
        at[name] = number(path + "." + name, row.get(name))
    length_px = distance((at["x1"], at["y1"]), (at["x2"], at["y2"]))
    if length_px < SHORTEST:
        message = "The two ends of this known distance are too close together on the picture."
        raise impossible(name=path, value=length_px, message=message, low=SHORTEST)
    return at["distance_m"], length_px


def _metres(
    ring: list[tuple[float, float]], first: tuple[float, float], scale: float, turn: float | None
) -> list[tuple[float, float]]:
    """A ring in metres from the first corner, y up, turned so that north is up."""
    angle = 0.0 if turn is None else turn * math.pi / 180.0
    sine, cosine = (0.0, 1.0) if turn is None else (math.sin(angle), math.cos(angle))
    placed = []
    for px, py in ring:
        x, y = scale * (px - first[0]), scale * (first[1] - py)
        placed.append((x * cosine - y * sine, x * sine + y * cosine))
    return placed


def _scale_step(count: int, scale: float) -> dict[str, object]:
    return step(
        what="Scale of the picture",
        formula="each known distance over its length on the picture; their mean, the surer ones weighing more",
        numbers={"known": count},
        result=scale,
        unit="m/px",
        source=DEFINITION,
    )


def _scale_error_step(share: float, assumed: bool, pointing: float, spread: float) -> dict[str, object]:
    return step(
        what="Likely error of the scale" + (", each distance taken to be off by 2 %" if assumed else ""),
        formula="each distance off by its share and each of its ends by the pointing, on their own, added as squares; "
        "wider where the distances differ by more",
        numbers={"distance_error_share": share, "pointing_px": pointing},
        result=spread,
        unit="share",
        source=COMMON,
    )


def _perimeter_step(rings: int, perimeter_m: float) -> dict[str, object]:
    return step(
        what="Length of all edges",
        formula="distances from corner to corner, added, those of the holes too",
        numbers={"edges_round": rings},
        result=perimeter_m,
        unit="m",
        source=DEFINITION,
    )


def _north_step(turn: float) -> dict[str, object]:
    return step(
        what="Bearing of up after turning",
        formula="the outline turned by the direction of north on the picture",
        numbers={"north_px_deg": turn},
        result=0.0,
        unit="deg",
        source=DEFINITION,
    )


def _area_steps(
    areas: list[float], area_m2: float, by_scale_m2: float, by_corners_m2: float, sd_m2: object
) -> list[dict[str, object]]:
    return [
        step(
            what="Area inside the outline",
            formula="half the sum of the corners' cross products, less the holes",
            numbers={"outer_m2": areas[0], "holes_m2": -total(areas[1:])},
            result=area_m2,
            unit="m2",
            source=DEFINITION,
        ),
        step(
            what="Likely error of the area",
            formula="twice the error of the scale, and each corner pointed wrong on its own, added as squares",
            numbers={"by_scale_m2": by_scale_m2, "by_corners_m2": by_corners_m2},
            result=sd_m2,
            unit="m2",
            source=COMMON,
        ),
    ]
