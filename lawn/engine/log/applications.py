"""What was put down, zone by zone and in order: the view of the log that every rule about it reads."""

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

SPRAYED = ("pre_emergent", "post_emergent")


def by_zone(*, spreads: "list[dict[str, Any]]") -> "dict[str, list[dict[str, Any]]]":
    """Every application of each zone in the order done, with what it brought there.

    Args:
        spreads: checked spreading jobs in the order done, as `in_order` gives them [list]
    Returns:
        zones: by zone id its applications: walk, day (number), sort, n_kg_m2, quick_n_kg_m2 and p2o5_kg_m2 where most
            of it fell, each null where nobody entered it [group of values]
    Source: definition
    """
    zones: dict[str, Any] = {}
    for spread in spreads:
        seen: set[str] = set()
        for dose in spread["doses"]:
            if dose["zone_id"] not in seen:
                seen.add(dose["zone_id"])
                zones.setdefault(dose["zone_id"], []).append(_application(spread, dose))
    return zones


def _application(spread: "dict[str, Any]", dose: "dict[str, Any]") -> "dict[str, Any]":
    n_kg_m2, slow = dose["n_kg_m2"], spread["slow_n_share"]
    return {
        "spread": spread,
        "day": spread["day"],
        "sort": spread["sort"],
        "n_kg_m2": n_kg_m2,
        # Nitrogen of unknown release counts as quick: the cautious side.
        "quick_n_kg_m2": None if n_kg_m2 is None else n_kg_m2 * (1.0 - (slow or 0.0)),
        "p2o5_kg_m2": None if spread["phosphate_needed"] else dose["p2o5_kg_m2"],
    }


def is_feed(*, one: "dict[str, Any]") -> bool:
    """Tell whether an application brought nitrogen, or may have.

    Args:
        one: an application [group of values]
    Returns:
        feed: whether it did [true or false]
    Source: definition
    """
    n_kg_m2 = one["n_kg_m2"]
    return n_kg_m2 is None or bool(n_kg_m2 > 0.0)


def is_quick(*, one: "dict[str, Any]") -> bool:
    """Tell whether an application brought nitrogen that may be urea or ammonium.

    Args:
        one: an application [group of values]
    Returns:
        quick: whether it may have [true or false]
    Source: common practice
    """
    quick = one["quick_n_kg_m2"]
    return is_feed(one=one) and (quick is None or bool(quick > 0.0))
