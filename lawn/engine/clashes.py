"""What two people did to the same grass without knowing of each other, found once their entries stand in one book."""

from lawn.engine.days import day_number, year_of
from lawn.engine.entries import MOST_ZONES, in_order, repeated, split_ahead
from lawn.engine.numeric import at_least, group, listing, number, optional_number, text, total
from lawn.engine.working import COMMON, DEFINITION, N_UNIT, step

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

MOST_PRODUCTS = 1000
FEED_DAYS = 7  # two people's feeds closer than this are asked about where no label interval is entered: common practice
JOB_DAYS = 14  # a mow noted twice harms nothing and is asked about for two weeks
LOOK_BACK_DAYS = 365


def clashes(
    *, entries: list[object], today: str, products: list[object] | None = None, ceilings: list[object] | None = None
) -> tuple[dict[str, object], list[dict[str, object]]]:
    """Entries that do not go together, each clash under a key that stays the same until another entry joins it.

    Three kinds are found. interval: a product put on a zone again before the least days between applications of
    its label were over, whoever did it; or, where no such days are entered, two people's feeds of a zone less than
    7 days apart. nitrogen: the feeds of this calendar year pass a zone's ceiling together. same_job: two people
    noted a mow of one zone on one day. What lies more than a year back is no longer asked about (a mow: 14 days), nor
    what is dated more than a day ahead, which has not been done.

    Args:
        entries: walks and mows in any order; other entries and fields may stand among them [list]
        entries.id: the entry, once only [text]
        entries.kind: mow, walk, pass, observation, stock_count or tray_test [text]
        entries.occurred_at: moment it was done [moment]
        entries.by?: who did it [text]
        entries.void?: struck out [true or false]
        entries.zone_ids?: zones it was done on [list]
        entries.product_id?: product of a walk [text]
        entries.sort?: sort of the product [text]
        entries.zones?: of a walk, for each zone zone_id and n_kg_m2 (null if unknown) [list]
        today: the day asked about [date]
        products?: products with what their labels say [list]
        products.id: the product, once only [text]
        products.interval_days?: least days between applications [day; 0 to 365]
        ceilings?: zones with a ceiling for the year [list]
        ceilings.zone_id: the zone, once only [text]
        ceilings.n_year_kg_m2: nitrogen of the year at most [kg/m2; 0 to 5]
    Returns:
        clashes: newest first: key, kind (interval, nitrogen or same_job), entry_ids in the order done, zone_ids,
            date of the latest, product_id (null where two products met), days_between and interval_days (null
            unless kind is interval), assumed (true where no label says the days), n_year_kg_m2 and ceiling_kg_m2
            (null unless kind is nitrogen) [list]
    Raises:
        out_of_range: a number is outside its range
        wrong_type: a moment or date is none
        repeated: an entry, a product or a zone stands twice in its list
    Source: definition
    """
    now = day_number("today", today)
    intervals = _by_id("products", products, "id", "interval_days", needed=False)
    limits = _by_id("ceilings", ceilings, "zone_id", "n_year_kg_m2", needed=True)
    rows, _ = split_ahead(rows=in_order(entries=entries), now=now)
    walks = [row for row in rows if row["kind"] == "walk"]
    found = _too_soon(walks, intervals)
    found.extend(_over(walks, limits, year_of(now)))
    found.extend(_twice([row for row in rows if row["kind"] == "mow"], now))
    recent = [one for one in found if now - day_number("date", one["date"]) <= LOOK_BACK_DAYS]
    recent.sort(key=lambda one: (one["date"], one["key"]), reverse=True)
    working = [row for one in recent for row in _steps(one)]
    working.append(_count_step(len(rows), len(recent)))
    return {"clashes": recent}, working


def _by_id(path: str, rows: object, key: str, name: str, needed: bool) -> dict[str, float | None]:
    """One number for each row of a list, by the row's own id."""
    found: dict[str, float | None] = {}
    for at, item in enumerate(listing(path, rows, 0, MOST_PRODUCTS) if rows is not None else []):
        here = path + "[" + str(at) + "]"
        row = group(here, item, (key, name))
        one = text(here + "." + key, row.get(key))
        if one in found:
            raise repeated(here, one, "This one stands twice in the list.")
        read = number if needed else optional_number
        found[one] = read(here + "." + name, row.get(name))
    return found


def _too_soon(walks: "list[dict[str, Any]]", intervals: dict[str, float | None]) -> "list[dict[str, Any]]":
    """Pairs of walks too close to each other, the zones of one pair together."""
    pairs: dict[str, Any] = {}
    last: dict[tuple[str, str], Any] = {}  # by zone and product
    fed: dict[str, Any] = {}  # by zone: the last walk that brought nitrogen, or may have
    for walk in walks:
        for zone_id, n_kg_m2 in _zones_of(walk):
            product_id = walk["product_id"] or ""
            before, least = last.get((zone_id, product_id)), intervals.get(product_id)
            last[(zone_id, product_id)] = walk
            if before is not None and least is not None:
                _pair(pairs, before, walk, zone_id, least, assumed=False)
            if n_kg_m2 == 0.0:
                continue
            before = fed.get(zone_id)
            fed[zone_id] = walk
            if before is not None and _unsaid(before, walk, intervals) and _two_people(before, walk):
                _pair(pairs, before, walk, zone_id, float(FEED_DAYS), assumed=True)
    return [pairs[key] for key in sorted(pairs)]


def _zones_of(walk: "dict[str, Any]") -> "list[Any]":
    """Zone and nitrogen of a walk, each zone once."""
    found: dict[str, Any] = {}
    for zone_id, n_kg_m2 in walk["zones"]:
        found.setdefault(zone_id, n_kg_m2)
    return [(zone_id, found[zone_id]) for zone_id in sorted(found)][:MOST_ZONES]


def _unsaid(before: "dict[str, Any]", walk: "dict[str, Any]", intervals: dict[str, float | None]) -> bool:
    """Whether no label says how many days lie between the two: other products, or one without the days."""
    return before["product_id"] != walk["product_id"] or intervals.get(walk["product_id"] or "") is None


def _two_people(before: "dict[str, Any]", after: "dict[str, Any]") -> bool:
    return before["by"] is not None and after["by"] is not None and before["by"] != after["by"]


def _pair(
    pairs: "dict[str, Any]",
    before: "dict[str, Any]",
    walk: "dict[str, Any]",
    zone_id: str,
    least: float,
    assumed: bool,
) -> None:
    days = day_number("date", walk["date"]) - day_number("date", before["date"])
    if days >= least:
        return
    key = "interval:" + before["id"] + ":" + walk["id"]
    if key not in pairs:
        same = before["product_id"] == walk["product_id"]
        pairs[key] = _clash("interval", key, [before, walk], [])
        pairs[key]["product_id"] = walk["product_id"] if same else None
        pairs[key]["days_between"] = max(0, days)  # two time zones may write the later one with the earlier date
        pairs[key]["interval_days"] = least
        pairs[key]["assumed"] = assumed
    if zone_id not in pairs[key]["zone_ids"]:
        pairs[key]["zone_ids"].append(zone_id)


def _over(walks: "list[dict[str, Any]]", limits: dict[str, float | None], year: int) -> "list[dict[str, Any]]":
    """Zones whose feeds of the year pass their ceiling together; one feed alone was warned of when it was planned."""
    fed: dict[str, Any] = {}
    for walk in walks:
        for zone_id, n_kg_m2 in walk["zones"]:
            if walk["year"] == year and n_kg_m2 is not None and n_kg_m2 > 0.0 and zone_id in limits:
                fed.setdefault(zone_id, []).append((walk, n_kg_m2))
    found = []
    for zone_id in sorted(fed):
        rows, limit = fed[zone_id], limits[zone_id]
        n_year_kg_m2 = total([n_kg_m2 for _, n_kg_m2 in rows])
        if len(rows) < 2 or limit is None or at_least(limit, n_year_kg_m2):
            continue
        latest = rows[-1][0]
        key = "nitrogen:" + zone_id + ":" + str(year) + ":" + str(len(rows)) + ":" + latest["id"]
        clash = _clash("nitrogen", key, [walk for walk, _ in rows], [zone_id])
        clash["addends"] = [(walk["date"], n_kg_m2) for walk, n_kg_m2 in rows]
        clash["n_year_kg_m2"] = n_year_kg_m2
        clash["ceiling_kg_m2"] = limit
        found.append(clash)
    return found


def _twice(mows: "list[dict[str, Any]]", now: int) -> "list[dict[str, Any]]":
    """Mows of one zone on one day by two people: likely one mow, noted on two phones."""
    pairs: dict[str, Any] = {}
    last: dict[tuple[str, str], Any] = {}
    for mow in mows:
        if now - day_number("date", mow["date"]) > JOB_DAYS:
            continue
        for zone_id in mow["zone_ids"]:
            before = last.get((zone_id, mow["date"]))
            last[(zone_id, mow["date"])] = mow
            if before is None or not _two_people(before, mow):
                continue
            key = "same_job:" + before["id"] + ":" + mow["id"]
            clash = pairs.setdefault(key, _clash("same_job", key, [before, mow], []))
            if zone_id not in clash["zone_ids"]:
                clash["zone_ids"].append(zone_id)
    return [pairs[key] for key in sorted(pairs)]


def _clash(kind: str, key: str, rows: "list[dict[str, Any]]", zone_ids: list[str]) -> "dict[str, Any]":
    return {
        "key": key,
        "kind": kind,
        "entry_ids": [row["id"] for row in rows],
        "zone_ids": zone_ids,
        "date": max([row["date"] for row in rows]),
        "product_id": None,
        "days_between": None,
        "interval_days": None,
        "assumed": False,
        "n_year_kg_m2": None,
        "ceiling_kg_m2": None,
    }


def _steps(clash: "dict[str, Any]") -> list[dict[str, object]]:
    key, entries = clash["key"], len(clash["entry_ids"])
    addends = clash.pop("addends", [])
    if clash["kind"] == "nitrogen":
        return [
            _said(
                "Nitrogen ceiling of the zone for the year",
                "as handed in",
                {"zones": 1},
                clash["ceiling_kg_m2"],
                N_UNIT,
                DEFINITION,
                key,
            ),
            _said(
                "Nitrogen of the year over the zone's ceiling",
                "nitrogen of this year's walks on it, added; against the ceiling",
                {
                    "days": [day for day, _ in addends],
                    "n_kg_m2": [n_kg_m2 for _, n_kg_m2 in addends],
                    "ceiling_kg_m2": clash["ceiling_kg_m2"],
                },
                clash["n_year_kg_m2"],
                N_UNIT,
                DEFINITION,
                key,
            ),
        ]
    if clash["kind"] == "interval":
        source = COMMON if clash["assumed"] else DEFINITION
        rule = "a week for two people's feeds" if clash["assumed"] else "as entered from the label"
        between = "days between the two walks, against the least days between applications"
        least = {"least_days": clash["interval_days"]}
        return [
            _said(
                "Least days between applications", rule, {"walks": entries}, clash["interval_days"], "days", source, key
            ),
            _said("Put down again too soon", between, least, clash["days_between"], "days", DEFINITION, key),
        ]
    rule = "mows of one zone on one day by two people"
    return [_said("One job noted twice", rule, {"entries": entries}, entries, "entries", COMMON, key)]


def _said(
    what: str, formula: str, numbers: dict[str, object], result: object, unit: str, source: str, of: str
) -> dict[str, object]:
    return step(what=what, formula=formula, numbers=numbers, result=result, unit=unit, source=source, of=of)


def _count_step(entries: int, found: int) -> dict[str, object]:
    return step(
        what="Clashes found",
        formula="walks and mows that are not struck out, looked at in the order done",
        numbers={"entries": entries},
        result=found,
        unit="clashes",
        source=DEFINITION,
    )
