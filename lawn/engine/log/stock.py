"""What is left in the shed: the last count of a product, what was bought and what spreading jobs used after it."""

from lawn.engine.core.numeric import total
from lawn.engine.log.applications import is_application

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any


def stock_of(rows: "list[dict[str, Any]]") -> "tuple[dict[str, Any], dict[str, list[dict[str, Any]]]]":
    """Stock of every product named by a spreading job, a purchase or a count.

    Counting begins with the last count; without one with the first purchase, as if nothing had been there before.

    Args:
        rows: checked entries in the order they were done, none struck out [list]
    Returns:
        products: by product id used_since_count_kg, bought_since_kg, counted_kg, counted_at, left_kg [group of values]
        purchases: by product id those since then [groups by id]
    Source: definition
    """
    counts: dict[str, Any] = {}
    uses: dict[str, list[float]] = {}
    buys: dict[str, list[dict[str, Any]]] = {}
    for row in rows:
        product_id = row["product_id"]
        if product_id is None:
            continue
        if row["kind"] == "stock_count" and row["left_kg"] is not None:
            counts[product_id] = row
            uses[product_id], buys[product_id] = [], []  # what went before is inside the count
        elif row["bought_kg"] is not None:
            if product_id not in buys:  # neither counted nor bought before: here counting begins
                uses[product_id] = []
            buys.setdefault(product_id, []).append(row)
        elif is_application(row=row) and row["used_kg"] is not None:
            uses.setdefault(product_id, []).append(row["used_kg"])
    products = sorted(set(list(uses) + list(counts)))
    return {one: _row(counts.get(one), buys.get(one, []), uses.get(one, [])) for one in products}, buys


def _row(count: "dict[str, Any] | None", bought: "list[dict[str, Any]]", used: list[float]) -> dict[str, object]:
    used_kg, bought_kg = total(used), total([row["bought_kg"] for row in bought])
    known = count is not None or len(bought) > 0
    counted_kg = None if count is None else count["left_kg"]
    return {
        "used_since_count_kg": used_kg,
        "bought_since_kg": bought_kg,
        "counted_kg": counted_kg,
        "counted_at": None if count is None else count["occurred_at"],
        "left_kg": total([counted_kg or 0.0, bought_kg, -used_kg]) if known else None,
    }
