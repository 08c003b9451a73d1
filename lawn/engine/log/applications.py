"""What was put down, entry by entry and zone by zone: the view of the log that every rule about it reads.

An application is anything spread or sprayed. Which kinds of entry that is, and where and when each of them put
something down, is told here alone.
"""

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

SPRAYED = ("pre_emergent", "post_emergent")
SPREAD = "spread"
APPLICATIONS = (SPREAD,)  # kinds of entry that tell of a whole application
ON_THE_WAY = ("pass",)  # kinds that tell of a part of one before it is finished: never counted again with it


def is_application(*, row: "dict[str, Any]") -> bool:
    """Tell whether an entry is an application: it counts in every sum.

    Args:
        row: a checked entry [group of values]
    Returns:
        application: whether it is one [true or false]
    Source: definition
    """
    return row["kind"] in APPLICATIONS


def applications_of(*, rows: "list[dict[str, Any]]") -> "list[dict[str, Any]]":
    """Every application among the entries, in their order.

    Args:
        rows: checked entries in the order done, as `in_order` gives them [list]
    Returns:
        applications: those that put something down: each with its moment, date and year, zones (zone and nitrogen),
            product_id, sort and used_kg [list]
    Source: definition
    """
    return [row for row in rows if is_application(row=row)]


def put_down_on(*, row: "dict[str, Any]") -> list[str]:
    """Zones on which an entry put something down, the parts of an application under way among them.

    Args:
        row: a checked entry [group of values]
    Returns:
        zone_ids: the zones it reached; none where nothing came out, or where it put nothing down [list]
    Source: definition
    """
    if row["used_kg"] == 0.0:
        return []
    if is_application(row=row):
        return [zone_id for zone_id, _ in row["zones"]]
    return list(row["zone_ids"]) if row["kind"] in ON_THE_WAY else []


def by_zone(*, spreads: "list[dict[str, Any]]") -> "dict[str, list[dict[str, Any]]]":
    """Every application of each zone in the order done, with what it brought there.

    Args:
        spreads: checked spreading jobs in the order done, as `in_order` gives them [list]
    Returns:
        zones: by zone id its applications: spread, day (number), sort, n_kg_m2, quick_n_kg_m2 and p2o5_kg_m2 where most
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
