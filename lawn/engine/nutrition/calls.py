"""The calls of this topic: name, function, arguments that must be given, arguments that may be given."""

from lawn.engine.nutrition import aim, ceilings, green_up, ledger, potential, release, setback

TYPE_CHECKING = False
if TYPE_CHECKING:  # never true at run time: MicroPython has no typing module
    from typing import Any

CALLS: "dict[str, tuple[Any, tuple[str, ...], tuple[str, ...]]]" = {
    "feeding.available": (release.available, ("feeds", "days", "today"), ()),
    "feeding.green_up": (green_up.green_up, ("source", "slow_n_share", "applied", "days"), ()),
    "feeding.growth_potential": (potential.growth_potential, ("mean_c", "turf"), ()),
    "feeding.lasts": (release.lasts, ("source",), ("slow_n_share",)),
    "feeding.ledger": (ledger.ledger, ("entries", "zone", "today", "ceilings"), ()),
    "feeding.month_needs": (potential.month_needs, ("monthly_mean_c", "turf", "n_max_month_kg_m2"), ()),
    "feeding.release": (
        release.release,
        ("n_kg_m2", "slow_n_share", "source", "applied", "days"),
        ("free_in_ten_weeks_share",),
    ),
    "feeding.yearly_aim": (aim.yearly_aim, ("zones", "level"), ("clippings", "less_share")),
    "limits.ceilings": (ceilings.ceilings, ("zones", "once"), ("phosphate", "lime", "place")),
    "limits.setback": (setback.setback, ("zones", "rows"), ("guarded", "place")),
}
