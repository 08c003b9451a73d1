"""The calls of this topic: name, function, arguments that must be given, arguments that may be given."""

from lawn.engine.route import tour

TYPE_CHECKING = False
if TYPE_CHECKING:  # never true at run time: MicroPython has no typing module
    from typing import Any

CALLS: "dict[str, tuple[Any, tuple[str, ...], tuple[str, ...]]]" = {
    "swath.tour": (
        tour.tour,
        ("zones", "swath_m"),
        ("pattern", "header_strips", "speed_m_s", "load_kg", "rate_kg_m2", "covered_m2", "out"),
    ),
    "swath.walk_plan": (
        tour.walk_plan,
        ("outline_m", "swath_m"),
        ("holes_m", "heading_deg", "pattern", "header_strips", "speed_m_s", "load_kg", "rate_kg_m2"),
    ),
}
