"""The book's entries as the sums take them: checked, struck-out ones left out, in the order they were done."""

from lawn.engine.core.dates import AHEAD_DAYS, DATE_LENGTH, day_number, day_text, moment_s
from lawn.engine.core.errors import EngineError, repeated
from lawn.engine.core.numeric import choice, flag, group, listing, optional_number, text

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

MOST_ENTRIES = 100000
MOST_ZONES = 1000
KINDS = (
    "mow",
    "spread",
    "pass",
    "observation",
    "stock_count",
    "tray_test",
    "reading",
    "bought",
    "soil_test",
)
NO_NITROGEN = ("seed", "lime", "pre_emergent", "post_emergent")  # these bring none unless the label's is entered


def in_order(*, entries: object) -> "list[dict[str, Any]]":
    """Every entry that counts, checked, in the order it was done: by instant, ties by id.

    Args:
        entries: the entries in any order, as `record.totals` takes them [list]
    Returns:
        rows: each as its checked fields, with moment_s, date and year of its moment; struck-out ones left out [list]
    Raises:
        out_of_range: a number is outside its range
        wrong_type: a moment is none
        repeated: an entry stands twice in the list
    Source: definition
    """
    rows: list[tuple[float, str, dict[str, Any]]] = []
    seen: set[str] = set()
    for at, item in enumerate(listing("entries", entries, 0, MOST_ENTRIES)):
        try:
            entry = _entry(item)
        except EngineError as error:
            error.name = _path(at, error.name)
            raise
        if entry["id"] in seen:
            raise repeated(_path(at, ""), entry["id"], "This entry stands twice in the list.")
        seen.add(entry["id"])
        if not entry["void"]:
            rows.append((entry["moment_s"], entry["id"], entry))
    rows.sort()  # by instant, then id; ids differ, so that the entries themselves are never compared
    return [row[2] for row in rows]


def split_ahead(*, rows: "list[dict[str, Any]]", now: int) -> "tuple[list[dict[str, Any]], list[str]]":
    """Entries that can have been done by now, and the ids of those dated later: a wrong clock or a slip of the finger.

    One mow dated next year would otherwise be the last one until then, and a count would hide all that came before.

    Args:
        rows: entries as `in_order` gives them [list]
        now: number of the day asked about [day]
    Returns:
        done: the entries up to a day ahead, for clocks and time zones stand apart [list]
        ahead: ids of the others, in the order of their moments [list]
    Source: definition
    """
    latest = day_text(now + AHEAD_DAYS)  # dates as text, so that thousands are compared at no cost
    done = [row for row in rows if row["date"] <= latest]
    return done, [row["id"] for row in rows if row["date"] > latest]


def _path(at: int, name: str) -> str:
    """Full name of an entry's field; put together only for an error, since a book has thousands of fields."""
    return "entries[" + str(at) + "]" + ("." + name if name else "")


def _entry(item: object) -> "dict[str, Any]":
    given = item if isinstance(item, dict) else group("", item, ())
    occurred_at = text("occurred_at", given.get("occurred_at"))
    product_id = given.get("product_id")
    sort = given.get("sort")
    by, step_id = given.get("by"), given.get("step_id")
    kind = choice("kind", given.get("kind"), KINDS)
    brings_none = sort is not None and text("sort", sort) in NO_NITROGEN
    return {
        "id": text("id", given.get("id")),
        "kind": kind,
        "moment_s": moment_s("occurred_at", occurred_at),
        "occurred_at": occurred_at,
        "date": occurred_at[:DATE_LENGTH],
        "year": int(occurred_at[:4]),
        "void": flag("void", given.get("void")),
        "zone_ids": _texts("zone_ids", given.get("zone_ids")),
        "product_id": None if product_id is None else text("product_id", product_id),
        "sort": sort,
        "by": None if by is None else text("by", by),
        "step_id": None if step_id is None else text("step_id", step_id),
        "used_kg": optional_number("used_kg", given.get("used_kg")),
        "left_kg": optional_number("left_kg", given.get("left_kg")),
        "bought_kg": _bought_kg(given) if kind == "bought" else None,
        "zones": _spread_zones(given.get("zones"), 0.0 if brings_none else None),
        "slow_n_share": optional_number("slow_n_share", given.get("slow_n_share")),
        "phosphate_needed": flag("phosphate_needed", given.get("phosphate_needed")),
    }


def _bought_kg(given: "dict[str, Any]") -> "float | None":
    """What came into the shed: the weight that was written down, else so many bags of their net weight."""
    bought = optional_number("bought_kg", given.get("bought_kg"))
    bags, net = optional_number("bags", given.get("bags")), optional_number("net_kg", given.get("net_kg"))
    if bought is not None or bags is None or net is None:
        return bought
    return bags * net


def with_doses(*, spread: "dict[str, Any]", given: object) -> "dict[str, Any]":
    """A checked spreading job with its day number and what it brought to each zone it reached, where most of it fell.

    Args:
        spread: the checked entry, as `in_order` gives it [group of values]
        given: the entry as it was handed in [group of values]
    Returns:
        spread: the same with day and doses: zone_id, n_kg_m2 and p2o5_kg_m2, null where not known [group of values]
    Raises:
        out_of_range: a number is outside its range
    Source: definition
    """
    zones = given.get("zones") if isinstance(given, dict) else None
    told = {row[0]: row[1] for row in spread["zones"]}
    doses = []
    for at, zone in enumerate(zones if isinstance(zones, (list, tuple)) else []):
        here = "zones[" + str(at) + "]"
        if zone.get("used_kg") == 0:
            continue
        most = optional_number(here + ".n_most_kg_m2", zone.get("n_most_kg_m2"))
        p2o5 = optional_number(here + ".p2o5_kg_m2", zone.get("p2o5_kg_m2"))
        n_kg_m2 = told[zone["zone_id"]] if most is None else most
        doses.append({"zone_id": zone["zone_id"], "n_kg_m2": n_kg_m2, "p2o5_kg_m2": p2o5})
    spread["day"] = day_number("occurred_at", spread["occurred_at"])
    spread["doses"] = doses
    return spread


def _texts(path: str, value: object) -> list[str]:
    if value is None:
        return []
    return [text(path + "[" + str(at) + "]", item) for at, item in enumerate(listing(path, value, 0, MOST_ZONES))]


def _spread_zones(value: object, unsaid: float | None) -> "list[Any]":
    """Zone and nitrogen of the zones a spreading job reached; unsaid is what nitrogen nobody entered counts as."""
    if value is None:
        return []
    rows = []
    for at, item in enumerate(listing("zones", value, 0, MOST_ZONES)):
        here = "zones[" + str(at) + "]"
        zone = item if isinstance(item, dict) else group(here, item, ())
        n_kg_m2 = optional_number(here + ".n_kg_m2", zone.get("n_kg_m2"))
        if zone.get("used_kg") == 0:
            continue  # set out for, but it ran out or was ended before
        rows.append((text(here + ".zone_id", zone.get("zone_id")), unsaid if n_kg_m2 is None else n_kg_m2))
    return rows
