"""What the steps of a plan still need bought: the shed's leftovers first, then whole bags."""

from lawn.engine.core.dates import day_number, day_text
from lawn.engine.core.errors import repeated
from lawn.engine.core.numeric import at_least, group, listing, number, optional_number, text, total, whole_up
from lawn.engine.core.working import DEFINITION, step
from lawn.engine.product.label import nitrogen_price_per_kg

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

MOST_STEPS = 2000
MOST_KG = 20000.0
STEP = ("id", "date", "zones", "product", "rate_kg_m2")
ZONE = ("id", "area_m2")
PRODUCT = ("id", "net_kg", "price", "n_percent", "left_kg")


def shopping(*, steps: object, zones: object, products: object) -> "tuple[dict[str, object], list[dict[str, object]]]":
    """The shopping list of a season: what steps take of each product, what the shed has of it, whole bags for the rest.

    What is in the shed goes to the earliest steps. A bag is wanted by the first step that it does not last for.

    Args:
        steps: steps still to be done that put something down, up to 2000 [list]
        steps.id: the step, once only [text]
        steps.date: first day of its window [date]
        steps.zones?: its zones [list of texts]
        steps.product: its product [text]
        steps.rate_kg_m2?: product per area [kg/m2; 0.000001 to 50]
        zones: the zones, up to 1000 [list]
        zones.id: the zone, once only [text]
        zones.area_m2?: its area [m2; 0.5 to 100000]
        products: the products of the shed, up to 500 [list]
        products.id: the product, once only [text]
        products.net_kg?: weight of a bag [kg; 0.01 to 2000]
        products.price?: price of a bag [money; 0 to 100000]
        products.n_percent?: nitrogen on the label [%; 0 to 100]
        products.left_kg?: what is left, as record.totals tells it; below 0 counts as nothing [kg; -20000 to 20000]
    Returns:
        products: those that steps take, the one wanted first before the others [list]
        products.id: the product [text]
        products.steps: its steps, the earliest first [list of texts]
        products.need_kg: what they take together [kg]
        products.shed_kg: of that out of the shed [kg]
        products.buy_kg: what is missing [kg]
        products.bags: whole bags to buy [bags]
        products.bags_kg: weight of those bags [kg]
        products.over_kg: what is left when all of its steps are done [kg]
        products.cost: money for the bags, null if no price is known [money or null]
        products.by: day on which the first bag is wanted, null where none is [date or null]
        cost: money for all bags whose price is known [money]
        unpriced: products to buy whose price nobody entered [list of texts]
        nitrogen: what a kilogram of nitrogen costs in each product, the cheapest first [list]
        nitrogen.id: the product [text]
        nitrogen.price_per_kg_n: money per kilogram of nitrogen [money/kg]
        lacking: steps that cannot be counted [list]
        lacking.id: the step [text]
        lacking.lacks: what nobody entered [one of product, net_kg, rate_kg_m2, zones, area_m2]
    Raises:
        out_of_range: a number is outside its range
        repeated: a step, a zone or a product stands twice
    Source: definition
    """
    shed = _products(products)
    wanted, lacking = _wanted(steps, _areas(zones), shed)
    rows = [_row(shed[one], wanted[one]) for one in sorted(wanted)]
    rows = sorted(rows, key=lambda row: (row["by"] is None, row["by"] or "", row["id"]))
    priced = sorted([(_of_nitrogen(row), row["id"]) for row in shed.values() if row["n_percent"] and row["price"]])
    value: dict[str, object] = {
        "products": rows,
        "cost": total([row["cost"] for row in rows if row["cost"] is not None]),
        "unpriced": [row["id"] for row in rows if row["bags"] > 0 and row["cost"] is None],
        "nitrogen": [{"id": one, "price_per_kg_n": price} for price, one in priced],
        "lacking": lacking,
    }
    return value, _working(rows, shed, value)


def _products(products: object) -> "dict[str, dict[str, Any]]":
    found: dict[str, dict[str, Any]] = {}
    for at, item in enumerate(listing("products", products, 0, 500)):
        path = "products[" + str(at) + "]"
        row = group(path, item, PRODUCT)
        read: dict[str, Any] = {"id": text(path + ".id", row.get("id"))}
        for name in ("net_kg", "price", "n_percent"):
            read[name] = optional_number(path + "." + name, row.get(name))
        left_kg = optional_number(path + ".left_kg", row.get("left_kg"), -MOST_KG, MOST_KG)
        read["left_kg"] = max(left_kg or 0.0, 0.0)
        if read["id"] in found:
            raise repeated(path, read["id"], "This product stands twice in the list.")
        found[read["id"]] = read
    return found


def _areas(zones: object) -> "dict[str, float | None]":
    found: dict[str, float | None] = {}
    for at, item in enumerate(listing("zones", zones, 0, 1000)):
        path = "zones[" + str(at) + "]"
        row = group(path, item, ZONE)
        zone = text(path + ".id", row.get("id"))
        if zone in found:
            raise repeated(path, zone, "This zone stands twice in the list.")
        area = row.get("area_m2")
        found[zone] = None if area is None else number(path + ".area_m2", area)
    return found


def _wanted(
    steps: object, areas: "dict[str, float | None]", shed: "dict[str, dict[str, Any]]"
) -> "tuple[dict[str, list[dict[str, Any]]], list[dict[str, object]]]":
    """By product the steps that take it, and those that cannot be counted, each with what it lacks."""
    wanted: dict[str, list[dict[str, Any]]] = {}
    lacking: list[dict[str, object]] = []
    seen: list[str] = []
    for at, item in enumerate(listing("steps", steps, 0, MOST_STEPS)):
        path = "steps[" + str(at) + "]"
        row = _step(path, group(path, item, STEP))
        if row["id"] in seen:
            raise repeated(path, row["id"], "This step stands twice in the list.")
        seen.append(row["id"])
        lack = _lack(row, areas, shed)
        if lack is not None:
            lacking.append({"id": row["id"], "lacks": lack})
            continue
        row["area_m2"] = total([areas[zone] or 0.0 for zone in row["zones"]])
        row["kg"] = row["area_m2"] * row["rate_kg_m2"]
        wanted.setdefault(row["product"], []).append(row)
    return wanted, lacking


def _step(path: str, row: "dict[str, Any]") -> "dict[str, Any]":
    zones = listing(path + ".zones", row.get("zones") or [], 0, 1000)
    return {
        "id": text(path + ".id", row.get("id")),
        "day": day_number(path + ".date", row.get("date")),
        "zones": [text(path + ".zones", zone) for zone in zones],
        "product": text(path + ".product", row.get("product")),
        "rate_kg_m2": optional_number(path + ".rate_kg_m2", row.get("rate_kg_m2")),
    }


def _lack(row: "dict[str, Any]", areas: "dict[str, float | None]", shed: "dict[str, dict[str, Any]]") -> "str | None":
    if row["product"] not in shed:
        return "product"
    if shed[row["product"]]["net_kg"] is None:
        return "net_kg"
    if row["rate_kg_m2"] is None:
        return "rate_kg_m2"
    if not row["zones"]:
        return "zones"
    return "area_m2" if [zone for zone in row["zones"] if areas.get(zone) is None] else None


def _row(product: "dict[str, Any]", steps: "list[dict[str, Any]]") -> "dict[str, Any]":
    """One line of the list; the shed serves the earliest steps, and of one day those first by id."""
    ordered = sorted(steps, key=lambda one: (one["day"], one["id"]))
    need_kg = total([one["kg"] for one in ordered])
    covered = at_least(product["left_kg"], need_kg)
    shed_kg = need_kg if covered else product["left_kg"]
    buy_kg = 0.0 if covered else need_kg - product["left_kg"]
    bags = whole_up(buy_kg / product["net_kg"])
    bags_kg = bags * product["net_kg"]
    return {
        "id": product["id"],
        "steps": [one["id"] for one in ordered],
        "need_kg": need_kg,
        "shed_kg": shed_kg,
        "buy_kg": buy_kg,
        "bags": bags,
        "bags_kg": bags_kg,
        "over_kg": max(0.0, total([product["left_kg"], bags_kg, -need_kg])),
        "cost": None if product["price"] is None else bags * product["price"],
        "by": _by(ordered, product["left_kg"]) if bags > 0 else None,
    }


def _by(ordered: "list[dict[str, Any]]", left_kg: float) -> str:
    """The day of the first step that what is in the shed does not last for."""
    taken: list[float] = []
    for one in ordered:
        taken.append(one["kg"])
        if not at_least(left_kg, total(taken)):
            return day_text(one["day"])
    return day_text(ordered[-1]["day"])


def _of_nitrogen(row: "dict[str, Any]") -> float:
    if row["net_kg"] is None:
        return 0.0
    return nitrogen_price_per_kg(price=row["price"], net_kg=row["net_kg"], n_percent=row["n_percent"])


def _working(
    rows: "list[dict[str, Any]]", shed: "dict[str, dict[str, Any]]", value: "dict[str, Any]"
) -> "list[dict[str, object]]":
    found: list[dict[str, object]] = []
    for row in rows:
        product = shed[row["id"]]
        found += _of_row(row, product)
    if value["cost"] > 0.0:
        bags: dict[str, object] = {"bags": total([row["bags"] for row in rows if row["cost"] is not None])}
        found.append(
            step(
                what="Cost of the list",
                formula="costs of the products added",
                numbers=bags,
                result=value["cost"],
                unit="money",
                source=DEFINITION,
            )
        )
    for one in value["nitrogen"]:
        product = shed[one["id"]]
        numbers = {name: product[name] for name in ("price", "net_kg", "n_percent")}
        formula = "price over (net weight times nitrogen share)"
        found.append(
            step(
                what="Price of nitrogen",
                formula=formula,
                numbers=numbers,
                result=one["price_per_kg_n"],
                unit="money/kg",
                source="TAMU-FERT",
                of=one["id"],
            )
        )
    return found


def _of_row(row: "dict[str, Any]", product: "dict[str, Any]") -> "list[dict[str, object]]":
    lines: list[tuple[str, str, dict[str, object], object, str]] = [
        ("What its steps take", "area times rate, added", {"steps": len(row["steps"])}, row["need_kg"], "kg"),
        (
            "Out of the shed",
            "what is there, as far as the steps take it",
            {"left_kg": product["left_kg"], "need_kg": row["need_kg"]},
            row["shed_kg"],
            "kg",
        ),
        (
            "To buy",
            "what the steps take, less what is in the shed",
            {"need_kg": row["need_kg"], "left_kg": product["left_kg"]},
            row["buy_kg"],
            "kg",
        ),
        (
            "Bags to buy",
            "mass over net weight of a bag, up to a whole bag",
            {"mass_kg": row["buy_kg"], "net_kg": product["net_kg"]},
            row["bags"],
            "bags",
        ),
        (
            "Weight of the bags",
            "bags times net weight",
            {"bags": row["bags"], "net_kg": product["net_kg"]},
            row["bags_kg"],
            "kg",
        ),
        (
            "Left over",
            "what is in the shed and the bags, less what the steps take",
            {"left_kg": product["left_kg"], "bags_kg": row["bags_kg"], "need_kg": row["need_kg"]},
            row["over_kg"],
            "kg",
        ),
    ]
    if row["cost"] is not None:
        numbers = {"bags": row["bags"], "price": product["price"]}
        lines.append(("Cost", "bags times price of a bag", numbers, row["cost"], "money"))
    return [
        step(what=what, formula=formula, numbers=numbers, result=result, unit=unit, source=DEFINITION, of=row["id"])
        for what, formula, numbers, result, unit in lines
    ]
