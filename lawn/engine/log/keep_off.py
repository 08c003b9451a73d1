"""Which zones people, pets and mowers keep off for now, from what was put down and what the label says of it."""

from lawn.engine.core.dates import day_text, moment_s
from lawn.engine.core.errors import repeated
from lawn.engine.core.numeric import choice, group, listing, optional_number, text, whole_down
from lawn.engine.core.working import COMMON, DEFINITION, step
from lawn.engine.log.applications import put_down_on
from lawn.engine.log.entries import in_order

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

MOST_PRODUCTS = 1000
WATER_IN = ("unsaid", "water_in", "keep_dry")
# Where no label says how long: until it is watered in and dry, and a night to be sure. Common practice.
UNSAID_HOURS = 24.0
HOUR_S = 3600.0
DAY_S = 86400.0


def keep_off(
    *, entries: list[object], now: str, products: list[object] | None = None
) -> tuple[dict[str, object], list[dict[str, object]]]:
    """Zones to keep off now, each until the latest of what was put down on it allows it again.

    Hours count from the moment the entry was written, for a spreading job its end. Where a label states no hours, a
    day is taken (`assumed`); 0 hours on a label are none. Seed without hours keeps nobody off. `until_watered` says
    that it holds, besides, until the product is watered in and dry, which no clock knows. A pass counts as a
    spreading job does, so that a zone is kept off while the spreading job goes on.

    Args:
        entries: spreading jobs and passes in any order; other entries and fields may stand among them [list]
        entries.id: the entry, once only [text]
        entries.kind: mow, spread, pass, observation, stock_count or tray_test [text]
        entries.occurred_at: moment it was done [moment]
        entries.void?: struck out [true or false]
        entries.zone_ids?: zones a pass was walked on [list of texts]
        entries.product_id?: product of a spreading job or pass [text]
        entries.sort?: sort of the product [text]
        entries.used_kg?: product put down; 0 is nothing [kg; 0 to 5000]
        entries.zones?: of a spreading job, for each zone what it got [list]
        entries.zones.zone_id: the zone [text]
        entries.zones.n_kg_m2?: nitrogen on it; null if unknown [kg/m2 or null; 0 to 5]
        now: the moment asked about [moment]
        products?: products with what their labels say [list]
        products.id: the product, once only [text]
        products.keep_off_hours?: hours to keep off [h; 0 to 720]
        products.water_in?: unsaid, water_in or keep_dry [text]
    Returns:
        zones: by zone id, only those to keep off now [groups by id]
        zones.until: the end, in universal time [moment]
        zones.put_down_at: when it was put down [moment]
        zones.hours: hours to keep off [h]
        zones.assumed: true where no label says the hours [true or false]
        zones.until_watered: true where it ends with watering in [true or false]
        zones.product_id: the product; null if it is not known [text or null]
        zones.entry_id: the entry that says so [text]
        over_in_s: seconds until the first of them is over; null where there is none [s or null]
    Raises:
        out_of_range: a number is outside its range
        wrong_type: a moment is none
        repeated: an entry or a product stands twice in its list
    Source: common practice
    """
    now_s = moment_s("now", now)
    labels = _labels(products)
    zones: dict[str, Any] = {}
    for entry in in_order(entries=entries):
        zone_ids = put_down_on(row=entry)
        found = _kept_off(entry, labels) if zone_ids else None
        if found is not None and found["until_s"] > now_s:
            for zone_id in zone_ids:
                if zone_id not in zones or found["until_s"] >= zones[zone_id]["until_s"]:
                    zones[zone_id] = found
    ids = sorted(zones)
    ends = [zones[zone_id]["until_s"] for zone_id in ids]
    over_in_s = min(ends) - now_s if ends else None
    working = [_step(zone_id, zones[zone_id]) for zone_id in ids]
    working.append(_next_step(len(ids), over_in_s))
    return {"zones": {zone_id: _answer(zones[zone_id]) for zone_id in ids}, "over_in_s": over_in_s}, working


def _labels(products: object) -> "dict[str, Any]":
    found: dict[str, Any] = {}
    for at, item in enumerate(listing("products", products, 0, MOST_PRODUCTS) if products is not None else []):
        here = "products[" + str(at) + "]"
        row = group(here, item, ("id", "keep_off_hours", "water_in"))
        one = text(here + ".id", row.get("id"))
        if one in found:
            raise repeated(here, one, "This product stands twice in the list.")
        hours = optional_number(here + ".keep_off_hours", row.get("keep_off_hours"))
        water_in = choice(here + ".water_in", row.get("water_in") or "unsaid", WATER_IN)
        found[one] = (hours, water_in)
    return found


def _kept_off(entry: "dict[str, Any]", labels: "dict[str, Any]") -> "dict[str, Any] | None":
    """Until when an entry that put something down keeps people off; None where its label says none."""
    said, water_in = labels.get(entry["product_id"] or "", (None, "unsaid"))
    if said == 0.0 or (said is None and entry["sort"] == "seed"):
        return None
    hours = UNSAID_HOURS if said is None else said
    return {
        "until_s": entry["moment_s"] + hours * HOUR_S,
        "put_down_at": entry["occurred_at"],
        "hours": hours,
        "assumed": said is None,
        "until_watered": water_in == "water_in",
        "product_id": entry["product_id"],
        "entry_id": entry["id"],
    }


def _answer(found: "dict[str, Any]") -> dict[str, object]:
    answer = {key: found[key] for key in found if key != "until_s"}
    answer["until"] = _moment(found["until_s"])
    return answer


def _moment(seconds: float) -> str:
    """A moment of universal time as 2026-05-02T16:30:00Z, to the second begun."""
    day = whole_down(seconds / DAY_S)
    rest = whole_down(seconds - day * DAY_S)
    parts = (rest // 3600, rest // 60 % 60, rest % 60)
    return day_text(day) + "T" + ":".join([("0" + str(part))[-2:] for part in parts]) + "Z"


def _step(zone_id: str, found: "dict[str, Any]") -> dict[str, object]:
    rule = "a day, since no label says how long" if found["assumed"] else "the hours of its label"
    return step(
        what="Keep off until",
        formula="when it was put down, and " + rule,
        numbers={"put_down_at": found["put_down_at"], "hours": found["hours"]},
        result=_moment(found["until_s"]),
        unit="moment",
        source=COMMON if found["assumed"] else DEFINITION,
        of=zone_id,
    )


def _next_step(zones: int, over_in_s: float | None) -> dict[str, object]:
    return step(
        what="Until the first of them is over",
        formula="the earliest end less now",
        numbers={"zones": zones},
        result=over_in_s,
        unit="s",
        source=DEFINITION,
    )
