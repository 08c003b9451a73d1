"""What speaks against a job before it is begun: the rules that find clashes in the log, asked with the job in it."""

from lawn.engine.core.dates import day_number, day_text, moment_s, year_of
from lawn.engine.core.errors import EngineError
from lawn.engine.core.numeric import at_least, flag, group, listing, optional_number, text, total
from lawn.engine.log.applications import SPREAD, applications_of, by_zone
from lawn.engine.log.clash_steps import count_step, steps_of
from lawn.engine.log.clashes import book_of, ceilings_of, found_in, intervals_of
from lawn.engine.log.entries import with_doses
from lawn.engine.log.too_much import WINDOWS, first_day, next_year
from lawn.engine.nutrition.spacing import YEAR_DAYS

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

THIS_JOB = "this job"
MOST_ZONES = 60
JOB = ("product_id", "sort", "at", "by", "slow_n_share", "phosphate_needed", "rate_kg_m2", "zones")
ADDED_UP = {"nitrogen": "n_kg_m2"}
ADDED_UP.update({row[0]: row[1] for row in WINDOWS})


def before(
    *,
    job: dict[str, object],
    entries: list[object],
    products: list[object] | None = None,
    ceilings: list[object] | None = None,
    lime_once_kg_m2: float | None = None,
) -> tuple[dict[str, object], list[dict[str, object]]]:
    """Warnings to be answered before a job: what would clash once it is in the log, and from which day it would not.

    Args:
        job: what is about to be put down [group of values]
        job.product_id: its product [text]
        job.sort: sort of the product [text]
        job.at: moment it is to be done [moment]
        job.by?: who does it [text]
        job.slow_n_share?: slow-release share of its nitrogen; none of it when not said [share; 0 to 1]
        job.phosphate_needed?: a soil test asks for its phosphate, or it is for seeding [true or false]
        job.rate_kg_m2?: product per area [kg/m2; 0 to 50]
        job.zones: the zones it is for [list]
        job.zones.zone_id: the zone [text]
        job.zones.n_kg_m2?: nitrogen for it, where known [kg/m2; 0 to 5]
        job.zones.p2o5_kg_m2?: phosphate for it, where known [kg/m2; 0 to 5]
        entries: the log, as `record.clashes` takes it [list as record.clashes]
        products?: products with what their labels say, likewise [list as record.clashes]
        ceilings?: zones with their ceilings, likewise [list as record.clashes]
        lime_once_kg_m2?: lime at once at most [kg/m2; 0 to 50]
    Returns:
        warnings: what speaks against it, the label first [list]
        warnings.key: stays the same while it is about the same [text]
        warnings.kind: as `record.clashes` has them, less same_job and step_twice, which are about the log, and
            phosphate_once, lime_once [one of interval, pre_twice, seed_after_pre, pre_after_seed, young, lime_twice,
            lime_nitrogen, quick, all_n, phosphate, nitrogen, phosphate_once, lime_once]
        warnings.assumed: true where no label says it [true or false]
        warnings.interval_days: days that should lie between; null unless two lie too near [day or null]
        warnings.window_days: days it was added up over; null unless it was [day or null]
        warnings.ceiling_kg_m2: what is allowed; null unless it is too much [kg/m2 or null]
        warnings.source: where that is printed [text]
        warnings.right_from: the day from which it would be right on all the zones, null where only less or another
            product would be [date or null]
        warnings.zones: the zones it is about [list]
        warnings.zones.zone_id: the zone [text]
        warnings.zones.date: day of the job before, null where there was none [date or null]
        warnings.zones.days_between: days since then, likewise [day or null]
        warnings.zones.amount_kg_m2: what would be down; null unless it is too much [kg/m2 or null]
        warnings.zones.right_from: the day from which it would be right on this zone; null as above [date or null]
    Raises:
        out_of_range: a number is outside its range
        wrong_type: a moment is none
        repeated: an entry, a product or a zone stands twice in its list
    Source: definition
    """
    planned = _planned(job)
    book = book_of(entries=entries, now=planned["day"])
    at = len([row for row in book if row["moment_s"] <= planned["moment_s"]])
    book.insert(at, planned)
    known: dict[str, Any] = {"intervals": intervals_of(products=products), "ceilings": ceilings_of(ceilings=ceilings)}
    today = planned["day"]
    found = [one for one in found_in(book=book, known=known, today=today, fewest=1) if THIS_JOB in one["entry_ids"]]
    found.extend(_at_once(planned, known["ceilings"], optional_number("lime_once_kg_m2", lime_once_kg_m2, 0.0, 50.0)))
    zones = by_zone(spreads=[row for row in applications_of(rows=book) if row["id"] != THIS_JOB])
    dates = {row["id"]: row["date"] for row in book}
    groups: dict[str, Any] = {}
    for one in found:
        _into(groups, one, _rows(one, planned, zones, dates))
    warnings = [_whole(groups[key]) for key in sorted(groups)]
    warnings.sort(key=lambda one: (one["assumed"], one["key"]))
    working = [row for one in found for row in steps_of(clash=_for_group(one))]
    working.append(count_step(entries=len(book), found=len(warnings)))
    return {"warnings": warnings}, working


def _planned(job: object) -> "dict[str, Any]":
    """The job as an entry of the log, checked."""
    given = group("job", job, JOB)
    occurred_at = text("job.at", given.get("at"))
    slow = optional_number("job.slow_n_share", given.get("slow_n_share"))
    rows: list[Any] = []
    for at, item in enumerate(listing("job.zones", given.get("zones"), 0, MOST_ZONES)):
        path = "job.zones[" + str(at) + "]"
        zone = group(path, item, ("zone_id", "n_kg_m2", "p2o5_kg_m2"))
        zone_id = text(path + ".zone_id", zone.get("zone_id"))
        if any(row[0] == zone_id for row in rows):
            raise EngineError(code="repeated", name=path + ".zone_id", value=zone_id, message="This zone stands twice.")
        rows.append((zone_id, _nitrogen(path, zone.get("n_kg_m2"), given.get("sort"))))
    by = given.get("by")
    spread = {
        "id": THIS_JOB,
        "kind": SPREAD,
        "moment_s": moment_s("job.at", occurred_at),
        "occurred_at": occurred_at,
        "date": occurred_at[:10],
        "year": year_of(day_number("job.at", occurred_at)),
        "zone_ids": [row[0] for row in rows],
        "product_id": text("job.product_id", given.get("product_id")),
        "sort": text("job.sort", given.get("sort")),
        "by": None if by is None else text("job.by", by),
        "zones": rows,
        "slow_n_share": slow,
        "phosphate_needed": flag("job.phosphate_needed", given.get("phosphate_needed")),
        "rate_kg_m2": optional_number("job.rate_kg_m2", given.get("rate_kg_m2"), 0.0, 50.0),
    }
    return with_doses(spread=spread, given=given)


def _nitrogen(path: str, n_kg_m2: object, sort: object) -> float | None:
    """Nitrogen of the job on a zone; sorts that bring none count as none where nobody entered it."""
    found = optional_number(path + ".n_kg_m2", n_kg_m2)
    if found is None and sort in ("seed", "lime", "pre_emergent", "post_emergent"):
        return 0.0
    return found


def _at_once(
    planned: "dict[str, Any]", ceilings: "dict[str, dict[str, Any]]", lime_kg_m2: float | None
) -> "list[dict[str, Any]]":
    """What this one job alone brings too much of; nitrogen of one feed is found by its days."""
    found = []
    for dose in planned["doses"]:
        limit = ceilings.get(dose["zone_id"], {}).get("p2o5_once_kg_m2")
        amount = None if planned["phosphate_needed"] else dose["p2o5_kg_m2"]
        found.append(_alone("phosphate_once", planned, dose["zone_id"], amount, limit, "UF-POLK"))
        amount = planned["rate_kg_m2"] if planned["sort"] == "lime" else None
        found.append(_alone("lime_once", planned, dose["zone_id"], amount, lime_kg_m2, "ORST-TF-LIME"))
    return [one for one in found if one is not None]


def _alone(
    kind: str, planned: "dict[str, Any]", zone_id: str, amount: float | None, limit: float | None, source: str
) -> "dict[str, Any] | None":
    if amount is None or limit is None or at_least(limit, amount):
        return None
    clash: dict[str, Any] = {"kind": kind, "entry_ids": [THIS_JOB], "zone_ids": [zone_id], "assumed": True}
    clash["days_between"] = clash["interval_days"] = clash["window_days"] = None
    clash["amount_kg_m2"], clash["ceiling_kg_m2"], clash["source"] = amount, limit, source
    clash["addends"] = [(planned["date"], amount)]
    return clash


def _rows(
    one: "dict[str, Any]", planned: "dict[str, Any]", zones: "dict[str, Any]", dates: dict[str, str]
) -> "list[dict[str, Any]]":
    """For each zone of a finding: what was before, how near or how much, and from when the job would be right."""
    others = [entry_id for entry_id in one["entry_ids"] if entry_id != THIS_JOB]
    date = dates[others[-1]] if others else None
    rows = []
    for zone_id in one["zone_ids"]:
        day = _right_day(one, zone_id, planned, zones.get(zone_id, []), date)
        rows.append(
            {
                "zone_id": zone_id,
                "date": date,
                "days_between": one["days_between"],
                "amount_kg_m2": one["amount_kg_m2"],
                "right_from": None if day is None else day_text(day),
            }
        )
    return rows


def _right_day(
    one: "dict[str, Any]",
    zone_id: str,
    planned: "dict[str, Any]",
    done: "list[dict[str, Any]]",
    date: str | None,
) -> int | None:
    if one["interval_days"] is not None and date is not None:
        return day_number("date", date) + int(-(-one["interval_days"] // 1))
    what = ADDED_UP.get(one["kind"])
    if what is None:
        return None
    amount = one["addends"][-1][1] if one["kind"] != "nitrogen" else _of(planned, zone_id)
    past = [(row["day"], row[what]) for row in done if row[what]]
    days, today, limit = one["window_days"] or YEAR_DAYS[0], planned["day"], one["ceiling_kg_m2"]
    day = first_day(rows=past, planned=amount, limit=limit, days=days, today=today)
    if day is None or one["kind"] != "nitrogen" or year_of(day) != planned["year"]:
        return day
    this_year = [kg_m2 for then, kg_m2 in past if year_of(then) == planned["year"]]
    return day if at_least(limit, total(this_year + [amount])) else next_year(today=today)


def _of(planned: "dict[str, Any]", zone_id: str) -> float:
    found = [dose["n_kg_m2"] for dose in planned["doses"] if dose["zone_id"] == zone_id]
    return float(found[0] or 0.0)


def _group_key(one: "dict[str, Any]") -> str:
    """One warning a rule: the label's own days apart from those of the trade."""
    return str(one["kind"]) + (":label" if one["kind"] == "interval" and not one["assumed"] else "")


def _for_group(one: "dict[str, Any]") -> "dict[str, Any]":
    shown = dict(one)
    shown["key"] = _group_key(one)
    return shown


def _into(groups: "dict[str, Any]", one: "dict[str, Any]", rows: "list[dict[str, Any]]") -> None:
    key = _group_key(one)
    if key not in groups:
        groups[key] = {name: one[name] for name in ("kind", "assumed", "interval_days", "window_days", "source")}
        groups[key]["ceiling_kg_m2"] = one["ceiling_kg_m2"]
        groups[key]["assumed"] = not key.endswith(":label")
        groups[key]["key"], groups[key]["zones"], groups[key]["others"] = key, [], []
    kept = groups[key]
    if one["ceiling_kg_m2"] is not None:
        kept["ceiling_kg_m2"] = min(kept["ceiling_kg_m2"], one["ceiling_kg_m2"])
    for row in rows:
        kept["zones"] = [have for have in kept["zones"] if have["zone_id"] != row["zone_id"]] + [row]
    kept["others"] = sorted(set(kept["others"] + [each for each in one["entry_ids"] if each != THIS_JOB]))


def _whole(kept: "dict[str, Any]") -> "dict[str, Any]":
    """A warning over all its zones: right from the latest of their days, or never where one has none."""
    days = [row["right_from"] for row in kept["zones"]]
    shown = {name: kept[name] for name in kept if name not in ("key", "others")}
    shown["right_from"] = None if None in days else max(days)
    shown["key"] = ":".join([kept["key"]] + kept["others"])
    return shown
