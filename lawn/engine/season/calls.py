"""The calls of this topic: name, function, arguments that must be given, arguments that may be given."""

from lawn.engine.season import windows
from lawn.engine.season.gather import gather, skeleton

TYPE_CHECKING = False
if TYPE_CHECKING:  # never true at run time: MicroPython has no typing module
    from typing import Any

CALLS: "dict[str, tuple[Any, tuple[str, ...], tuple[str, ...]]]" = {
    "season.gather": (gather.gather, ("zones", "products", "entries", "today"), ("steps",)),
    "season.skeleton": (skeleton.skeleton, ("climate", "ground"), ()),
    "season.windows": (windows.windows, ("climate", "jobs", "first", "turf"), ()),
}
