"""A group's band of the sheet: need, nitrogen free and what was put down in each week, and its steps as flags."""

from lawn.engine.core.dates import day_text
from lawn.engine.core.numeric import total
from lawn.engine.nutrition.kinds import NATURAL_SHARE
from lawn.engine.nutrition.release import free_daily
from lawn.engine.season.needs import WEEK, weekly
from lawn.engine.season.turning import growth_of, place_of, turn_of

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

LEAD_DAYS = 182  # a feed of half a year before the first week may still free nitrogen in it
HALF = 0.5


def soil_of(year: "dict[str, Any]", first: int, weeks: int) -> "list[float]":
    """Usual soil of every day from half a year before the first week to the end of the last."""
    days = range(first - LEAD_DAYS, first + WEEK * weeks)
    return [year["soil"][turn_of(year, place_of("date", day_text(day)))] for day in days]


def needed(of: "dict[str, Any]", year: "dict[str, Any]", rows: "list[Any]", first: int, weeks: int) -> "list[float]":
    """Nitrogen a group asks for in each week, of its yearly aim."""
    year["growth"] = growth_of(year, of["turf"])
    return weekly(of["turf"], of["aim_n_kg_m2"], year, rows, first, weeks)


def feeds_of(of: "dict[str, Any]", sheet: "dict[str, Any]", steps: "list[dict[str, Any]]") -> "list[dict[str, Any]]":
    """What was put down on a group and what its steps would put down, oldest first.

    A step that was done stands in the log, so it counts there; one put off, or whose days have passed, counts nowhere.
    """
    found = [
        _feed(one["day"], one["n_kg_m2"], one["slow_n_share"], one["product"], None, sheet)
        for one in sheet["done"]
        if one["group"] == of["id"]
    ]
    for step in steps:
        n_kg_m2 = nitrogen_of(step, sheet)
        if n_kg_m2 and step["state"] == "planned" and step["to"] >= sheet["today"]:
            day = max(step["from"], sheet["today"])
            found.append(_feed(day, n_kg_m2, None, step["product"], step["id"], sheet))
    return sorted(found, key=lambda one: (one["day"], one["step"] or "", one["product"] or "", one["n_kg_m2"]))


def nitrogen_of(step: "dict[str, Any]", sheet: "dict[str, Any]") -> float:
    """Nitrogen a step puts down per area; none where its product or its rate is not known."""
    product = sheet["products"].get(step["product"])
    if product is None or step["rate_kg_m2"] is None:
        return 0.0
    return float(step["rate_kg_m2"] * (product["n_percent"] or 0.0) / 100.0)


def _feed(
    day: int, n_kg_m2: float, slow: float | None, product_id: str | None, step: str | None, sheet: "dict[str, Any]"
) -> "dict[str, Any]":
    product = sheet["products"].get(product_id, {})
    source = product.get("source", "soluble")
    share = product.get("slow_n_share") if slow is None else slow
    return {
        "day": day,
        "n_kg_m2": n_kg_m2,
        "slow": 0.0 if source == "soluble" else share or 0.0,
        "source": source,
        "share": NATURAL_SHARE,
        "product": product_id,
        "step": step,
    }


def freed(feeds: "list[dict[str, Any]]", soil: "list[float]", first: int, weeks: int) -> "list[float]":
    """Nitrogen of all feeds that comes free in each week."""
    days: list[list[float]] = [[] for _ in range(WEEK * weeks)]
    for feed in feeds:
        daily, _ = free_daily(feed=feed, first=first - LEAD_DAYS, soil=soil)
        begun = max(feed["day"], first - LEAD_DAYS) - first
        for at, one in enumerate(daily):
            if 0 <= begun + at < len(days):
                days[begun + at].append(one)
    return [total([one for day in days[WEEK * at : WEEK * (at + 1)] for one in day]) for at in range(weeks)]


def bars_of(feeds: "list[dict[str, Any]]", first: int, weeks: int) -> "list[dict[str, object]]":
    """What is put down in each week, a bar a product, the later on top of the earlier."""
    found: list[dict[str, Any]] = []
    for feed in feeds:
        week = (feed["day"] - first) // WEEK
        if not 0 <= week < weeks or not feed["n_kg_m2"]:
            continue
        under = total([one["n_kg_m2"] for one in found if one["week"] == week])
        found.append(
            {
                "week": week,
                "date": day_text(feed["day"]),
                "product": feed["product"],
                "step": feed["step"],
                "n_kg_m2": feed["n_kg_m2"],
                "under_n_kg_m2": under,
            }
        )
    return found


def flags_of(
    zones: "list[str]", sheet: "dict[str, Any]", steps: "list[dict[str, Any]]", first: int, weeks: int
) -> "list[dict[str, object]]":
    """A group's steps of these weeks as flags, by day; how much of the product each takes on this ground."""
    found = []
    for step in sorted(steps, key=lambda one: (one["from"], one["to"], one["id"])):
        week = (step["from"] - first) // WEEK
        if not 0 <= week < weeks:
            continue
        kg, bags = _amount(step, zones, sheet)
        movable = step["state"] == "planned"
        least = min(week, max(0, (sheet["today"] - first) // WEEK))
        found.append(
            {
                "step": step["id"],
                "job": step["job"],
                "week": week,
                "from": day_text(step["from"]),
                "to": day_text(step["to"]),
                "product": step["product"],
                "n_kg_m2": nitrogen_of(step, sheet),
                "kg": kg,
                "bags": bags,
                "locked": step["locked"],
                "state": step["state"],
                "late": movable and step["to"] < sheet["today"],
                "earlier_weeks": week - least if movable else 0,
                "later_weeks": weeks - 1 - week if movable else 0,
            }
        )
    return found


def _amount(step: "dict[str, Any]", zones: "list[str]", sheet: "dict[str, Any]") -> "tuple[float | None, float | None]":
    areas = [sheet["areas"].get(one) for one in step["zones"] if one in zones]
    if step["rate_kg_m2"] is None or not areas or any(one is None for one in areas):
        return None, None
    kg = step["rate_kg_m2"] * total(areas)
    net = sheet["products"].get(step["product"], {}).get("net_kg")
    return kg, kg / net if net else None
