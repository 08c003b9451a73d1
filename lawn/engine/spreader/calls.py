"""The calls of this topic: name, function, arguments that must be given, arguments that may be given."""

from lawn.engine.spreader import hopper, pattern_test

TYPE_CHECKING = False
if TYPE_CHECKING:  # never true at run time: MicroPython has no typing module
    from typing import Any

HOPPER = ("top_length_m", "top_width_m", "bottom_length_m", "bottom_width_m", "height_m")

CALLS: "dict[str, tuple[Any, tuple[str, ...], tuple[str, ...]]]" = {
    "hopper.density": (hopper.density, ("sample_kg", "sample_m3"), ()),
    "hopper.fills": (hopper.fills, ("mass_kg", "capacity_kg"), ()),
    "hopper.level": (hopper.level, HOPPER + ("mass_kg", "bulk_density_kg_m3"), ()),
    "hopper.mass": (hopper.mass, HOPPER + ("level_share", "bulk_density_kg_m3"), ()),
    "swath.tray_test": (
        pattern_test.tray_test,
        ("catches_g", "tray_spacing_m", "pattern"),
        ("cv_limit_share", "trays_apart"),
    ),
}
