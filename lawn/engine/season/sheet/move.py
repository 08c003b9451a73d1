"""What moving a step of the plan to other days would break: asked at each week it is moved over."""

from lawn.engine.core.dates import day_number, day_text
from lawn.engine.core.numeric import group, listing, optional_number, text
from lawn.engine.core.working import DEFINITION, step
from lawn.engine.limits.check import NOT_THE_LAW, check
from lawn.engine.log.applications import is_application
from lawn.engine.log.clashes import book_of
from lawn.engine.product.label import product_rate_kg_m2
from lawn.engine.season.sheet.inputs import MOST_ROWS, products_of, steps_of
from lawn.engine.season.turning import place_of, turn_of, year_of

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    Rows = list[dict[str, Any]]

LEAD_DAYS = 14  # of usual weather before the step: as far back as a rule looks
LABEL = ("interval_days", "uses_year", "year_kg_m2", "seed_wait_days")
SORTS = {"feed": "fertilizer", "pre_emergent": "pre_emergent", "overseed": "seed", "lime": "lime"}
SAME = ("job", "kind", "rule", "date", "figure", "ceiling")


def moved(
    *,
    move: dict[str, object],
    steps: list[object],
    products: list[object],
    entries: list[object],
    zones: list[object],
    rules: list[object],
    today: str,
    place: str | None = None,
    soil_tests: list[object] | None = None,
    climate: object = None,
) -> "tuple[dict[str, object], list[dict[str, object]]]":
    """Which rules a step breaks on its new days, by itself or with what was done and what is planned (limits.check).

    It is held to them on its first and on its last day, other steps on their first. Of coming weather the usual year
    is known, so that heat and frost speak; rain is not.

    Args:
        move: the step and its new days [group of values]
        move.step: the step [text]
        move.from: its new first day [date]
        move.to: its new last day [date]
        steps: steps of the plan, as season.sheet takes them [list as season.sheet]
        products: what labels say; what else one says may stand there too [list]
        products.id: the product [text]
        products.sort?: what it is; by the job of the step when not said [text]
        products.net_kg?: weight of a bag [kg; 0.01 to 2000]
        products.coverage_m2?: ground a bag covers: with its weight the most at once [m2; 0.5 to 100000]
        products.n_percent?: nitrogen on the label [%; 0 to 100]
        products.p2o5_percent?: phosphate on the label [%; 0 to 100]
        products.slow_n_share?: slow-release share of its nitrogen [share; 0 to 1]
        products.interval_days?: least days between two uses by its label [day; 0 to 365]
        products.uses_year?: most uses in a year by its label [uses; 0 to 100]
        products.year_kg_m2?: most of it in a year by its label [kg/m2; 0 to 50]
        products.seed_wait_days?: days from it to sowing by its label [day; 0 to 400]
        entries: the log, as record.clashes takes it [list as record.clashes]
        zones: the zones, as limits.check takes them [list as limits.check]
        rules: rules as limits.rules gives them [list as limits.check]
        today: the day of moving [date]
        place?: key of the place; not known when not said [text]
        soil_tests?: soil tests, as limits.check takes them [list as limits.check]
        climate?: the place's usual year, as season.sheet takes it [group of values]
        climate.daily_mean_c?: usual mean of each day, 1 January first, 29 February among them [list of numbers]
        climate.monthly_mean_c?: means of the twelve months instead, January first [list of numbers]
        climate.warmest_c?: mean of the warmest month, where the twelve are not known [C; -60 to 60]
        climate.coldest_c?: mean of the coldest month, with it [C; -60 to 60]
        climate.southern?: true where January is warm; asked for only with these two [true or false]
    Returns:
        breaches: rules the step breaks, or makes another break; one row for zones that break it alike [list]
        breaches.job: the step or entry that breaks it [text]
        breaches.own: whether that is the step moved [true or false]
        breaches.others: other steps and entries that count in it [list of texts]
        breaches.zones: the zones [list of texts]
        breaches.rule: the rule, by its id [text]
        breaches.kind: what it is about, as limits.check has it [one of
            all_days, all_once, closed, cold, drought, frozen, gentle_once, heat, label_interval, label_rate,
            label_uses, label_year, lime_nitrogen, lime_once, lime_twice, pesticide_ban, phosphate, phosphate_once,
            phosphate_year, pre_after_seed, pre_twice, quick_days, quick_once, saturated, seed_after_pre, slow_least,
            spacing_quick, spacing_slow, summer_ban, water, water_in, year, young]
        breaches.date: the day it is broken on [date]
        breaches.figure: what was found; null where nothing is measured [number or null]
        breaches.ceiling: what the rule allows, likewise [number or null]
        breaches.unit: unit of both, likewise [text or null]
        breaches.source: who says so [text]
        breaches.since: as of when, where the rule says it [text or null]
        breaches.says: what to do and why, in plain words [text]
        breaches.right_from: the day from which it would be right, null where waiting alone does not help [date or null]
        breaches.loosens: which answers would loosen it, as sentences [list of texts]
        past: whether its last day would lie before today [true or false]
        not_the_law: that this is not the law, in a sentence [text]
    Raises:
        out_of_range: a number is outside its range
        wrong_type: a date is none
        not_a_choice: a rule is of no known kind
    Source: definition
    """
    now = day_number("today", today)
    asked = group("move", move, ("step", "from", "to"))
    name = text("move.step", asked.get("step"))
    first = day_number("move.from", asked.get("from"))
    last = max(first, day_number("move.to", asked.get("to")))
    shed = _labels(products)
    planned = [one for one in steps_of(steps) if one["id"] == name or _counts(one, now)]
    ground = [_id(zone) for zone in listing("zones", zones, 0, MOST_ROWS)]
    for one in planned:
        one["zones"] = [zone for zone in one["zones"] if zone in ground]  # those that are zones still
    done = _done(entries, now, ground)
    days = _usual(climate, first, last)
    given: dict[str, Any] = {
        "zones": zones,
        "rules": rules,
        "place": place,
        "soil_tests": soil_tests,
        "days": days,
        "products": [_label(one, shed[one]) for one in sorted(shed)],
    }
    found: Rows = []
    steps_found: Rows = []
    for day in [first] if first == last else [first, last]:
        jobs: list[Any] = done + [
            job for one in planned for job in _jobs(one, day if one["id"] == name else None, shed)
        ]
        value, working = check(jobs=jobs, **given)
        mine = [one for one in value["breaches"] if name == one["job"] or name in one["others"]]  # type: ignore[attr-defined]
        found.extend(mine)
        steps_found.extend([row for row in working if row.get("of") in [one["job"] for one in mine]])
    rows = _together(found, name)
    steps_found.append(_counted(len(rows), len(planned), len(done)))
    return {"breaches": rows, "past": last < now, "not_the_law": NOT_THE_LAW}, steps_found


def _labels(products: object) -> "dict[str, dict[str, Any]]":
    """Labels by product: what the sheet reads of them, and what the rules do."""
    shed = products_of(products)
    for at, row in enumerate(listing("products", products, 0, MOST_ROWS)):
        path = "products[" + str(at) + "]"
        given = row if isinstance(row, dict) else group(path, row, ())
        one = shed[text(path + ".id", given.get("id"))]
        one["sort"] = None if given.get("sort") is None else text(path + ".sort", given.get("sort"))
        for name in ("coverage_m2", "p2o5_percent") + LABEL:
            one[name] = optional_number(path + "." + name, given.get(name))
    return shed


def _label(product_id: str, one: "dict[str, Any]") -> "dict[str, Any]":
    """What limits.check takes of a label."""
    found: dict[str, Any] = {name: one[name] for name in LABEL if one[name] is not None}
    found["id"] = product_id
    if one["net_kg"] is not None and one["coverage_m2"] is not None:
        found["label_kg_m2"] = product_rate_kg_m2(net_kg=one["net_kg"], coverage_m2=one["coverage_m2"])
    return found


def _counts(one: "dict[str, Any]", now: int) -> bool:
    """A step that was done stands in the log; one put off, or whose days have passed, is not going to be done then."""
    return bool(one["state"] == "planned" and one["to"] >= now)


def _jobs(one: "dict[str, Any]", day: int | None, shed: "dict[str, dict[str, Any]]") -> "Rows":
    """A step as jobs that limits.check takes, one a zone."""
    product = shed.get(one["product"], {})
    sort = product.get("sort") or SORTS.get(one["job"], "other")
    job: dict[str, Any] = {"id": one["id"], "date": day_text(one["from"] if day is None else day), "sort": sort}
    if one["product"] is not None:
        job["product"] = one["product"]
    rate = one["rate_kg_m2"]
    job["n_kg_m2"] = 0.0
    if rate is not None:
        job["rate_kg_m2"] = rate
        for name, percent in (("n_kg_m2", "n_percent"), ("p2o5_kg_m2", "p2o5_percent")):
            job[name] = rate * (product.get(percent) or 0.0) / 100.0
    if product.get("slow_n_share") is not None:
        job["slow_n_share"] = product["slow_n_share"]
    found = []
    for zone in one["zones"]:
        each = dict(job)
        each["zone"] = zone
        found.append(each)
    return found


def _done(entries: "list[object]", now: int, zones: "list[str]") -> "Rows":
    """What the log says was put down, as jobs; ground that is no zone any more is let go."""
    found = []
    for row in book_of(entries=entries, now=now):
        for dose in row["doses"] if is_application(row=row) else []:
            if dose["zone_id"] not in zones:
                continue
            job: dict[str, Any] = {"id": row["id"], "date": row["date"], "zone": dose["zone_id"], "sort": row["sort"]}
            told = {"product": row["product_id"], "slow_n_share": row["slow_n_share"]}
            told.update({name: dose[name] for name in ("n_kg_m2", "p2o5_kg_m2")})
            job.update({name: told[name] for name in told if told[name] is not None})
            if row["phosphate_needed"]:
                job["phosphate_needed"] = True
            found.append(job)
    return found


def _id(zone: object) -> str:
    return str(zone.get("id")) if isinstance(zone, dict) else ""


def _usual(climate: object, first: int, last: int) -> "list[dict[str, Any]] | None":
    """Usual warmth of the days about a step; nothing where the climate is not known."""
    if climate is None:
        return None
    given = climate if isinstance(climate, dict) else group("climate", climate, ())
    year = year_of({name: given[name] for name in given if name != "jobs"})
    found = []
    for day in range(first - LEAD_DAYS, last + 1):
        at = turn_of(year, place_of("date", day_text(day)))
        found.append({"date": day_text(day), "mean_c": year["air"][at], "soil_c": year["soil"][at]})
    return found


def _together(found: "Rows", name: str) -> "Rows":
    """One row for zones that break a rule alike; of two days that break it the first is told."""
    rows: Rows = []
    for one in found:
        same = [row for row in rows if all(row[key] == one[key] for key in SAME)]
        told = [row for row in rows if row["rule"] == one["rule"] and row["job"] == one["job"]]
        if same:
            same[0]["zones"].extend([one["zone"]] if one["zone"] not in same[0]["zones"] else [])
        elif not any(one["zone"] in row["zones"] for row in told):
            rows.append(_row(one, name))
    return rows


def _row(one: "dict[str, Any]", name: str) -> "dict[str, Any]":
    row = {key: one[key] for key in SAME}
    for key in ("others", "unit", "source", "since", "says", "right_from", "loosens"):
        row[key] = one[key]
    row["own"], row["zones"] = one["job"] == name, [one["zone"]]
    return row


def _counted(breaches: int, planned: int, done: int) -> "dict[str, object]":
    return step(
        what="Rules broken",
        formula="rules that the step breaks on its first and its last day, or makes another break",
        numbers={"steps": planned, "done": done},
        result=breaches,
        unit="rules",
        source=DEFINITION,
    )
