"""What the log adds up to: last mow and feed, nitrogen of the year, stock left. Never stored, so it cannot conflict.

The sums are the engine's (`record.totals`), the same on the server and on every phone; here entries are only put
into the form it takes.
"""

from collections.abc import Iterable, Mapping
from datetime import date
from typing import Any

from lawn.engine import door

# What each kind of entry has to say to the sums; anything else in a body is not read.
_SAYS: Mapping[str, tuple[str, ...]] = {
    "spread": ("product_id", "sort", "used_kg", "zones"),
    "pass": ("spread_id",),
    "stock_count": ("product_id", "left_kg"),
    "bought": ("product_id", "bags", "net_kg", "bought_kg"),
}


class Unfoldable(Exception):
    """The engine refused the log; `error` holds its facts."""

    def __init__(self, error: dict[str, Any]) -> None:
        super().__init__(error["message"])
        self.error = error


def as_engine_entry(entry_id: str, body: Mapping[str, Any], overlays: Mapping[str, Any]) -> dict[str, Any]:
    """Return an entry as the engine takes it: its body with its overlays on top."""
    said = {name: body[name] for name in _SAYS.get(body["kind"], ()) if body.get(name) is not None}
    return {
        "id": entry_id,
        "kind": body["kind"],
        "occurred_at": overlays.get("when", {}).get("occurred_at", body["occurred_at"]),
        "zone_ids": body.get("zone_ids") or [],
        "void": overlays.get("void", {}).get("void") is True,
        **said,
    }


def totals(entries: Iterable[dict[str, Any]], today: date) -> dict[str, Any]:
    """Return {zones, products} of entries in the engine's form, with the working; raise Unfoldable.

    The answer does not depend on the order of the entries.
    """
    answer = door.call("record.totals", {"entries": list(entries), "today": today.isoformat()})
    if "error" in answer:
        raise Unfoldable(answer["error"])
    return {**answer["value"], "working": answer["working"]}
