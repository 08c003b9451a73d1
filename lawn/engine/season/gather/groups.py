"""Zones that are fed alike, made one group; a zone may stand apart by hand."""

from lawn.engine.core.errors import repeated
from lawn.engine.core.numeric import choice, flag, group, listing, number, optional_number, text, total
from lawn.engine.warmth.response import TURFS

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

MOST_ZONES = 1000
MOST_JOBS = 40
CEILINGS = ("aim_n_kg_m2", "n_once_kg_m2", "n_quick_once_kg_m2", "n_year_kg_m2")
SAME = ("grass", "sun", "use")  # beside turf, water's edge, what may go on, and the jobs wanted
ZONE = ("id", "area_m2", "turf", "near_water", "phosphate", "jobs", "apart") + SAME + CEILINGS


def zones_of(zones: object) -> "tuple[list[dict[str, Any]], list[dict[str, object]]]":
    """The zones checked, and which of them no plan can take, each with the field it lacks."""
    found: list[dict[str, Any]] = []
    lacking: list[dict[str, object]] = []
    seen: list[str] = []
    for at, item in enumerate(listing("zones", zones, 0, MOST_ZONES)):
        path = "zones[" + str(at) + "]"
        zone = _zone(path, group(path, item, ZONE))
        if zone["id"] in seen:
            raise repeated(path, zone["id"], "This zone stands twice in the list.")
        seen.append(zone["id"])
        lack = [name for name in ("area_m2", "turf") if zone[name] is None]
        if lack:
            lacking.append({"id": zone["id"], "lacks": lack[0]})
        else:
            found.append(zone)
    return found, lacking


def _zone(path: str, row: "dict[str, Any]") -> "dict[str, Any]":
    turf, area = row.get("turf"), row.get("area_m2")
    jobs = listing(path + ".jobs", row.get("jobs") or [], 0, MOST_JOBS)
    found: dict[str, Any] = {
        "id": text(path + ".id", row.get("id")),
        "area_m2": None if area is None else number(path + ".area_m2", area),
        "turf": None if turf is None else choice(path + ".turf", turf, TURFS),
        "jobs": sorted([text(path + ".jobs[" + str(at) + "]", job) for at, job in enumerate(jobs)]),
    }
    for name in ("near_water", "phosphate", "apart"):
        found[name] = flag(path + "." + name, row.get(name))
    for name in SAME:
        found[name] = None if row.get(name) is None else text(path + "." + name, row.get(name))
    for name in CEILINGS:
        found[name] = optional_number(path + "." + name, row.get(name))
    return found


def groups_of(zones: "list[dict[str, Any]]", lately: dict[str, list[int]]) -> "list[dict[str, Any]]":
    """The groups, the largest first; each is named by the first of its zones in the order of their ids.

    `lately` tells by zone the weeks in which it was fed not long ago: zones fed apart are not due alike.
    """
    alike: dict[tuple[object, ...], list[dict[str, Any]]] = {}
    for zone in sorted(zones, key=lambda one: str(one["id"])):
        alike.setdefault(_likeness(zone, lately.get(zone["id"], [])), []).append(zone)
    groups = [_group(members) for members in alike.values()]
    return sorted(groups, key=lambda one: (-one["area_m2"], one["id"]))


def _likeness(zone: "dict[str, Any]", weeks: list[int]) -> "tuple[object, ...]":
    """The same for zones that are fed alike, and for no others."""
    if zone["apart"]:
        return ("apart", zone["id"])
    names = ("turf", "near_water", "phosphate") + SAME + CEILINGS
    return (tuple(weeks), tuple(zone["jobs"])) + tuple([zone[name] for name in names])


def _group(members: "list[dict[str, Any]]") -> "dict[str, Any]":
    first = members[0]
    found = {
        "id": first["id"],
        "zones": [zone["id"] for zone in members],
        "area_m2": total([zone["area_m2"] for zone in members]),
        "turf": first["turf"],
        "phosphate": first["phosphate"],
        "jobs": first["jobs"],
    }
    for name in CEILINGS:
        if first[name] is not None:
            found[name] = first[name]
    return found
