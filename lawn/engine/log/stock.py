"""What is left in the shed: the last count of a product less what spreading jobs used after it."""

from lawn.engine.core.numeric import total
from lawn.engine.log.applications import is_application

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any


def stock_of(rows: "list[dict[str, Any]]") -> "dict[str, Any]":
    """Stock of every product named by a spreading job or a count.

    Args:
        rows: checked entries in the order they were done, none struck out [list]
    Returns:
        products: by product id used_since_count_kg, counted_kg, counted_at, left_kg [group of values]
    Source: definition
    """
    counts: dict[str, Any] = {}
    uses: dict[str, list[float]] = {}
    for row in rows:
        product_id = row["product_id"]
        if product_id is None:
            continue
        if row["kind"] == "stock_count" and row["left_kg"] is not None:
            counts[product_id] = row
            uses[product_id] = []  # what went before is inside the count
        elif is_application(row=row) and row["used_kg"] is not None:
            uses.setdefault(product_id, []).append(row["used_kg"])
    products = sorted(set(list(uses) + list(counts)))
    return {product_id: _row(counts.get(product_id), uses.get(product_id, [])) for product_id in products}


def _row(count: "dict[str, Any] | None", used: list[float]) -> dict[str, object]:
    used_kg = total(used)
    return {
        "used_since_count_kg": used_kg,
        "counted_kg": None if count is None else count["left_kg"],
        "counted_at": None if count is None else count["occurred_at"],
        "left_kg": None if count is None else count["left_kg"] - used_kg,
    }
