"""The calls of this topic: name, function, arguments that must be given, arguments that may be given."""

from lawn.engine.log import beforehand, claims, clashes, keep_off, totals

TYPE_CHECKING = False
if TYPE_CHECKING:  # never true at run time: MicroPython has no typing module
    from typing import Any

CALLS: "dict[str, tuple[Any, tuple[str, ...], tuple[str, ...]]]" = {
    "record.before": (beforehand.before, ("job", "entries"), ("products", "ceilings", "lime_once_kg_m2")),
    "record.claims": (claims.claims, ("claims", "entries"), ("yard",)),
    "record.clashes": (clashes.clashes, ("entries", "today"), ("products", "ceilings")),
    "record.due": (totals.due, ("zones", "today"), ()),
    "record.keep_off": (keep_off.keep_off, ("entries", "now"), ("products",)),
    "record.totals": (totals.totals, ("entries", "today"), ()),
}
