"""The weeks of a plan: their Mondays, how warm they usually are, and when each group may be fed in them."""

from lawn.engine.core.dates import day_text
from lawn.engine.nutrition.kinds import WEEKS, lasting
from lawn.engine.season.needs import LEAST_POTENTIAL, WEEK, weekly
from lawn.engine.season.turning import growth_of, is_southern, place_of, turn_of, year_of

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

HEAT_C = 24.0  # weekly mean over which cool grass gets nothing quick (common practice)
GREEN_C = 18.3  # soil under which warm grass gets nothing quick (uga_green)
NATURAL_C = 10.0  # soil under which natural nitrogen hardly comes free (cornell_n)
GENTLE_SHARE = 0.8  # slow-release share from which a feed counts as gentle: what is quick in it is little


def weeks_of(climate: object, plan: "dict[str, Any]") -> "list[dict[str, Any]]":
    """Each week's Monday, usual air, soil and growth; the climate is kept with the plan."""
    rows = climate if isinstance(climate, dict) else {}
    usual = {name: rows[name] for name in rows if name != "jobs"}
    year = year_of(usual if isinstance(climate, dict) else climate)
    plan["year"], plan["southern"] = year, is_southern(year)
    plan["growth"] = {turf: growth_of(year, turf) for turf in ("cool", "warm")}
    found = []
    for week in range(plan["wishes"]["weeks"]):
        day = plan["monday"] + WEEK * week
        at = turn_of(year, place_of("date", day_text(day + 3)))
        found.append(
            {
                "day": max(day, plan["today"]),
                "date": day_text(day),
                "air": year["air"][turn_of(year, place_of("date", day_text(day + 6)))],
                "soil": year["soil"][at],
                "growth": {turf: plan["growth"][turf][at] for turf in ("cool", "warm")},
                "closed": _within(day, plan["closed"]),
                "skipped": _within(day, plan["wishes"]["skip"]),
            }
        )
    return found


def _within(day: int, spans: "list[tuple[int, int]]") -> bool:
    """Whether any day of a week lies in one of them."""
    return any(first <= day + WEEK - 1 and last >= day for first, last in spans)


def needs_of(of: "dict[str, Any]", plan: "dict[str, Any]", rows: "list[Any]") -> list[float]:
    """What a group still asks for in each week: of its aim, less what feeds already done go on giving."""
    weeks = len(plan["weeks"])
    given = of["need"]
    found = _aimed(of, plan, rows, weeks) if given is None else (given + [0.0] * weeks)[:weeks]
    for one in plan["done"]:
        if one["group"] == of["id"]:
            _take_off(found, one, plan["monday"])
    return found


def _aimed(of: "dict[str, Any]", plan: "dict[str, Any]", rows: "list[Any]", weeks: int) -> list[float]:
    year = plan["year"]
    year["growth"] = plan["growth"][of["turf"]]
    return weekly(of["turf"], of["aim_n_kg_m2"] or 0.0, year, rows, plan["monday"], weeks)


def _take_off(found: list[float], one: "dict[str, Any]", monday: int) -> None:
    """A feed in the ground lasts as long as its kind may, used up evenly; its rest is taken off what comes."""
    lasts = int(WEEKS[lasting(source="soluble", slow_n_share=one["slow"])][1])
    begun = (one["day"] - monday) // WEEK
    left = one["n_kg_m2"] * max(0, lasts + begun) / lasts
    for week in range(max(0, min(len(found), lasts + begun))):
        taken = min(found[week], left)
        found[week] -= taken
        left -= taken


def feedable(of: "dict[str, Any]", product: "dict[str, Any]", week: "dict[str, Any]") -> str:
    """Why a product may not go on a group in a week; an empty word where it may."""
    if week["closed"]:
        return "closed"
    if week["skipped"]:
        return "skipped"
    if week["growth"][of["turf"]] < LEAST_POTENTIAL:
        return "not_growing"
    gentle = product["slow"] >= GENTLE_SHARE
    if of["turf"] == "cool" and week["air"] > HEAT_C and not gentle:
        return "heat"
    if of["turf"] == "warm" and week["soil"] < GREEN_C:
        return "not_green"
    return "cold" if product["source"] == "natural" and week["soil"] < NATURAL_C else ""
