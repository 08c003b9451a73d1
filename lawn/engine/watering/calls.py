"""The calls of this topic: name, function, arguments that must be given, arguments that may be given."""

from lawn.engine.watering import need, reference_et

TYPE_CHECKING = False
if TYPE_CHECKING:  # never true at run time: MicroPython has no typing module
    from typing import Any

CALLS: "dict[str, tuple[Any, tuple[str, ...], tuple[str, ...]]]" = {
    "watering.need": (
        need.need,
        ("days", "turf"),
        ("soil", "available_mm_m", "root_mm", "depletion_share", "start_depletion_mm", "today"),
    ),
    "watering.reference_et": (
        reference_et.reference_et,
        ("latitude_deg", "elevation_m", "day_of_year", "min_c", "max_c"),
        reference_et.KNOWN + ("coastal",),
    ),
}
