"""The calls of this topic: name, function, arguments that must be given, arguments that may be given."""

from lawn.engine.warmth import chart, climate, degree_days, soil

TYPE_CHECKING = False
if TYPE_CHECKING:  # never true at run time: MicroPython has no typing module
    from typing import Any

CALLS: "dict[str, tuple[Any, tuple[str, ...], tuple[str, ...]]]" = {
    "warmth.chart": (chart.chart, ("days", "today", "first"), ("readings", "jobs")),
    "warmth.climate": (climate.climate, (), ("monthly_mean_c", "warmest_c", "coldest_c", "southern")),
    "warmth.degree_days": (
        degree_days.degree_days,
        ("days", "base_c", "method"),
        ("upper_c", "count_from", "southern"),
    ),
    "warmth.soil": (soil.soil, ("days",), ("depth_mm", "start_c", "annual_mean_c", "readings")),
}
