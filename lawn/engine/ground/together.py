"""Several zones taken together."""

from lawn.engine.core.errors import repeated
from lawn.engine.core.numeric import group, listing, number, text, total
from lawn.engine.core.working import DEFINITION, step

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

MOST_ZONES = 1000


def together(*, zones: list[object]) -> "tuple[dict[str, Any], list[dict[str, object]]]":
    """Area of several zones together.

    Args:
        zones: the zones; none have no area [list]
        zones.id: the zone, once only [text]
        zones.area_m2: its area [m2; 0.5 to 100000]
    Returns:
        area_m2: all of them [m2]
    Raises:
        out_of_range: an area is outside its range
        repeated: a zone stands twice in the list
    Source: definition
    Checked: 120 and 80 m2 are 200 m2 (definition)
    """
    areas: dict[str, float] = {}
    for at, item in enumerate(listing("zones", zones, 0, MOST_ZONES)):
        path = "zones[" + str(at) + "]"
        given = group(path, item, ("id", "area_m2"))
        one = text(path + ".id", given.get("id"))
        if one in areas:
            raise repeated(path, one, "This zone stands twice in the list.")
        areas[one] = number(path + ".area_m2", given.get("area_m2"))
    area_m2 = total([areas[one] for one in sorted(areas)])
    worked = step(
        what="Area together",
        formula="areas of the zones, added up",
        numbers={"zones": len(areas)},
        result=area_m2,
        unit="m2",
        source=DEFINITION,
    )
    return {"area_m2": area_m2}, [worked]
