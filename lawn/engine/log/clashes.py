"""What was done to the same grass that does not go together, found once all entries stand in one book."""

from lawn.engine.core.dates import day_number
from lawn.engine.core.errors import repeated
from lawn.engine.core.numeric import group, listing, number, optional_number, text
from lawn.engine.log.applications import applications_of, by_zone, is_application
from lawn.engine.log.clash_steps import count_step, steps_of
from lawn.engine.log.entries import in_order, split_ahead, with_doses
from lawn.engine.log.too_much import windows, years
from lawn.engine.log.too_near import too_near

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

MOST_PRODUCTS = 1000
JOB_DAYS = 14  # a mow noted twice harms nothing and is asked about for two weeks
LOOK_BACK_DAYS = 365
CEILINGS = ("n_year_kg_m2", "n_once_kg_m2", "n_quick_once_kg_m2", "p2o5_once_kg_m2", "p2o5_year_kg_m2")


def clashes(
    *, entries: list[object], today: str, products: list[object] | None = None, ceilings: list[object] | None = None
) -> tuple[dict[str, object], list[dict[str, object]]]:
    """Entries that do not go together, each clash under a key that stays the same until another entry joins it.

    Whoever did them. Too near: interval (a product again before the days of its label, or, where none are entered, two
    feeds less than 7 days apart), pre_twice, seed_after_pre, pre_after_seed, young (a weed spray on new grass),
    lime_twice and lime_nitrogen. Too much: quick (quick nitrogen over any 28 days against the ceiling of one feed),
    all_n (all nitrogen over any 42 days likewise), phosphate (over any 365 days) and nitrogen (in the calendar year,
    or in the last 365 days). same_job: two people noted a mow of one zone on one day. step_twice: a step
    of the season plan was done by more than one entry, whatever its kind. What lies more than a year back
    is no longer asked about (a mow: 14 days), nor what is dated more than a day ahead, which has not been done.

    Args:
        entries: spreading jobs and mows in any order; other entries and fields may stand among them [list]
        entries.id: the entry, once only [text]
        entries.kind: mow, spread, pass, observation, stock_count or tray_test [text]
        entries.occurred_at: moment it was done [moment]
        entries.by?: who did it [text]
        entries.step_id?: step of the season plan that it does [text]
        entries.void?: struck out [true or false]
        entries.zone_ids?: zones it was done on [list of texts]
        entries.product_id?: product of a spreading job [text]
        entries.sort?: sort of the product [text]
        entries.slow_n_share?: slow-release share of its nitrogen; none of it when not said [share; 0 to 1]
        entries.phosphate_needed?: a soil test asked for its phosphate, or it was for seeding [true or false]
        entries.zones?: of a spreading job, for each zone what it got [list]
        entries.zones.zone_id: the zone [text]
        entries.zones.n_kg_m2?: nitrogen on it; null if unknown [kg/m2 or null; 0 to 5]
        entries.zones.n_most_kg_m2?: nitrogen where most of it fell, where known [kg/m2 or null; 0 to 5]
        entries.zones.p2o5_kg_m2?: phosphate on it, where known [kg/m2 or null; 0 to 5]
        entries.zones.used_kg?: product on it, where known; only whether it is 0 is read [kg or null]
        today: the day asked about [date]
        products?: products with what their labels say [list]
        products.id: the product, once only [text]
        products.interval_days?: least days between applications [day; 0 to 365]
        ceilings?: zones with their ceilings, as `limits.ceilings` gives them; each may be left out [list]
        ceilings.zone_id: the zone, once only [text]
        ceilings.n_year_kg_m2?: nitrogen of the year at most [kg/m2 or null; 0 to 5]
        ceilings.n_once_kg_m2?: nitrogen of one feed at most [kg/m2 or null; 0 to 5]
        ceilings.n_quick_once_kg_m2?: its quick part at most [kg/m2 or null; 0 to 5]
        ceilings.p2o5_once_kg_m2?: phosphate at once at most [kg/m2 or null; 0 to 5]
        ceilings.p2o5_year_kg_m2?: phosphate of the year at most [kg/m2 or null; 0 to 5]
    Returns:
        clashes: newest first [list]
        clashes.key: stays the same until another entry joins [text]
        clashes.kind: what clashes [one of interval, pre_twice, seed_after_pre, pre_after_seed, young, lime_twice,
            lime_nitrogen, quick, all_n, phosphate, nitrogen, same_job, step_twice]
        clashes.entry_ids: the entries in the order done [list of texts]
        clashes.zone_ids: the zones it is about [list of texts]
        clashes.date: day of the latest [date]
        clashes.product_id: the product; null where two met [text or null]
        clashes.days_between: days between them; null unless two lie too near [day or null]
        clashes.interval_days: days that should lie between; null likewise [day or null]
        clashes.assumed: true where no label says the days [true or false]
        clashes.n_year_kg_m2: nitrogen of the year; null unless kind is nitrogen [kg/m2 or null]
        clashes.amount_kg_m2: what was added up; null unless it is too much [kg/m2 or null]
        clashes.ceiling_kg_m2: what it passed; null likewise [kg/m2 or null]
        clashes.window_days: days it was added up over; null unless it was [day or null]
        clashes.source: where the rule is printed [text]
    Raises:
        out_of_range: a number is outside its range
        wrong_type: a moment or date is none
        repeated: an entry, a product or a zone stands twice in its list
    Source: definition
    """
    now = day_number("today", today)
    known = {"intervals": intervals_of(products=products), "ceilings": ceilings_of(ceilings=ceilings)}
    book = book_of(entries=entries, now=now)
    found = found_in(book=book, known=known, today=now, fewest=2)
    found.extend(_twice([row for row in book if row["kind"] == "mow"], now))
    found.extend(_steps_twice(book))
    recent = [one for one in found if now - day_number("date", one["date"]) <= LOOK_BACK_DAYS]
    recent.sort(key=lambda one: (one["date"], one["key"]), reverse=True)
    working = [row for one in recent for row in steps_of(clash=one)]
    working.append(count_step(entries=len(book), found=len(recent)))
    return {"clashes": [_shown(one) for one in recent]}, working


def book_of(*, entries: list[object], now: int) -> "list[dict[str, Any]]":
    """Every entry that counts, in the order done, walks with what they brought; none dated more than a day ahead.

    Args:
        entries: the entries in any order, as `record.clashes` takes them [list]
        now: the day asked about, as a day number [day]
    Returns:
        rows: each as its checked fields [list]
    Raises:
        out_of_range: a number is outside its range
        wrong_type: a moment is none
        repeated: an entry stands twice in the list
    Source: definition
    """
    rows, _ = split_ahead(rows=in_order(entries=entries), now=now)
    given = {item["id"]: item for item in entries if isinstance(item, dict)}
    return [with_doses(spread=row, given=given[row["id"]]) if is_application(row=row) else row for row in rows]


def found_in(
    *, book: "list[dict[str, Any]]", known: "dict[str, Any]", today: int, fewest: int
) -> "list[dict[str, Any]]":
    """Every clash among the applications of a book, of all years.

    Args:
        book: the entries, as `book_of` gives them [list]
        known: intervals by product and ceilings by zone [group of values]
        today: the day asked about, as a day number [day]
        fewest: applications it takes to pass a ceiling: 2 for a log, 1 for a job not yet begun [applications]
    Returns:
        clashes: each clash with what its working needs [list]
    Source: definition
    """
    zones = by_zone(spreads=applications_of(rows=book))
    mows: dict[str, list[float]] = {}
    for row in book:
        for zone_id in row["zone_ids"] if row["kind"] == "mow" else []:
            mows.setdefault(zone_id, []).append(row["moment_s"])
    found: dict[str, Any] = {}
    for pair in too_near(zones=zones, intervals=known["intervals"], mows=mows):
        _add_pair(found, pair)
    for passed in windows(zones=zones, ceilings=known["ceilings"], fewest=fewest):
        _add_passed(found, passed, ":" + passed["rows"][0][0]["id"])
    for passed in years(zones=zones, ceilings=known["ceilings"], today=today, fewest=fewest):
        year = passed["rows"][-1][0]["year"] if passed["window_days"] is None else passed["window_days"]
        _add_passed(found, passed, ":" + str(year))
    return [found[key] for key in sorted(found)]


def intervals_of(*, products: object) -> dict[str, float | None]:
    """Least days between applications of each product that has them entered.

    Args:
        products: products with id and interval_days, or nothing [list]
    Returns:
        intervals: by product id [group of values]
    Raises:
        out_of_range: a number is outside its range
        repeated: a product stands twice in the list
    Source: definition
    """
    found: dict[str, float | None] = {}
    for at, item in enumerate(listing("products", products, 0, MOST_PRODUCTS) if products is not None else []):
        here = "products[" + str(at) + "]"
        row = group(here, item, ("id", "interval_days"))
        one = text(here + ".id", row.get("id"))
        if one in found:
            raise repeated(here, one, "This one stands twice in the list.")
        found[one] = optional_number(here + ".interval_days", row.get("interval_days"))
    return found


def ceilings_of(*, ceilings: object) -> "dict[str, dict[str, float | None]]":
    """The ceilings of each zone.

    Args:
        ceilings: zones with their ceilings, or nothing [list]
    Returns:
        ceilings: by zone id [group of values]
    Raises:
        out_of_range: a number is outside its range
        repeated: a zone stands twice in the list
    Source: definition
    """
    found: dict[str, dict[str, float | None]] = {}
    for at, item in enumerate(listing("ceilings", ceilings, 0, MOST_PRODUCTS) if ceilings is not None else []):
        here = "ceilings[" + str(at) + "]"
        row = group(here, item, ("zone_id",) + CEILINGS)
        one = text(here + ".zone_id", row.get("zone_id"))
        if one in found:
            raise repeated(here, one, "This one stands twice in the list.")
        found[one] = {name: _ceiling(here + "." + name, row.get(name)) for name in CEILINGS}
    return found


def _ceiling(name: str, value: object) -> float | None:
    return None if value is None else number(name, value)


def _add_pair(found: "dict[str, Any]", pair: "dict[str, Any]") -> None:
    key = pair["kind"] + ":" + pair["before"]["id"] + ":" + pair["after"]["id"]
    if key not in found:
        clash = _clash(pair["kind"], key, [pair["before"], pair["after"]])
        clash["product_id"] = pair["after"]["product_id"] if pair["same"] else None
        for name in ("days_between", "interval_days", "assumed", "source"):
            clash[name] = pair[name]
        found[key] = clash
    if pair["zone_id"] not in found[key]["zone_ids"]:
        found[key]["zone_ids"].append(pair["zone_id"])


def _add_passed(found: "dict[str, Any]", passed: "dict[str, Any]", since: str) -> None:
    rows = [spread for spread, _ in passed["rows"]]
    key = passed["kind"] + ":" + passed["zone_id"] + since + ":" + str(len(rows)) + ":" + rows[-1]["id"]
    clash = _clash(passed["kind"], key, rows)
    clash["zone_ids"] = [passed["zone_id"]]
    for name in ("amount_kg_m2", "ceiling_kg_m2", "window_days", "source"):
        clash[name] = passed[name]
    if passed["kind"] == "nitrogen":
        clash["n_year_kg_m2"] = passed["amount_kg_m2"]
    clash["addends"] = [(spread["date"], amount) for spread, amount in passed["rows"]]
    found[key] = clash


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
            clash = pairs.setdefault(key, _clash("same_job", key, [before, mow]))
            if zone_id not in clash["zone_ids"]:
                clash["zone_ids"].append(zone_id)
    return [pairs[key] for key in sorted(pairs)]


def _steps_twice(book: "list[dict[str, Any]]") -> "list[dict[str, Any]]":
    """Steps of the plan that more than one entry says it did: two phones that did not know of each other."""
    done: dict[str, list[dict[str, Any]]] = {}
    for row in book:
        if row["step_id"] is not None:
            done.setdefault(row["step_id"], []).append(row)
    found = []
    for step_id in sorted(done):
        rows = done[step_id]
        if len(rows) < 2:
            continue
        clash = _clash("step_twice", "step_twice:" + step_id + ":" + str(len(rows)) + ":" + rows[-1]["id"], rows)
        for row in rows:
            clash["zone_ids"] += [one for one in row["zone_ids"] if one not in clash["zone_ids"]]
        products = [row["product_id"] for row in rows]
        clash["product_id"] = products[0] if products.count(products[0]) == len(products) else None
        found.append(clash)
    return found


def _two_people(before: "dict[str, Any]", after: "dict[str, Any]") -> bool:
    return before["by"] is not None and after["by"] is not None and before["by"] != after["by"]


def _clash(kind: str, key: str, rows: "list[dict[str, Any]]") -> "dict[str, Any]":
    return {
        "key": key,
        "kind": kind,
        "entry_ids": [row["id"] for row in rows],
        "zone_ids": [],
        "date": max([row["date"] for row in rows]),
        "product_id": None,
        "days_between": None,
        "interval_days": None,
        "assumed": False,
        "n_year_kg_m2": None,
        "amount_kg_m2": None,
        "ceiling_kg_m2": None,
        "window_days": None,
        "source": "common practice",
        "addends": [],
    }


def _shown(clash: "dict[str, Any]") -> "dict[str, Any]":
    """A clash without what only its working needed."""
    return {name: clash[name] for name in clash if name != "addends"}
