"""Nitrogen to aim at in a year: by grass and wish, less in shade and where clippings stay."""

from lawn.engine.core.errors import repeated
from lawn.engine.core.numeric import choice, flag, group, listing, optional_number, text
from lawn.engine.core.working import COMMON, DEFINITION, N_UNIT, step
from lawn.engine.nutrition.ceilings import SHADE_SHARE, SHADE_SOURCE

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

LEVELS = ("low", "middle", "high")
MOST_ZONES = 1000
MOST_ROWS = 200
CLIPPINGS_SHARE = 0.25  # clippings left lower the year by a quarter at most (common practice)
ZONE = ("id", "grass", "sun", "year_rows")


def yearly_aim(
    *, zones: list[object], level: str, clippings: bool | None = None, less_share: float | None = None
) -> tuple[dict[str, object], list[dict[str, object]]]:
    """Nitrogen to aim at in a year on each zone; an aim to plan by, never more than `limits.ceilings` allows.

    Low is the lowest figure printed for the grass, high the lowest of the printed ranges' ends, middle lies halfway.

    Args:
        zones: the zones, up to 1000 [list]
        zones.id: the zone, once only [text]
        zones.grass?: key of its grass [text]
        zones.sun?: sun, part_shade or shade [text]
        zones.year_rows?: published ranges of the year for its grass [list]
        zones.year_rows.low_kg_m2?: the least of the range [kg/m2; 0 to 5]
        zones.year_rows.high_kg_m2?: the most of the range [kg/m2; 0 to 5]
        zones.year_rows.sources?: keys of what it is printed in [list of texts]
        level: how green it is to be [one of low, middle, high]
        clippings?: whether they are left on the grass; no when not said [true or false]
        less_share?: how much less then; a quarter when not said, which is the most [share; 0 to 0.25]
    Returns:
        zones: each zone [list]
        zones.zone_id: the zone [text]
        zones.n_year_kg_m2: nitrogen to aim at; null where nothing is published [kg/m2 or null]
        zones.low_kg_m2: the same for low, with shade and clippings [kg/m2 or null]
        zones.middle_kg_m2: the same for middle [kg/m2 or null]
        zones.high_kg_m2: the same for high [kg/m2 or null]
        zones.share: what shade and clippings leave of the printed figure [share]
    Raises:
        out_of_range: a number is outside its range
        not_a_choice: the level is none of the three
        repeated: a zone stands twice in the list
    Source: common practice
    """
    wish, left = choice("level", level, LEVELS), flag("clippings", clippings)
    less = optional_number("less_share", less_share)
    kept = 1.0 - (CLIPPINGS_SHARE if less is None else less) if left else 1.0
    found: list[dict[str, Any]] = []
    working: list[dict[str, object]] = []
    for at, item in enumerate(listing("zones", zones, 0, MOST_ZONES)):
        path = "zones[" + str(at) + "]"
        zone = group(path, item, ZONE)
        zone_id = text(path + ".id", zone.get("id"))
        if any(row["zone_id"] == zone_id for row in found):
            raise repeated(path, zone_id, "This zone stands twice in the list.")
        share = kept * (SHADE_SHARE if zone.get("sun") == "shade" else 1.0)
        found.append(_zone(path, zone_id, zone, wish, share, working))
    numbers: dict[str, object] = {"zones": len(found)}
    what, formula = "Left by clippings that stay", "a quarter less at most"
    working.append(step(what=what, formula=formula, numbers=numbers, result=kept, unit="share", source=COMMON))
    return {"zones": found}, working


def _zone(
    path: str,
    zone_id: str,
    zone: "dict[str, Any]",
    wish: str,
    share: float,
    working: "list[dict[str, object]]",
) -> "dict[str, Any]":
    row: dict[str, Any] = {"zone_id": zone_id, "n_year_kg_m2": None, "share": share}
    row.update({"low_kg_m2": None, "middle_kg_m2": None, "high_kg_m2": None})
    source = SHADE_SOURCE if zone.get("sun") == "shade" else COMMON
    working.append(_step("Share of the printed figure", {"share": share}, share, "share", source, zone_id))
    lows, highs, sources = _printed(path + ".year_rows", zone.get("year_rows"))
    if not highs:
        return row
    high = min(highs)
    low = min(min(lows), high) if lows else high
    figures = (("low", low), ("middle", (low + high) / 2.0), ("high", high))
    key = sources[highs.index(high)]
    for name, figure in figures:
        numbers: dict[str, object] = {"lows_n_kg_m2": lows, "highs_n_kg_m2": highs, "share": share}
        row[name + "_kg_m2"] = figure * share
        working.append(_step("Nitrogen of a year, " + name, numbers, figure * share, N_UNIT, key, zone_id))
    row["n_year_kg_m2"] = row[wish + "_kg_m2"]
    return row


def _printed(path: str, rows: object) -> "tuple[list[float], list[float], list[str]]":
    lows: list[float] = []
    highs: list[float] = []
    sources: list[str] = []
    for at, item in enumerate(listing(path, rows, 0, MOST_ROWS) if rows is not None else []):
        here = path + "[" + str(at) + "]"
        given = item if isinstance(item, dict) else group(here, item, ())
        low = optional_number(here + ".low_kg_m2", given.get("low_kg_m2"), 0.0, 5.0)
        high = optional_number(here + ".high_kg_m2", given.get("high_kg_m2"), 0.0, 5.0)
        if low is not None:
            lows.append(low)
        if high is not None:
            highs.append(high)
            named = given.get("sources")
            sources.append(str(named[0]) if isinstance(named, (list, tuple)) and named else COMMON)
    return lows, highs, sources


def _step(
    what: str, numbers: "dict[str, object]", result: float, unit: str, source: str, zone_id: str
) -> "dict[str, object]":
    formula = "of the printed ranges the lowest start, the lowest end, or halfway; by shade and clippings"
    return step(
        what=what,
        formula=formula if unit != "share" else "half in shade, by what clippings leave",
        numbers=numbers,
        result=result,
        unit=unit,
        source=source if source else DEFINITION,
        of=zone_id,
    )
