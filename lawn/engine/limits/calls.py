"""The calls of this topic: name, function, arguments that must be given, arguments that may be given."""

from lawn.engine.limits import burn, check, rules

TYPE_CHECKING = False
if TYPE_CHECKING:  # never true at run time: MicroPython has no typing module
    from typing import Any

CALLS: "dict[str, tuple[Any, tuple[str, ...], tuple[str, ...]]]" = {
    "feeding.burn": (burn.burn, ("job", "zones", "rules", "today"), ("place", "days", "before", "beginner")),
    "limits.check": (check.check, ("jobs", "zones", "rules"), ("place", "soil_tests", "days", "products")),
    "limits.rules": (
        rules.rules_of,
        ("rules", "places"),
        ("place", "own_rules", "grasses", "general", "southern", "beginner"),
    ),
}
