"""The calls of this topic: name, function, arguments that must be given, arguments that may be given."""

from lawn.engine.mowing import cut

TYPE_CHECKING = False
if TYPE_CHECKING:  # never true at run time: MicroPython has no typing module
    from typing import Any

CALLS: "dict[str, tuple[Any, tuple[str, ...], tuple[str, ...]]]" = {
    "mowing.cut": (cut.cut, ("height_mm", "target_mm"), ("highest_mm",)),
}
