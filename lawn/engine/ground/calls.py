"""The calls of this topic: name, function, arguments that must be given, arguments that may be given."""

from lawn.engine.ground import area, gps, sides, together, trace

TYPE_CHECKING = False
if TYPE_CHECKING:  # never true at run time: MicroPython has no typing module
    from typing import Any

CALLS: "dict[str, tuple[Any, tuple[str, ...], tuple[str, ...]]]" = {
    "area.offsets": (area.offsets, ("spacing_m", "offsets_m"), ("method",)),
    "area.gps": (gps.gps, ("fixes",), ("worst_accuracy_m",)),
    "area.outline": (area.outline, ("points_m",), ("holes_m", "circles_m", "corner_error_m")),
    "area.radii": (area.radii, ("radii_m",), ("method",)),
    "area.shapes": (area.shapes, ("parts",), ("length_error_share",)),
    "area.sides": (sides.sides, ("points_m",), ()),
    "area.total": (together.together, ("zones",), ()),
    "area.trace": (
        trace.trace,
        ("points_px", "known"),
        ("holes_px", "distance_error_share", "pointing_px", "north_px_deg"),
    ),
    "area.track": (gps.track, ("fixes",), ("worst_accuracy_m",)),
}
