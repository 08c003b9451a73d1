"""What the rules of a place leave of a year: ceilings of each zone, days on which nothing goes on, products barred."""

from lawn.engine.core.numeric import at_least
from lawn.engine.nutrition.ceilings import ceilings

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

DATED = ("closed", "summer_ban")
PESTICIDES = ("pre_emergent", "post_emergent")
ONCE = {"quick_once": "quick_kg_m2", "all_once": "total_kg_m2"}
CEILINGS = ("n_once_kg_m2", "n_quick_once_kg_m2", "n_year_kg_m2")


def ceilings_of(zone: "dict[str, Any]", rules: "list[dict[str, Any]]") -> "tuple[dict[str, Any], list[Any]]":
    """Nitrogen of a zone at most, by the rules that hold for its grass; none where no rule says any."""
    mine = [rule for rule in rules if rule["grass"] in (None, zone.get("grass"))]
    once: list[object] = [
        {ONCE[rule["kind"]]: rule["most_kg_m2"], "sources": [rule["source"]]} for rule in mine if rule["kind"] in ONCE
    ]
    years = [{"high_kg_m2": rule["most_kg_m2"], "sources": [rule["source"]]} for rule in mine if rule["kind"] == "year"]
    asked = {name: zone[name] for name in ("id", "grass", "sun") if zone.get(name) is not None}
    asked["year_rows"] = years
    value, working = ceilings(zones=[asked], once=once)
    found: Any = value["zones"]
    return {name: found[0][name] for name in CEILINGS if found[0][name] is not None}, working


def closed_days(rules: "list[dict[str, Any]]", year: int) -> "list[dict[str, str]]":
    """Spans in which nothing is spread, of the year before, this one and the next."""
    found = []
    for rule in [one for one in rules if one["kind"] in DATED]:
        last = "03-01" if rule["to"] == "02-29" else rule["to"]
        for first in (year - 1, year, year + 1):
            until = first + (1 if rule["to"] < rule["from"] else 0)
            found.append({"first": str(first) + "-" + rule["from"], "last": str(until) + "-" + last})
    return found


def barred_of(products: "list[dict[str, Any]]", rules: "list[dict[str, Any]]") -> "list[dict[str, Any]]":
    """Products that a rule of the place keeps out of any plan, each with the kind of rule."""
    found = []
    for product in products:
        for rule in rules:
            if _bars(rule, product):
                found.append({"id": product["id"], "rule": rule["kind"]})
                break
    return found


def _bars(rule: "dict[str, Any]", product: "dict[str, Any]") -> bool:
    if rule["kind"] == "pesticide_ban":
        return product["sort"] in PESTICIDES and rule["sort"] in (None, product["sort"])
    if rule["kind"] == "slow_least" and product["sort"] == "fertilizer":
        return not at_least(product.get("slow_n_share") or 0.0, rule["least_slow_share"])
    return False
