"""The calls of this topic: name, function, arguments that must be given, arguments that may be given."""

from lawn.engine.spread import close_pass, finish, pour, standing

TYPE_CHECKING = False
if TYPE_CHECKING:  # never true at run time: MicroPython has no typing module
    from typing import Any

CALLS: "dict[str, tuple[Any, tuple[str, ...], tuple[str, ...]]]" = {
    "spread.close_pass": (
        close_pass.close_pass,
        ("stretch", "measured", "covered_m2"),
        ("start_kg", "start_sd_kg", "added_kg", "parts", "left_kg", "handfuls", "handful_kg", "level", "in_bag_kg")
        + ("ground_m2", "ran_out", "goes_on"),
    ),
    "spread.finish": (finish.finish, ("plan", "zones", "passes"), ("n_percent", "p2o5_percent")),
    "spread.pour": (pour.pour, ("plan", "passes", "on_foot"), ("added_kg", "in_bag_kg")),
    "spread.standing": (standing.standing, ("plan", "passes"), ("on_foot", "hopper", "bulk_density_kg_m3")),
}
