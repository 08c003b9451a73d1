"""The calls of this topic: name, function, arguments that must be given, arguments that may be given."""

from lawn.engine.product import bags, label

TYPE_CHECKING = False
if TYPE_CHECKING:  # never true at run time: MicroPython has no typing module
    from typing import Any

CALLS: "dict[str, tuple[Any, tuple[str, ...], tuple[str, ...]]]" = {
    "label.aim": (bags.aim, ("aim", "area_m2", "net_kg"), ("coverage_m2", "n_percent", "p2o5_percent", "sort")),
    "label.match": (bags.match, ("coverage_m2", "zones"), ("tolerance_share", "net_kg")),
    "label.needed": (label.needed, ("area_m2", "rate_kg_m2", "net_kg"), ("price",)),
    "label.nitrogen_price": (label.nitrogen_price, ("price", "net_kg", "n_percent"), ()),
    "label.nutrients": (
        label.nutrients,
        ("rate_kg_m2", "n_percent"),
        ("p2o5_percent", "k2o_percent", "slow_n_share"),
    ),
    "label.rate": (label.rate, ("net_kg", "coverage_m2"), ()),
    "label.rate_for_nitrogen": (label.rate_for_nitrogen, ("n_kg_m2", "n_percent"), ()),
}
