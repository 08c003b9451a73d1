"""Products as a plan takes them: rate by the label, price of a bag, what is left of it."""

from lawn.engine.core.errors import repeated
from lawn.engine.core.numeric import choice, group, listing, optional_number, text
from lawn.engine.product.label import nitrogen_price_per_kg, product_rate_kg_m2
from lawn.engine.season.inputs import SORTS, SOURCES

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

MOST_PRODUCTS = 500
MOST_KG = 20000.0
FED = "fertilizer"
AS_SAID = ("n_percent", "p2o5_percent", "slow_n_share", "interval_days", "wait_days")
PRODUCT = ("id", "sort", "net_kg", "coverage_m2", "price", "left_kg", "source") + AS_SAID
LACKS = ("sort", "net_kg", "coverage_m2")
NOBODY_KNOWS = 1.0  # money for a kilogram where no price at all is known: only the amounts then decide


def products_of(products: object) -> "tuple[list[dict[str, Any]], list[dict[str, object]], list[str]]":
    """Products a plan may use, those it cannot with the field they lack, and those whose price is that of others."""
    rows: list[dict[str, Any]] = []
    lacking: list[dict[str, object]] = []
    seen: list[str] = []
    for at, item in enumerate(listing("products", products, 0, MOST_PRODUCTS)):
        path = "products[" + str(at) + "]"
        row = _product(path, group(path, item, PRODUCT))
        if row["id"] in seen:
            raise repeated(path, row["id"], "This product stands twice in the list.")
        seen.append(row["id"])
        lack = [name for name in LACKS + (("n_percent",) if row["sort"] == FED else ()) if row[name] is None]
        if lack:
            lacking.append({"id": row["id"], "lacks": lack[0]})
        else:
            rows.append(row)
    unpriced = [row["id"] for row in rows if row["price"] is None]
    dearest_n = max([_of_nitrogen(row) for row in rows] + [0.0]) or NOBODY_KNOWS
    dearest_kg = max([_of_product(row) for row in rows] + [0.0]) or NOBODY_KNOWS
    return [_as_planned(row, dearest_n, dearest_kg) for row in rows], lacking, unpriced


def _product(path: str, row: "dict[str, Any]") -> "dict[str, Any]":
    found: dict[str, Any] = {"id": text(path + ".id", row.get("id"))}
    for name in ("sort", "source"):
        words = SORTS if name == "sort" else SOURCES
        found[name] = None if row.get(name) is None else choice(path + "." + name, row.get(name), words)
    for name in ("net_kg", "coverage_m2", "price") + AS_SAID:
        found[name] = optional_number(path + "." + name, row.get(name))
    found["left_kg"] = optional_number(path + ".left_kg", row.get("left_kg"), -MOST_KG, MOST_KG)
    return found


def _of_nitrogen(row: "dict[str, Any]") -> float:
    """Money for a kilogram of its nitrogen; 0 where it has none or no price."""
    if row["price"] is None or not row["n_percent"]:
        return 0.0
    return nitrogen_price_per_kg(price=row["price"], net_kg=row["net_kg"], n_percent=row["n_percent"])


def _of_product(row: "dict[str, Any]") -> float:
    return 0.0 if row["price"] is None else float(row["price"] / row["net_kg"])


def _as_planned(row: "dict[str, Any]", dearest_n: float, dearest_kg: float) -> "dict[str, Any]":
    """As the plan takes it; one without a price counts like the dearest, so that no bag is bought for looking free."""
    found = {
        "id": row["id"],
        "sort": row["sort"],
        "net_kg": row["net_kg"],
        "price": row["price"],
        "rate_kg_m2": product_rate_kg_m2(net_kg=row["net_kg"], coverage_m2=row["coverage_m2"]),
        "stock_kg": max(row["left_kg"] or 0.0, 0.0),
    }
    if row["price"] is None:
        n = row["n_percent"] or 0.0
        found["price"] = row["net_kg"] * (dearest_n * n / 100.0 if n > 0.0 else dearest_kg)
    for name in AS_SAID + ("source",):
        if row[name] is not None:
            found[name] = row[name]
    return found
