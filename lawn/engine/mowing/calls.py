"""The calls of this topic: name, function, arguments that must be given, arguments that may be given."""

from lawn.engine.mowing import aim, cut, due_by, forecast, learn, look, notch, sharpen, tonight, way_down

TYPE_CHECKING = False
if TYPE_CHECKING:  # never true at run time: MicroPython has no typing module
    from typing import Any

CALLS: "dict[str, tuple[Any, tuple[str, ...], tuple[str, ...]]]" = {
    "mowing.cut": (cut.cut, ("height_mm", "target_mm"), ("highest_mm", "exception", "turf")),
    "mowing.forecast": (
        forecast.forecast,
        ("zones", "mows", "days", "today"),
        ("heights", "feeds", "waterings", "latitude_deg"),
    ),
    "mowing.height": (
        aim.height,
        ("turf", "low_mm", "high_mm"),
        ("recent_mean_c", "shade", "drought", "own_mm", "days", "today"),
    ),
    "mowing.learn": (learn.learn, ("turf", "seen", "days"), ("feeds", "belief")),
    "mowing.look": (look.look, ("by",), ("height_mm", "cut_mm", "notches")),
    "mowing.next": (
        due_by.next_mow,
        ("turf", "target_mm", "cut", "cut_mm", "days"),
        ("belief", "error_mm", "feeds", "today"),
    ),
    "mowing.notch": (notch.notch, ("height_mm", "notches"), ()),
    "mowing.sharpen": (sharpen.sharpen, ("mows", "today"), ("sharpened", "hours_between")),
    "mowing.tonight": (tonight.tonight, ("zones", "weekdays", "today"), ("weather",)),
    "mowing.way_down": (
        way_down.way_down,
        ("height_mm", "target_mm"),
        ("growth_mm_day", "days_between", "highest_mm", "notches", "since_days", "weekdays", "today"),
    ),
}
