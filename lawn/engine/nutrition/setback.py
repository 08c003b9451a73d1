"""How far to stay back from water, and the ground that is then left out of a spreading job."""

from lawn.engine.core.errors import repeated
from lawn.engine.core.numeric import flag, group, listing, number, optional_number, text, total
from lawn.engine.core.working import COMMON, DEFINITION, step
from lawn.engine.ground.area import circles_of
from lawn.engine.ground.corners import round_ring
from lawn.engine.route.frame import ground_of
from lawn.engine.route.keep_clear import area_of, edges_at_water, kept_clear, length_at_water

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    from lawn.engine.route.frame import Point, Ring

FIELDS = (
    "id",
    "area_m2",
    "near_water",
    "water_edge_m",
    "setback_m",
    "outline_m",
    "holes_m",
    "circles_m",
    "water_edges",
)
MOST_ZONES = 60
MOST_ROWS = 200


def setback(
    *, zones: list[object], rows: list[object], guarded: bool | None = None, place: str | None = None
) -> tuple[dict[str, object], list[dict[str, object]]]:
    """What stays clear of water in each zone, and the ground left to treat.

    The setback somebody entered for a zone (from the label or the local rule) holds. Else that of the place, where it
    has one: the narrower one that it prints for a drop spreader or a shut edge deflector only if one is used. Where the
    place is not known the widest published figure holds, guarded or not. Where the edges at the water are marked on the
    outline, all ground nearer to them than the setback is left out; else a strip as long as the edge was entered.

    Args:
        zones: the zones, 1 to 60 [list]
        zones.id: the zone, once only [text]
        zones.area_m2: its area [m2; 0.5 to 100000]
        zones.near_water?: whether it runs down to water; no when not said [true or false]
        zones.water_edge_m?: length of its edge at the water; not known when not said [m; 0.1 to 5000]
        zones.outline_m?: its corners [x, y] in order round the edge; 3 to 400 [list of corners]
        zones.holes_m?: what is cut out of the outline, each a list of corners [list of lists of corners]
        zones.circles_m?: round obstacles cut out, up to 40 [list]
        zones.circles_m.x_m: middle, across [m; -50000 to 50000]
        zones.circles_m.y_m: middle, up [m; -50000 to 50000]
        zones.circles_m.radius_m: radius [m; 0.01 to 5000]
        zones.water_edges?: its edges at the water, 0 from the first corner to the second, up to 400; they hold before
            the length [list of numbers]
        zones.setback_m?: what stays clear by its label or local rule [m; 0 to 100]
        rows: published setbacks [list]
        rows.where?: the place it holds for [text]
        rows.setback_m: what stays clear [m; 0 to 100]
        rows.guarded_m?: what stays clear of a drop spreader or a shut deflector, where that is printed [m; 0 to 100]
        rows.sources?: keys of what it is printed in [list of texts]
        guarded?: whether a drop spreader or an edge deflector is used; no when not said [true or false]
        place?: the place, as `where` of the rows names it; not known when not said [text]
    Returns:
        zones: what stays clear in each zone [list]
        zones.zone_id: the zone [text]
        zones.setback_m: what stays clear; null away from water [m or null]
        zones.out_m2: ground left out; null where neither edges nor their length are known [m2 or null]
        zones.drawn: whether the edges at the water are marked, so that the plan of strips stays clear of them [true or
            false]
        zones.area_m2: ground left to treat [m2]
        setback_m: the widest of them, null where no zone is at water [m or null]
        out_m2: ground left out in all [m2]
        area_m2: ground left to treat in all [m2]
    Raises:
        out_of_range: a number is outside its range, or an edge beyond those of the outline
        repeated: a zone or an edge stands twice in its list
        crossing: an outline with edges at the water crosses or touches itself
        outside: a hole of such an outline is not wholly inside
    Source: MD-8-803.5
    Checked: Maryland: 15 ft, and 10 ft with a drop spreader or deflector (MD-8-803.5)
    """
    published, source = _published(rows, flag("guarded", guarded), None if place is None else text("place", place))
    working: list[dict[str, object]] = []
    found: list[dict[str, Any]] = []
    for at, item in enumerate(listing("zones", zones, 1, MOST_ZONES)):
        zone = _zone("zones[" + str(at) + "]", item)
        if any(row["zone_id"] == zone["id"] for row in found):
            raise repeated("zones[" + str(at) + "]", zone["id"], "This zone stands twice in the list.")
        found.append(_stays_out(zone, published, source, working))
    clear = [row["setback_m"] for row in found if row["setback_m"] is not None]
    outs = [row["out_m2"] for row in found if row["out_m2"] is not None]
    areas = [row["area_m2"] for row in found]
    working.append(_sum_step("Ground left out in all", outs))
    working.append(_sum_step("Ground left to treat", areas))
    value: dict[str, object] = {
        "zones": found,
        "setback_m": max(clear) if clear else None,
        "out_m2": total(outs),
        "area_m2": total(areas),
    }
    return value, working


def _zone(path: str, item: object) -> "dict[str, Any]":
    given = group(path, item, FIELDS)
    return {
        "id": text(path + ".id", given.get("id")),
        "area_m2": number(path + ".area_m2", given.get("area_m2")),
        "near_water": flag(path + ".near_water", given.get("near_water")),
        "water_edge_m": optional_number(path + ".water_edge_m", given.get("water_edge_m")),
        "setback_m": optional_number(path + ".setback_m", given.get("setback_m")),
        "edges": _edges(path + ".", given),
    }


def _edges(path: str, given: "dict[str, Any]") -> "tuple[list[Ring], list[tuple[Point, Point]]] | None":
    """The ground of a zone and its edges at the water; nothing where none is marked, or it has no outline."""
    outline_m = given.get("outline_m")
    if outline_m is None or not given.get("water_edges"):
        return None
    rounds = [round_ring(x, y, radius, radius) for x, y, radius in circles_of(given.get("circles_m"), path)]
    holes = listing(path + "holes_m", given.get("holes_m") or [], 0, MOST_ZONES)
    rings, _ = ground_of(path, outline_m, holes + [list(ring) for ring in rounds])
    return rings, edges_at_water(path, outline_m, given["water_edges"])


def _published(rows: object, guarded: bool, place: str | None) -> "tuple[float | None, str]":
    """The setback of the place, or the widest where the place is not known or prints none; with its source."""
    read = []
    for at, item in enumerate(listing("rows", rows, 0, MOST_ROWS)):
        path = "rows[" + str(at) + "]"
        row = item if isinstance(item, dict) else group(path, item, ())
        wide, narrow = number(path + ".setback_m", row.get("setback_m")), row.get("guarded_m")
        own = optional_number(path + ".guarded_m", narrow)
        sources = row.get("sources")
        source = str(sources[0]) if isinstance(sources, list) and sources else COMMON
        read.append(
            (wide if own is None or not guarded else own, source, place is not None and row.get("where") == place)
        )
    fitting = [row for row in read if row[2]] or read
    if not fitting:
        return None, COMMON
    widest = max([row[0] for row in fitting])
    return widest, next(iter([row[1] for row in fitting if row[0] == widest]))


def _stays_out(
    zone: "dict[str, Any]", published_m: float | None, source: str, working: list[dict[str, object]]
) -> "dict[str, Any]":
    """What of one zone stays clear: a strip along its edge at the water, never more than the zone."""
    area_m2, edge_m = zone["area_m2"], zone["water_edge_m"]
    if not zone["near_water"]:
        working.append(
            _zone_step("Ground left out at the water", "none: no water", {"area_m2": area_m2}, 0.0, zone["id"])
        )
        return _row(zone, None, 0.0, working)
    own = zone["setback_m"]
    clear_m = published_m if own is None else own
    if clear_m is not None:
        working.append(_clear_step(zone["id"], own, clear_m, source))
    if clear_m is not None and zone["edges"] is not None:
        return _row(zone, clear_m, _within(zone, clear_m, working), working)
    if clear_m is None or edge_m is None:
        return _row(zone, clear_m, None, working)
    formula = "length of the edge at the water times the setback, at most the zone"
    numbers: dict[str, object] = {"water_edge_m": edge_m, "setback_m": clear_m, "area_m2": area_m2}
    out_m2 = min(area_m2, edge_m * clear_m)
    working.append(_zone_step("Ground left out at the water", formula, numbers, out_m2, zone["id"]))
    return _row(zone, clear_m, out_m2, working)


def _within(zone: "dict[str, Any]", clear_m: float, working: list[dict[str, object]]) -> float:
    """Ground nearer to the marked edges than the setback: the outline's share of it, of the area on record."""
    rings, water = zone["edges"]
    drawn_m2, area_m2 = area_of(rings), zone["area_m2"]
    left_m2 = min(drawn_m2, area_of(kept_clear(rings, water, clear_m)))
    edge_m = length_at_water(water)
    working.append(
        step(
            what="Length of the edges at the water",
            formula="edges marked on the outline, added",
            numbers={"edges": len(water)},
            result=edge_m,
            unit="m",
            source=DEFINITION,
            of=zone["id"],
        )
    )
    numbers: dict[str, object] = {"outline_m2": drawn_m2, "setback_m": clear_m, "water_edge_m": edge_m}
    formula = "outline less all ground nearer to those edges than the setback, round their ends too"
    working.append(_zone_step("Ground of the outline beyond the setback", formula, numbers, left_m2, zone["id"]))
    out_m2: float = area_m2 * (drawn_m2 - left_m2) / drawn_m2
    given: dict[str, object] = {"area_m2": area_m2, "outline_m2": drawn_m2, "beyond_m2": left_m2}
    formula = "area on record, by the outline's share within the setback"
    working.append(_zone_step("Ground left out at the water", formula, given, out_m2, zone["id"]))
    return out_m2


def _row(
    zone: "dict[str, Any]", clear_m: float | None, out_m2: float | None, working: list[dict[str, object]]
) -> "dict[str, Any]":
    left_m2 = zone["area_m2"] - (out_m2 or 0.0)
    numbers: dict[str, object] = {"area_m2": zone["area_m2"], "out_m2": out_m2}
    working.append(_zone_step("Ground of it to treat", "area less what is left out", numbers, left_m2, zone["id"]))
    drawn = clear_m is not None and zone["edges"] is not None
    return {"zone_id": zone["id"], "setback_m": clear_m, "out_m2": out_m2, "area_m2": left_m2, "drawn": drawn}


def _zone_step(what: str, formula: str, numbers: dict[str, object], result: float, of: str) -> dict[str, object]:
    return step(what=what, formula=formula, numbers=numbers, result=result, unit="m2", source=DEFINITION, of=of)


def _clear_step(zone_id: str, own: float | None, clear_m: float, source: str) -> dict[str, object]:
    return step(
        what="To stay clear of water",
        formula="as entered for the zone; else as the place prints it, the widest published where it is not known",
        numbers={"entered_m": own},
        result=clear_m,
        unit="m",
        source=source if own is None else DEFINITION,
        of=zone_id,
    )


def _sum_step(what: str, areas: list[float]) -> dict[str, object]:
    return step(
        what=what, formula="zones, added", numbers={"each_m2": areas}, result=total(areas), unit="m2", source=DEFINITION
    )
