"""The calls of this topic: name, function, arguments that must be given, arguments that may be given."""

from lawn.engine.season import build, needs, read, windows
from lawn.engine.season.blocking import bend
from lawn.engine.season.gather import arguments, gather, shopping, skeleton
from lawn.engine.season.sheet import move, sheet

TYPE_CHECKING = False
if TYPE_CHECKING:  # never true at run time: MicroPython has no typing module
    from typing import Any

_PLAN = ("groups", "products", "climate", "rules", "wishes", "done", "locked", "today")
CALLS: "dict[str, tuple[Any, tuple[str, ...], tuple[str, ...]]]" = {
    "season.arguments": (
        arguments.arguments,
        ("zones", "products", "entries", "climate", "today", "tables"),
        ("place", "own_rules", "wishes", "steps"),
    ),
    "season.blocked": (bend.blocked, _PLAN, ("solution",)),
    "season.build": (build.build, _PLAN, ()),
    "season.gather": (gather.gather, ("zones", "products", "entries", "today"), ("steps",)),
    "season.moved": (
        move.moved,
        ("move", "steps", "products", "entries", "zones", "rules", "today"),
        ("place", "soil_tests", "climate"),
    ),
    "season.needs": (needs.needs, ("climate", "jobs", "first", "weeks", "turf", "aim_n_kg_m2"), ()),
    "season.read": (read.read, _PLAN + ("solution",), ("bound", "stopped")),
    "season.sheet": (
        sheet.sheet,
        ("groups", "zones", "products", "steps", "done", "first", "today"),
        ("climate", "weeks"),
    ),
    "season.shopping": (shopping.shopping, ("steps", "zones", "products"), ()),
    "season.skeleton": (skeleton.skeleton, ("climate", "ground"), ()),
    "season.windows": (windows.windows, ("climate", "jobs", "first", "turf"), ()),
}
