"""The walk over a zone, strip by strip, and the walk over several zones one after another."""

from lawn.engine.core.errors import impossible
from lawn.engine.core.numeric import at_least, choice, group, listing, number, optional_number, text, total, whole
from lawn.engine.route.plan import PATTERNS, Plan, lay_out
from lawn.engine.route.steps import minutes_of, over_edge_of, plan_steps, tour_steps
from lawn.engine.route.taken_out import out_rows, out_share

TYPE_CHECKING = False
if TYPE_CHECKING:  # never true at run time: MicroPython has no typing module
    from typing import Any

MOST_ZONES = 60
ZONE_FIELDS = ("id", "area_m2", "outline_m", "holes_m", "heading_deg", "strips", "water_edges", "setback_m")


def walk_plan(
    *,
    outline_m: list[object],
    swath_m: float,
    holes_m: list[object] | None = None,
    heading_deg: float | None = None,
    pattern: str | None = None,
    header_strips: int | None = None,
    speed_m_s: float | None = None,
    load_kg: float | None = None,
    rate_kg_m2: float | None = None,
) -> "tuple[dict[str, Any], list[dict[str, object]]]":
    """Strips to walk over one zone: round its edges first, then to and fro, and what should be left after each.

    With header strips a strip ends where their band begins; where it meets an edge aslant it runs on by up to half
    a swath so that its whole width reaches the band. Without header strips it ends at the outline.

    Args:
        outline_m: corners [x, y] in order round the edge; 3 to 400 [list of corners]
        swath_m: distance from one track to the next [m; 0.2 to 20]
        holes_m?: such lists of corners, one for each bed, tree or building cut out; up to 40 [list of lists of corners]
        heading_deg?: heading of the strips, 0 along +y, clockwise; that of fewest strips when not said [deg; 0 to 360]
        pattern?: plain (when not said), offset by half a swath from that, or crossed: square to the heading [one of
            plain, offset, crossed]
        header_strips?: strips walked round each edge first; 1 when not said [strips; 0 to 4]
        speed_m_s?: walking speed [m/s; 0.3 to 3]
        load_kg?: product in the hopper at the start [kg; 0 to 5000]
        rate_kg_m2?: product this pass should put down [kg/m2; 0.000001 to 50]
    Returns:
        heading_deg: heading of the strips [deg]
        strips: the parallel strips in the order and direction walked [list]
        strips.x1: start of the strip [m]
        strips.y1: start of the strip [m]
        strips.x2: end of the strip [m]
        strips.y2: end of the strip [m]
        strips.length_m: its length [m]
        strips.left_kg: product that should be left after it; null without load or rate [kg or null]
        headers: the strips round edges and through narrow places, each a list of [x, y] [list of lists of corners]
        order: all rows as walked, headers first [list]
        order.kind: header or strip [one of header, strip]
        order.index: its place among headers or strips [rows]
        order.points_m: its corners [list of corners]
        order.length_m: its length [m]
        order.done_share: share of all rows' length walked after it [share]
        order.left_kg: product that should be left after it; null without load or rate [kg or null]
        distance_m: all rows and the straight ways between them [m]
        turns: turns from one strip into the next [turns]
        minutes: time to walk that far; null without a speed [min or null]
        covered_share: share of the ground within half a swath of a row [share]
        doubled_share: share of the ground under two rows or more [share]
        over_edge_share: share that a rotary spreader throws over the edge from the outermost tracks, its deflector
            open; null without header strips [share or null]
        area_m2: area of the ground [m2]
    Raises:
        crossing: the edge crosses or touches itself
        outside: a hole is not wholly inside, or touches an edge or another hole
        out_of_range: a number is outside its range, or the swath would need more than 600 strips
        impossible: the outline encloses nothing
    Source: definition
    Checked: ground of 12 m by 20 m at 1.5 m leaves 9 m between headers, so 6 strips of 17 m (definition)
    """
    wish = _wish(swath_m, pattern, header_strips)
    speed = optional_number("speed_m_s", speed_m_s)
    load, rate = optional_number("load_kg", load_kg), optional_number("rate_kg_m2", rate_kg_m2)
    turned = optional_number("heading_deg", heading_deg)
    plan = lay_out("", outline_m, holes_m, wish[0], turned, wish[1], wish[2])
    left = _left(load, rate, plan.area_m2, plan.done_shares())
    count = len(plan.headers)
    value: dict[str, Any] = {
        "heading_deg": plan.heading_deg,
        "strips": [
            _strip(plan.strips[at], plan.lengths_m[count + at], left[count + at]) for at in range(len(plan.strips))
        ],
        "headers": [_points(row) for row in plan.headers],
        "order": _order(plan, left),
        "distance_m": plan.distance_m,
        "turns": plan.turns,
        "minutes": minutes_of(plan.distance_m, speed),
        "covered_share": plan.covered_share,
        "doubled_share": plan.doubled_share,
        "over_edge_share": plan.over_edge_share,
        "area_m2": plan.area_m2,
    }
    return value, plan_steps(plan, wish[0], turned is None, speed, load, rate)


def tour(
    *,
    zones: list[object],
    swath_m: float,
    pattern: str | None = None,
    header_strips: int | None = None,
    speed_m_s: float | None = None,
    load_kg: float | None = None,
    rate_kg_m2: float | None = None,
    covered_m2: float | None = None,
    out: list[object] | None = None,
) -> "tuple[dict[str, Any], list[dict[str, object]]]":
    """Rows of a walk over several zones, numbered across all of them, with the ground and product still to go.

    A zone without an outline is one row, or as many equal strips as the walker counts there. Ground counts as done in
    proportion to the length walked within its zone, product in proportion to the ground done. Ground that gets no more
    is walked over with the gate shut: it counts neither as done nor as to go. Ground nearer to an edge at the water
    than the setback is not walked: edge strips run along it as along an edge.

    Args:
        zones: the zones in the order walked, 1 to 60 [list]
        zones.id: id of the zone, each once [text]
        zones.area_m2: its area on record, less what stays clear of water [m2; 0.5 to 100000]
        zones.outline_m?: its corners [x, y] in order round the edge [list of corners]
        zones.holes_m?: what is cut out of the outline, each a list of corners [list of lists of corners]
        zones.heading_deg?: heading of its strips, 0 along +y, clockwise; that of fewest when not said [deg; 0 to 360]
        zones.strips?: strips the walker counts in it, where it has no outline [strips; 1 to 1000]
        zones.water_edges?: its edges at the water, 0 from the first corner to the second, up to 400 [list of numbers]
        zones.setback_m?: how far the ground walked stays from them; 0 when not said [m; 0 to 100]
        swath_m: distance from one track to the next [m; 0.2 to 20]
        pattern?: plain (when not said), offset by half a swath from that, or crossed: square to the heading [one of
            plain, offset, crossed]
        header_strips?: strips walked round each edge first; 1 when not said [strips; 0 to 4]
        speed_m_s?: walking speed [m/s; 0.3 to 3]
        load_kg?: product in the hopper at the start, or once covered_m2 was walked [kg; 0 to 5000]
        rate_kg_m2?: product this pass should put down [kg/m2; 0.000001 to 50]
        covered_m2?: ground walked before load_kg was there; none when not said [m2; 0 to 6000000]
        out?: rows of earlier passes that get no more, such as scorched strips, up to 1000 [list]
        out.zone_id: zone the row lies in [text]
        out.points_m?: its corners; without them the ground is found by from_m2 and to_m2 [list of corners]
        out.from_m2: ground walked over before the row, as walked_m2 [m2; 0 to 6000000]
        out.to_m2: ground walked over once it is walked [m2; 0 to 6000000]
    Returns:
        rows: every row in the order walked [list]
        rows.zone_id: zone the row lies in [text]
        rows.kind: header, strip, or whole for a zone without an outline [one of header, strip, whole]
        rows.number: number of the row, from 1 across all zones [rows]
        rows.of_zone: number of the row within its zone, from 1 [rows]
        rows.points_m: its corners in the zone's own metres; null for a whole zone [list of corners or null]
        rows.length_m: its length; null for a whole zone [m or null]
        rows.walked_m2: ground walked over after the row, with the gate open or shut [m2]
        rows.out_m2: ground of the row that gets no more [m2]
        rows.done_area_m2: ground done after the row [m2]
        rows.to_go_area_m2: ground still to go after it [m2]
        rows.left_kg: product that should be left after it; null without load or rate, and before covered_m2 [kg or
            null]
        zones: for each zone how it is walked [list]
        zones.zone_id: id of the zone [text]
        zones.heading_deg: heading of its strips; null without an outline [deg or null]
        zones.strips: how many strips [strips]
        zones.headers: how many header strips [strips]
        zones.out_m2: ground of it that gets no more [m2]
        zones.distance_m: way within the zone; null without an outline [m or null]
        zones.minutes: time for it; null without an outline or a speed [min or null]
        zones.turns: turns from one strip into the next [turns]
        zones.covered_share: share of its ground within half a swath of a row; null without an outline [share or null]
        zones.doubled_share: share of its ground under two rows or more; null without an outline [share or null]
        zones.over_edge_share: share that a rotary throws over its edge; null without an outline or headers [share or
            null]
        zones.ground_m: where some of it stays clear of water the ground left, its edges and those of its holes; null
            elsewhere [list of lists of corners or null]
        distance_m: way within all zones with an outline [m]
        minutes: time for it; null without a speed [min or null]
        strips_total: rows in all [rows]
        over_edge_share: the zones' shares together; null where no zone has one [share or null]
        area_m2: area of all zones [m2]
        out_m2: ground of all zones that gets no more [m2]
    Raises:
        crossing: an edge crosses or touches itself
        outside: a hole is not wholly inside, or touches an edge or another hole
        out_of_range: a number is outside its range, or the swath would need more than 600 strips in a zone
        repeated: an edge at the water stands twice in its list
        impossible: an outline encloses nothing, all of it lies within the setback, or a zone is named twice
    Source: definition
    """
    wish = _wish(swath_m, pattern, header_strips)
    speed = optional_number("speed_m_s", speed_m_s)
    load, rate = optional_number("load_kg", load_kg), optional_number("rate_kg_m2", rate_kg_m2)
    asked = _zones(zones)
    laid = [_laid(at, asked[at], wish) for at in range(len(asked))]
    area_m2 = total([float(zone["area_m2"]) for zone in asked])
    rows: list[dict[str, Any]] = []
    before_m2 = 0.0
    for zone, plan in laid:
        rows += _zone_rows(zone, plan, len(rows), before_m2, area_m2)
        before_m2 = before_m2 + float(zone["area_m2"])
    _take_out(rows, out_rows(out), wish[0], area_m2)
    covered = optional_number("covered_m2", covered_m2) or 0.0
    left = _left(load, rate, area_m2, [(float(row["done_area_m2"]) - covered) / area_m2 for row in rows])
    for at in range(len(rows)):
        rows[at]["left_kg"] = left[at] if at_least(float(rows[at]["done_area_m2"]), covered) else None
    said = [_zone_said(zone, plan, speed, rows) for zone, plan in laid]
    distance_m = total([plan.distance_m for _, plan in laid if plan is not None])
    value: dict[str, Any] = {
        "rows": rows,
        "zones": said,
        "distance_m": distance_m,
        "minutes": minutes_of(distance_m, speed),
        "strips_total": len(rows),
        "over_edge_share": over_edge_of(laid),
        "area_m2": area_m2,
        "out_m2": total([float(row["out_m2"]) for row in rows]),
    }
    return value, tour_steps(value, laid, wish[0], speed, load, rate)


def _wish(swath_m: object, pattern: object, header_strips: object) -> tuple[float, str, int]:
    way = "plain" if pattern is None else choice("pattern", pattern, PATTERNS)
    headers = 1 if header_strips is None else whole("header_strips", header_strips)
    return number("swath_m", swath_m), way, headers


def _zones(value: object) -> "list[dict[str, Any]]":
    found: list[dict[str, Any]] = []
    seen: list[str] = []
    for at, item in enumerate(listing("zones", value, 1, MOST_ZONES)):
        path = "zones[" + str(at) + "]"
        zone = group(path, item, ZONE_FIELDS)
        name = text(path + ".id", zone.get("id"))
        if name in seen:
            raise impossible(name=path + ".id", value=name, message="This zone is named twice.")
        seen.append(name)
        found.append(
            {
                "id": name,
                "area_m2": number(path + ".area_m2", zone.get("area_m2")),
                "outline_m": zone.get("outline_m"),
                "holes_m": zone.get("holes_m"),
                "heading_deg": optional_number(path + ".heading_deg", zone.get("heading_deg")),
                "strips": None if zone.get("strips") is None else whole(path + ".strips", zone["strips"]),
                "water_edges": zone.get("water_edges"),
                "setback_m": optional_number(path + ".setback_m", zone.get("setback_m")) or 0.0,
            }
        )
    return found


def _laid(at: int, zone: "dict[str, Any]", wish: tuple[float, str, int]) -> "tuple[dict[str, Any], Plan | None]":
    if zone["outline_m"] is None:
        return zone, None
    path = "zones[" + str(at) + "]."
    turned, at_water = zone["heading_deg"], zone["water_edges"]
    clear = (at_water, zone["setback_m"]) if at_water and zone["setback_m"] > 0.0 else None
    return zone, lay_out(path, zone["outline_m"], zone["holes_m"], wish[0], turned, wish[1], wish[2], clear)


def _zone_rows(
    zone: "dict[str, Any]", plan: "Plan | None", before: int, before_m2: float, area_m2: float
) -> "list[dict[str, Any]]":
    count = zone["strips"] or 1
    shares = [(at + 1) / count for at in range(count)] if plan is None else plan.done_shares()
    plain = "strip" if zone["strips"] else "whole"
    rows = []
    for at in range(len(shares)):
        done_m2 = before_m2 + shares[at] * zone["area_m2"]
        kind = plain if plan is None else ("header" if at < len(plan.headers) else "strip")
        rows.append(
            {
                "zone_id": zone["id"],
                "kind": kind,
                "number": before + at + 1,
                "of_zone": at + 1,
                "points_m": None if plan is None else _points((plan.headers + plan.strips)[at]),
                "length_m": None if plan is None else plan.lengths_m[at],
                "walked_m2": min(done_m2, area_m2),
                "out_m2": 0.0,
                "done_area_m2": min(done_m2, area_m2),
                "to_go_area_m2": max(0.0, area_m2 - done_m2),
            }
        )
    return rows


def _take_out(rows: "list[dict[str, Any]]", out: "list[dict[str, Any]]", swath_m: float, area_m2: float) -> None:
    """Count ground that gets no more neither as done nor as to go."""
    if not out:
        return
    before_m2 = 0.0
    for row in rows:
        row["out_m2"] = (row["walked_m2"] - before_m2) * out_share(row, before_m2, out, swath_m)
        before_m2 = row["walked_m2"]
    outs = [float(row["out_m2"]) for row in rows]
    ground_m2 = max(0.0, area_m2 - total(outs))
    for at in range(len(rows)):
        done_m2 = min(ground_m2, max(0.0, rows[at]["walked_m2"] - total(outs[: at + 1])))
        rows[at]["done_area_m2"] = ground_m2 if at == len(rows) - 1 else done_m2
        rows[at]["to_go_area_m2"] = ground_m2 - rows[at]["done_area_m2"]


def _zone_said(
    zone: "dict[str, Any]", plan: "Plan | None", speed: float | None, rows: "list[dict[str, Any]]"
) -> "dict[str, Any]":
    return {
        "zone_id": zone["id"],
        "out_m2": total([float(row["out_m2"]) for row in rows if row["zone_id"] == zone["id"]]),
        "heading_deg": None if plan is None else plan.heading_deg,
        "strips": zone["strips"] or 0 if plan is None else len(plan.strips),
        "headers": 0 if plan is None else len(plan.headers),
        "distance_m": None if plan is None else plan.distance_m,
        "minutes": None if plan is None else minutes_of(plan.distance_m, speed),
        "turns": 0 if plan is None else plan.turns,
        "covered_share": None if plan is None else plan.covered_share,
        "doubled_share": None if plan is None else plan.doubled_share,
        "over_edge_share": None if plan is None else plan.over_edge_share,
        "ground_m": None if plan is None or plan.ground_m is None else [_points(ring) for ring in plan.ground_m],
    }


def _left(load: float | None, rate: float | None, area_m2: float, done: list[float]) -> "list[float | None]":
    """Product that should be left after each row: the load less rate times the ground done, never below none."""
    if load is None or rate is None:
        return [None] * len(done)
    return [max(0.0, load - rate * area_m2 * share) for share in done]


def _points(row: list[tuple[float, float]]) -> list[list[float]]:
    return [[x, y] for x, y in row]


def _strip(row: list[tuple[float, float]], length_m: float, left_kg: float | None) -> dict[str, object]:
    (x1, y1), (x2, y2) = row[0], row[1]
    return {"x1": x1, "y1": y1, "x2": x2, "y2": y2, "length_m": length_m, "left_kg": left_kg}


def _order(plan: Plan, left: "list[float | None]") -> "list[dict[str, Any]]":
    shares = plan.done_shares()
    count = len(plan.headers)
    rows = []
    for at, row in enumerate(plan.headers + plan.strips):
        rows.append(
            {
                "kind": "header" if at < count else "strip",
                "index": at if at < count else at - count,
                "points_m": _points(row),
                "length_m": plan.lengths_m[at],
                "done_share": shares[at],
                "left_kg": left[at],
            }
        )
    return rows
