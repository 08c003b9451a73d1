"""The ceilings that hold for each zone: from the published rows, the lowest where the place is not known."""

from lawn.engine.core.errors import repeated
from lawn.engine.core.numeric import group, listing, optional_number, text
from lawn.engine.core.working import COMMON, N_UNIT, step
from lawn.engine.nutrition.strictest import known_rows, strictest

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

MOST_ZONES = 1000
MOST_ROWS = 200
GENTLE = ("fine_fescues", "centipedegrass", "buffalograss")  # at most half a pound at once, quick or slow
GENTLE_ONCE_KG_M2 = 0.002441214  # 0.5 lb per 1,000 ft2, common practice
SHADE_SHARE = 0.5  # grass in shade needs about half
SHADE_SOURCE = "UC-FERTAMT"
WHAT = {
    "quick_kg_m2": "Nitrogen, quick, of one feed at most",
    "total_kg_m2": "Nitrogen of one feed at most",
    "high_kg_m2": "Nitrogen of a year at most",
    "once": "Phosphate (P2O5) at once at most",
    "year": "Phosphate (P2O5) of a year at most",
    "lime": "Lime at once at most",
}


def ceilings(
    *,
    zones: list[object],
    once: list[object],
    phosphate: list[object] | None = None,
    lime: list[object] | None = None,
    place: str | None = None,
) -> tuple[dict[str, object], list[dict[str, object]]]:
    """What may go on each zone at most, at once and in a year; the lowest published figure where no place is given.

    Args:
        zones: the zones, up to 1000 [list]
        zones.id: the zone, once only [text]
        zones.grass?: key of its grass [text]
        zones.sun?: sun, part_shade or shade [text]
        zones.year_rows?: published ranges of the year for its grass [list]
        zones.year_rows.high_kg_m2?: the most of the range [kg/m2; 0 to 5]
        zones.year_rows.sources?: keys of what it is printed in [list of texts]
        once: published figures for one feed [list]
        once.where?: the place it holds for [text]
        once.quick_kg_m2?: quick nitrogen at once at most [kg/m2; 0 to 5]
        once.total_kg_m2?: nitrogen at once at most [kg/m2; 0 to 5]
        once.sources?: keys of what it is printed in [list of texts]
        phosphate?: published figures for phosphate [list]
        phosphate.per: what it holds for [one of once, year]
        phosphate.kg_m2?: phosphate at most [kg/m2; 0 to 5]
        phosphate.sources?: keys of what it is printed in [list of texts]
        lime?: published figures for lime at once [list]
        lime.kg_m2?: lime at most [kg/m2; 0 to 5]
        lime.sources?: keys of what it is printed in [list of texts]
        place?: the place, as `where` of the rows names it; not known when not said [text]
    Returns:
        zones: what may go on each zone [list]
        zones.zone_id: the zone [text]
        zones.n_year_kg_m2: nitrogen of the year at most; null where nothing is published [kg/m2 or null]
        zones.n_once_kg_m2: nitrogen of one feed at most, likewise [kg/m2 or null]
        zones.n_quick_once_kg_m2: its quick part at most, likewise [kg/m2 or null]
        zones.p2o5_once_kg_m2: phosphate at once at most, likewise [kg/m2 or null]
        zones.p2o5_year_kg_m2: phosphate of the year at most, likewise [kg/m2 or null]
        lime_once_kg_m2: lime at once at most, null where nothing is published [kg/m2 or null]
    Raises:
        out_of_range: a number is outside its range
        repeated: a zone stands twice in the list
    Source: definition
    """
    where = None if place is None else text("place", place)
    working: list[dict[str, object]] = []
    rows = _rows("once", once)
    here = [row for row in rows if row.get("where") == where]
    quick = _lowest("once", here, rows, "quick_kg_m2", working)
    whole = _lowest("once", here, rows, "total_kg_m2", working)
    p2o5 = {}
    for per in ("once", "year"):
        fitting = [row for row in _rows("phosphate", phosphate) if row.get("per") == per]
        p2o5[per] = _lowest("phosphate", [], fitting, "kg_m2", working, WHAT[per])
    lime_kg_m2 = _lowest("lime", [], _rows("lime", lime), "kg_m2", working, WHAT["lime"])
    found: list[dict[str, object]] = []
    for at, item in enumerate(listing("zones", zones, 0, MOST_ZONES)):
        zone = group("zones[" + str(at) + "]", item, ("id", "grass", "sun", "year_rows"))
        zone_id = text("zones[" + str(at) + "].id", zone.get("id"))
        if any(row["zone_id"] == zone_id for row in found):
            raise repeated("zones[" + str(at) + "]", zone_id, "This zone stands twice in the list.")
        gentle = zone.get("grass") in GENTLE
        found.append(
            {
                "zone_id": zone_id,
                "n_year_kg_m2": _year(zone_id, zone, working),
                "n_once_kg_m2": _gentle(zone_id, whole, working) if gentle else whole,
                "n_quick_once_kg_m2": _least(quick, GENTLE_ONCE_KG_M2) if gentle else quick,
                "p2o5_once_kg_m2": p2o5["once"],
                "p2o5_year_kg_m2": p2o5["year"],
            }
        )
    return {"zones": found, "lime_once_kg_m2": lime_kg_m2}, working


def _rows(path: str, rows: object) -> "list[dict[str, Any]]":
    found = []
    for at, item in enumerate(listing(path, rows, 0, MOST_ROWS) if rows is not None else []):
        found.append(item if isinstance(item, dict) else group(path + "[" + str(at) + "]", item, ()))
    return found


def _lowest(
    path: str,
    here: "list[dict[str, Any]]",
    rows: "list[dict[str, Any]]",
    name: str,
    working: list[dict[str, object]],
    what: str | None = None,
    of: str | None = None,
) -> float | None:
    """The figure of the place where it has one, else the lowest of all."""
    pairs = [(_figure(path + "." + name, row[name]), _source(row)) for row in known_rows(here, rows, name)]
    if not pairs:
        return None
    lowest = pairs[strictest([pair[0] for pair in pairs])][0]
    said = what or WHAT[name]
    working.append(
        step(
            what=said,
            formula="the lowest of the published figures, or the place's own",
            numbers={"each_n_kg_m2" if said[0] == "N" else "each_kg_m2": [pair[0] for pair in pairs]},
            result=lowest,
            unit=N_UNIT if said.startswith("Nitrogen") else "kg/m2",
            source=next(iter([pair[1] for pair in pairs if pair[0] == lowest])),
            of=of,
        )
    )
    return lowest


def _figure(name: str, value: object) -> float:
    found = optional_number(name, value, 0.0, 5.0)
    return 0.0 if found is None else found


def _source(row: "dict[str, Any]") -> str:
    sources = row.get("sources")
    return str(sources[0]) if isinstance(sources, list) and sources else COMMON


def _year(zone_id: str, zone: dict[str, object], working: list[dict[str, object]]) -> float | None:
    rows = _rows("zones.year_rows", zone.get("year_rows"))
    most = _lowest("zones.year_rows", [], rows, "high_kg_m2", working, None, zone_id)
    if most is None or zone.get("sun") != "shade":
        return most
    working.append(
        step(
            what="Nitrogen of a year at most in shade",
            formula="half of what the grass takes in sun",
            numbers={"n_kg_m2": most, "shade_share": SHADE_SHARE},
            result=most * SHADE_SHARE,
            unit=N_UNIT,
            source=SHADE_SOURCE,
            of=zone_id,
        )
    )
    return most * SHADE_SHARE


def _gentle(zone_id: str, whole: float | None, working: list[dict[str, object]]) -> float:
    lowest = _least(whole, GENTLE_ONCE_KG_M2)
    working.append(
        step(
            what="Nitrogen of one feed at most on this grass",
            formula="half a pound per 1,000 ft2, quick or slow, or less where a rule says so",
            numbers={"n_kg_m2": whole},
            result=lowest,
            unit=N_UNIT,
            source=COMMON,
            of=zone_id,
        )
    )
    return lowest


def _least(one: float | None, other: float) -> float:
    return other if one is None else min(one, other)
