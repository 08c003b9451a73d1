"""The calls of this topic: name, function, arguments that must be given, arguments that may be given."""

from lawn.engine.units import measurement

TYPE_CHECKING = False
if TYPE_CHECKING:  # never true at run time: MicroPython has no typing module
    from typing import Any

CALLS: "dict[str, tuple[Any, tuple[str, ...], tuple[str, ...]]]" = {
    "units.read": (measurement.read, ("text",), ("unit", "quantity")),
}
