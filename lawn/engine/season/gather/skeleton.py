"""Which of the published skeletons of a year suits a place and its grass; a person may choose another."""

from lawn.engine.core.numeric import choice, group, listing, text
from lawn.engine.core.working import step
from lawn.engine.season.turning import is_southern, year_of
from lawn.engine.warmth.climate import climate as usual
from lawn.engine.warmth.response import TURFS

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

FROST_C = 0.0  # coldest month at or under it: winters are cold (peel_2007)
HOT_C = 22.0  # warmest month from it on: summers are hot (peel_2007)
NEVER_SCALPED = ("st_augustinegrass", "st_augustinegrass_dwarf", "centipedegrass")
MOST_GRASSES = 1000
CLIMATE = ("monthly_mean_c", "warmest_c", "coldest_c", "southern")


def skeleton(*, climate: object, ground: object) -> "tuple[dict[str, object], list[dict[str, object]]]":
    """The skeleton of a year that is offered for each season of grass, by the warmth of the place's months.

    South of the equator it is that of the south. Warm-season grass has one of its own where it may never be scalped.
    Cool-season grass is told apart by frost in the coldest month and heat in the warmest, as climates are: cold
    winters, mild winters with hot summers, mild winters with mild summers.

    Args:
        climate: the place's usual year, as warmth.climate takes it [group of values]
        climate.monthly_mean_c?: means of the twelve months, January first [list of numbers]
        climate.warmest_c?: mean of the warmest month, where the twelve are not known [C; -60 to 60]
        climate.coldest_c?: mean of the coldest month, with it [C; -60 to 60]
        climate.southern?: true where January is warm; asked for only with these two [true or false]
        ground: the zones of the yard [list]
        ground.turf: season of its grass [one of cool, warm]
        ground.grass?: key of its grass [text]
    Returns:
        offered: one for each season of grass in the yard [list]
        offered.turf: season of the grass [one of cool, warm]
        offered.key: the skeleton's letter [one of a, b, c, d, e, f]
        offered.why: what tells [one of southern, cold_winter, hot_summer, mild, never_scalped, warm_season]
        warmest_c: mean of the warmest month [C]
        coldest_c: mean of the coldest month [C]
    Raises:
        out_of_range: a number is outside its range
    Source: peel_2007
    Checked: a coldest month of -4 C is a cold winter, skeleton a for cool-season grass (peel_2007)
    """
    given = group("climate", climate, CLIMATE)
    year, _ = usual(**{name: given[name] for name in CLIMATE if given.get(name) is not None})  # type: ignore[arg-type]
    months: Any = year["monthly_mean_c"]
    warmest, coldest = max(months), min(months)
    southern = is_southern(year_of({"monthly_mean_c": months}))
    grasses: dict[str, list[str]] = {}
    for at, item in enumerate(listing("ground", ground, 0, MOST_GRASSES)):
        path = "ground[" + str(at) + "]"
        row = group(path, item, ("turf", "grass"))
        of = grasses.setdefault(choice(path + ".turf", row.get("turf"), TURFS), [])
        if row.get("grass") is not None:
            of.append(text(path + ".grass", row.get("grass")))
    offered = []
    for turf in TURFS:
        if turf in grasses:
            key, why = _offer(turf, grasses[turf], southern, warmest, coldest)
            offered.append({"turf": turf, "key": key, "why": why})
    value: dict[str, object] = {"offered": offered, "warmest_c": warmest, "coldest_c": coldest}
    return value, _working(warmest, coldest)


def _offer(turf: str, grasses: list[str], southern: bool, warmest: float, coldest: float) -> tuple[str, str]:
    if southern:
        return "f", "southern"
    if turf == "warm":
        careful = any(one in NEVER_SCALPED for one in grasses)
        return ("d", "never_scalped") if careful else ("c", "warm_season")
    if coldest <= FROST_C:
        return "a", "cold_winter"
    return ("b", "hot_summer") if warmest >= HOT_C else ("e", "mild")


def _working(warmest: float, coldest: float) -> list[dict[str, object]]:
    return [
        step(
            what="Warmest month",
            formula="highest of the twelve means; summers are hot from 22 C on",
            numbers={"hot_c": HOT_C},
            result=warmest,
            unit="C",
            source="peel_2007",
        ),
        step(
            what="Coldest month",
            formula="lowest of the twelve means; winters are cold from 0 C down",
            numbers={"frost_c": FROST_C},
            result=coldest,
            unit="C",
            source="peel_2007",
        ),
    ]
