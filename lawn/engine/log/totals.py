"""What the book's entries add up to: last mow, last feed, nitrogen, passes, stock, and what is due.

The order in which entries arrive never matters: they are put in the order they happened, ties by id.
"""

from lawn.engine.core.dates import AHEAD_DAYS, day_number, day_text, year_of
from lawn.engine.core.errors import repeated
from lawn.engine.core.numeric import group, listing, optional_number, text, total, whole_down, whole_up
from lawn.engine.core.working import COMMON, DEFINITION, N_UNIT, step
from lawn.engine.log.applications import ON_THE_WAY, applications_of, is_application
from lawn.engine.log.entries import in_order, split_ahead
from lawn.engine.log.stock import stock_of

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

MOST_ZONES = 1000
TWICE_A_WEEK_DAYS = 3.5


def totals(*, entries: list[object], today: str) -> tuple[dict[str, object], list[dict[str, object]]]:
    """Totals of the book per zone and per product; struck-out entries do not count.

    The year is today's calendar year by the date each entry was written down with. A `spread` carries what
    was put down; its `pass` entries are the learning history and are counted, not added again. What is dated
    more than a day ahead of today has not been done: it counts nowhere and is named.

    Args:
        entries: the entries in any order; other fields than these may stand in them [list]
        entries.id: the entry, once only [text]
        entries.kind: mow, spread, pass, observation, stock_count, tray_test, reading, soil_test or bought [text]
        entries.occurred_at: moment it was done [moment]
        entries.zone_ids?: zones it was done on [list of texts]
        entries.void?: struck out [true or false]
        entries.product_id?: product of a spreading job, pass, purchase or count [text]
        entries.sort?: sort of the product a spreading job put down, such as fertilizer or seed [text]
        entries.used_kg?: product a spreading job put down [kg; 0 to 5000]
        entries.left_kg?: product a count found [kg; 0 to 20000]
        entries.bought_kg?: weight of a purchase; it stands before its bags [kg; 0 to 20000]
        entries.bags?: bags of a purchase [bags; 0.001 to 1000]
        entries.net_kg?: net weight of one of them [kg; 0.01 to 2000]
        entries.zones?: of a spreading job, for each zone what it got [list]
        entries.zones.zone_id: the zone [text]
        entries.zones.n_kg_m2?: nitrogen on it; null if unknown [kg/m2 or null; 0 to 5]
        today: the day asked about [date]
    Returns:
        zones: by zone id what it had [groups by id]
        zones.last_mow: day of its last mow; null if there was none [date or null]
        zones.last_feed: day of its last feed; null likewise [date or null]
        zones.n_year_kg_m2: nitrogen of this year, as far as entered [kg/m2]
        zones.passes: passes walked on it [passes]
        zones.n_unknown_feeds: feeds of this year whose nitrogen nobody entered [feeds]
        products: by product id what there is [groups by id]
        products.used_since_count_kg: put down since it was counted, without a count since it was first bought [kg]
        products.bought_since_kg: bought since it was counted [kg]
        products.counted_kg: what was counted; null without a count [kg or null]
        products.counted_at: when; null likewise [moment or null]
        products.left_kg: what is left; null where it was neither counted nor bought; below 0 where more was used
            than there was [kg or null]
        ahead: ids of entries dated more than a day ahead, which count nowhere [list of texts]
    Raises:
        out_of_range: a number is outside its range
        wrong_type: a moment or date is none
        repeated: an entry stands twice in the list
    Source: definition
    """
    now = day_number("today", today)
    year = year_of(now)
    rows, ahead = split_ahead(rows=in_order(entries=entries), now=now)
    zones: dict[str, Any] = {}
    for entry in rows:
        _count_zone_facts(entry, year, zones)
    fed = _nitrogen(rows, year)
    for zone_id in sorted(fed):
        _zone(zones, zone_id)["n_year_kg_m2"] = total([row[1] for row in fed[zone_id]])
    products, purchases = stock_of(rows)
    working = [_nitrogen_step(zone_id, zones[zone_id], fed.get(zone_id, [])) for zone_id in sorted(zones)]
    for product_id in sorted(products):
        working.append(_bought_step(product_id, purchases.get(product_id, []), products[product_id]))
        working.append(_stock_step(product_id, products[product_id]))
    working.append(_count_step(len(rows), len(ahead)))
    return {"zones": zones, "products": products, "ahead": ahead}, working


def due(*, zones: list[object], today: str) -> tuple[dict[str, object], list[dict[str, object]]]:
    """When each zone is due for a cut, counted from its last mow.

    Twice a week is a cut every 3.5 days: due from the third day on, overdue after the fourth. In general a
    zone is due once the days between cuts, rounded down, have passed, and overdue once they have passed
    rounded up. A last mow more than a day ahead of today has not been done and says nothing.

    Args:
        zones: the zones, up to 1000 [list]
        zones.id: the zone [text]
        zones.last_mow?: day of its last mow, or nothing if never mown [date or null]
        zones.mow_every_days?: days between cuts; twice a week when not said [day; 1 to 60]
        today: the day asked about [date]
    Returns:
        zones: by zone id when each is due [groups by id]
        zones.due_on: day it is due; null if it was never mown [date or null]
        zones.overdue_days: days since then; 0 while it is not due [day]
        zones.state: how it stands [one of never, ok, due, overdue]
        zones.days_since: days since its last mow; null if never [day or null]
        zones.assumed: true where twice a week was taken [true or false]
    Raises:
        out_of_range: a number is outside its range
        wrong_type: a date is none
        repeated: a zone stands twice in the list
    Source: common practice
    """
    now = day_number("today", today)
    found: dict[str, object] = {}
    working: list[dict[str, object]] = []
    for at, item in enumerate(listing("zones", zones, 0, MOST_ZONES)):
        path = "zones[" + str(at) + "]"
        zone = group(path, item, ("id", "last_mow", "mow_every_days"))
        zone_id = text(path + ".id", zone.get("id"))
        if zone_id in found:
            raise repeated(path, zone_id, "This zone stands twice in the list.")
        every = optional_number(path + ".mow_every_days", zone.get("mow_every_days"))
        last = zone.get("last_mow")
        mown = None if last is None else day_number(path + ".last_mow", last)
        row = _due(mown, every, now)
        found[zone_id] = row
        working.append(_due_step(zone_id, last, every, row))
    return {"zones": found}, working


def _zone(zones: "dict[str, Any]", zone_id: str) -> "dict[str, Any]":
    if zone_id not in zones:
        zones[zone_id] = {
            "last_mow": None,
            "last_feed": None,
            "n_year_kg_m2": 0.0,
            "passes": 0,
            "n_unknown_feeds": 0,
        }
    found: dict[str, Any] = zones[zone_id]
    return found


def _count_zone_facts(entry: "dict[str, Any]", year: int, zones: "dict[str, Any]") -> None:
    """Take one entry into the zones' facts; entries come in the order they were done."""
    for zone_id in entry["zone_ids"]:
        zone = _zone(zones, zone_id)
        if entry["kind"] == "mow":
            zone["last_mow"] = entry["date"]
        if entry["kind"] in ON_THE_WAY:
            zone["passes"] += 1
    if not is_application(row=entry):
        return
    for zone_id, n_kg_m2 in entry["zones"]:
        zone = _zone(zones, zone_id)
        if n_kg_m2 is None and entry["year"] == year:
            zone["n_unknown_feeds"] += 1
        if n_kg_m2 is None or n_kg_m2 > 0.0:
            zone["last_feed"] = entry["date"]


def _nitrogen(rows: "list[dict[str, Any]]", year: int) -> dict[str, list[tuple[str, float]]]:
    """Day and nitrogen of this year's spreading jobs, by zone."""
    fed: dict[str, list[tuple[str, float]]] = {}
    for entry in applications_of(rows=rows):
        if entry["year"] != year:
            continue
        for zone_id, n_kg_m2 in entry["zones"]:
            fed.setdefault(zone_id, []).append((entry["date"], n_kg_m2 or 0.0))
    return fed


def _due(mown: int | None, every: float | None, now: int) -> dict[str, object]:
    days = TWICE_A_WEEK_DAYS if every is None else every
    row: dict[str, object] = {"assumed": every is None, "due_on": None, "overdue_days": 0, "days_since": None}
    if mown is None or mown > now + AHEAD_DAYS:
        row["state"] = "never"
        return row
    since = now - mown
    row["days_since"] = since
    row["due_on"] = day_text(mown + whole_down(days))
    row["overdue_days"] = max(0, since - whole_up(days))
    row["state"] = "ok" if since < whole_down(days) else ("overdue" if since > whole_up(days) else "due")
    return row


def _nitrogen_step(zone_id: str, zone: "dict[str, Any]", spreads: list[tuple[str, float]]) -> dict[str, object]:
    return step(
        what="Nitrogen on a zone so far this year",
        formula="nitrogen of this year's spreading on it, added",
        numbers={
            "days": [row[0] for row in spreads],
            "n_kg_m2": [row[1] for row in spreads],
            "without_known_nitrogen": zone["n_unknown_feeds"],
        },
        result=zone["n_year_kg_m2"],
        unit=N_UNIT,
        source=DEFINITION,
        of=zone_id,
    )


def _bought_step(product_id: str, bought: "list[dict[str, Any]]", product: "dict[str, Any]") -> dict[str, object]:
    return step(
        what="Bought of a product since it was counted",
        formula="weights of the purchases after the last count, added; bags times their net weight",
        numbers={"days": [row["date"] for row in bought], "bought_kg": [row["bought_kg"] for row in bought]},
        result=product["bought_since_kg"],
        unit="kg",
        source=DEFINITION,
        of=product_id,
    )


def _stock_step(product_id: str, product: "dict[str, Any]") -> dict[str, object]:
    return step(
        what="Left of a product in the shed",
        formula="last count and what was bought after it, minus what spreading used after it; without a count from the "
        "first purchase on; unknown without either",
        numbers={
            "counted_kg": product["counted_kg"],
            "bought_since_kg": product["bought_since_kg"],
            "used_since_count_kg": product["used_since_count_kg"],
        },
        result=product["left_kg"],
        unit="kg",
        source=DEFINITION,
        of=product_id,
    )


def _count_step(count: int, ahead: int) -> dict[str, object]:
    return step(
        what="Entries added up",
        formula="every entry handed in that is not struck out; none dated more than a day ahead",
        numbers={"entries": count, "dated_ahead": ahead},
        result=count,
        unit="entries",
        source=DEFINITION,
    )


def _due_step(zone_id: str, last: object, every: float | None, row: dict[str, object]) -> dict[str, object]:
    numbers: dict[str, object] = {"last_mow": last, "days_since": row["days_since"]}
    numbers["days_between"] = TWICE_A_WEEK_DAYS if every is None else every
    return step(
        what="Due for a cut",
        formula="last mow and the days between cuts, down to a whole day; twice a week is 3.5 days",
        numbers=numbers,
        result=row["due_on"],
        unit="date",
        source=COMMON,
        of=zone_id,
    )
