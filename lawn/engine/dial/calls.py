"""The calls of this topic: name, function, arguments that must be given, arguments that may be given."""

from lawn.engine.dial import check, learned_curve, lesson, setting, sharing, used

TYPE_CHECKING = False
if TYPE_CHECKING:  # never true at run time: MicroPython has no typing module
    from typing import Any

SPREADING = ("dial", "product", "target_kg_m2", "area_m2", "history")
LEARNING = ("dial", "product", "history")
WALKING = ("swath_m", "speed_m_s")

CALLS: "dict[str, tuple[Any, tuple[str, ...], tuple[str, ...]]]" = {
    "spreading.check": (
        check.check,
        SPREADING + ("now_kg", "area_done_m2", "area_to_go_m2", "dial_now"),
        ("now_sd_kg", "left_kg", "left_sd_kg", "passes_to_go", "missing_kg_m2", "used_kg", "out", "label_share")
        + WALKING,
    ),
    "spreading.curve": (learned_curve.curve, LEARNING, WALKING),
    "spreading.next": (
        setting.next_pass,
        SPREADING + ("left_kg", "passes_to_go"),
        ("left_sd_kg", "missing_kg_m2", "used_kg", "out", "passes") + WALKING,
    ),
    "spreading.split": (sharing.split, ("zones",), ("used_kg", "passes", "n_percent", "p2o5_percent")),
    "spreading.start": (setting.start, SPREADING, ("passes",) + WALKING),
    "spreading.taught": (lesson.taught, LEARNING + ("walked",), ("since",) + WALKING),
    "spreading.used": (
        used.used,
        ("start_kg", "measured"),
        ("start_sd_kg", "left_kg", "handfuls", "handful_kg", "hopper_kg", "hopper_sd_kg", "in_bag_kg", "added_kg")
        + ("aim_kg",),
    ),
}
