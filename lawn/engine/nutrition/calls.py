"""The calls of this topic: name, function, arguments that must be given, arguments that may be given."""

from lawn.engine.nutrition import ceilings, ledger, potential, setback

TYPE_CHECKING = False
if TYPE_CHECKING:  # never true at run time: MicroPython has no typing module
    from typing import Any

CALLS: "dict[str, tuple[Any, tuple[str, ...], tuple[str, ...]]]" = {
    "feeding.growth_potential": (potential.growth_potential, ("mean_c", "turf"), ()),
    "feeding.ledger": (ledger.ledger, ("entries", "zone", "today", "ceilings"), ()),
    "feeding.month_needs": (potential.month_needs, ("monthly_mean_c", "turf", "n_max_month_kg_m2"), ()),
    "limits.ceilings": (ceilings.ceilings, ("zones", "once"), ("phosphate", "lime", "place")),
    "limits.setback": (setback.setback, ("zones", "rows"), ("guarded", "place")),
}
