"""The dated jobs: each a yes or no in the weeks of its window, with what rules one out beside another."""

from lawn.engine.core.dates import day_text
from lawn.engine.core.numeric import total
from lawn.engine.nutrition.ceilings import GENTLE_ONCE_KG_M2
from lawn.engine.nutrition.spacing import ALL_DAYS, LIME_DAYS, LIME_NITROGEN_DAYS, PRE_DAYS, SOW_DAYS, YOUNG_DAYS
from lawn.engine.season.inputs import OF_JOB
from lawn.engine.season.model import JOB_WORDS, in_week
from lawn.engine.season.needs import WEEK
from lawn.engine.season.turning import next_open
from lawn.engine.season.windows import job_of, span_of

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    from lawn.engine.season.model import Model

SOONER = 0.01  # a week later costs so much: of two weeks alike the first is taken
LIME_ONCE_KG_M2 = 0.2441214  # 50 lb per 1,000 ft2, the rest half a year later (ORST-TF-LIME, NC-GASTER)


def add_jobs(model: "Model", plan: "dict[str, Any]", of: "dict[str, Any]", rows: "list[Any]") -> None:
    """Columns of a group's dated jobs, one a week and product, and one for each job left out."""
    of["jobs_there"] = []
    for at in range(len(rows)):
        row = rows[at]
        if row.get("sort") not in of["jobs"] or row.get("turf", of["turf"]) != of["turf"]:
            continue
        weeks = _weeks(plan, of, "climate.jobs[" + str(at) + "]", row)
        products = [one for one in plan["products"] if one["sort"] == OF_JOB.get(row["sort"])]
        allowed = [one for one in products if of["phosphate"] or one["p2o5_percent"] == 0.0]
        columns = []
        for week in weeks:
            for product in allowed or [None]:
                columns.append(_column(model, plan, of, row, product, week))
        of["jobs_there"] += columns
        if columns:
            _once(model, plan, of, row, columns)


def _weeks(plan: "dict[str, Any]", of: "dict[str, Any]", path: str, row: "dict[str, Any]") -> list[int]:
    """Open weeks of a window; where no Monday lies in it, the week it opens in."""
    pinned = {one["week"] for one in plan["locked"] if one["group"] == of["id"] and one["job"] == row["job"]}
    span = span_of(plan["year"], job_of(path, row))
    if span is None:
        return []
    opens = next_open(plan["year"], span[0], span[1] - span[0], plan["today"])
    closes = opens + span[1] - span[0]
    dates = {"opens": day_text(opens), "closes": day_text(closes)}
    plan["spans"].append({"group": of["id"], "job": row["job"], "opens": dates["opens"], "closes": dates["closes"]})
    weeks = plan["weeks"]
    sundays = [plan["monday"] + WEEK * (at + 1) - 1 for at in range(len(weeks))]
    found = [at for at in range(len(weeks)) if opens <= sundays[at] and weeks[at]["day"] <= closes]
    whole = [at for at in found if opens <= weeks[at]["day"] <= closes]
    shut = row["sort"] not in ("soil_test", "aerate")
    open_weeks = sorted(set(whole or found) | pinned)  # who locks a job may know better than its window
    free = [at for at in open_weeks if not (weeks[at]["skipped"] or (shut and weeks[at]["closed"]))]
    return [at for at in free if not _too_soon(plan, of, row["sort"], weeks[at]["day"])]


def _too_soon(plan: "dict[str, Any]", of: "dict[str, Any]", sort: str, day: int) -> bool:
    """Whether the same was done so lately that it may not be done again."""
    least = {"lime": LIME_DAYS[0], "pre_emergent": PRE_DAYS[0]}.get(sort, 0)
    done = [one for one in plan["done"] if one["group"] == of["id"] and _is_of(plan, one["product"], sort)]
    return any(0 <= day - one["day"] < least for one in done)


def _column(
    model: "Model", plan: "dict[str, Any]", of: "dict[str, Any]", row: "dict[str, Any]", product: "Any", week: int
) -> int:
    rate = 0.0 if product is None else product["rate_kg_m2"]
    kg = (min(rate, LIME_ONCE_KG_M2) if row["sort"] == "lime" else rate) * of["area_m2"]
    told = {
        "what": "job",
        "group": of["id"],
        "job": row["job"],
        "sort": row["sort"],
        "product": None if product is None else product["id"],
        "week": week,
        "low_kg": kg,
        "high_kg": kg,
    }
    name = "job|" + of["id"] + "|" + row["job"] + "|" + ("" if product is None else product["id"]) + "|" + str(week)
    moved = 0.0 if _was_there(plan, of, row["job"], week) else plan["wishes"]["moved_cost"]
    cost = SOONER * week + moved + (0.0 if product is None else kg * product["price_kg"])
    return model.column(name, cost, told)


def _was_there(plan: "dict[str, Any]", of: "dict[str, Any]", job: str, week: int) -> bool:
    present = plan["wishes"]["present"]
    return present is None or any(
        one["group"] == of["id"] and one["job"] == job and one["week"] == week for one in present
    )


def _once(
    model: "Model", plan: "dict[str, Any]", of: "dict[str, Any]", row: "dict[str, Any]", columns: list[int]
) -> None:
    terms: list[list[Any]] = [[column, 1.0] for column in columns]
    if not plan["wishes"]["must"]:
        told = {"what": "left_out", "group": of["id"], "job": row["job"], "sort": row["sort"]}
        cost = plan["wishes"]["job_missed_cost"]
        terms.append([model.column("left_out|" + of["id"] + "|" + row["job"], cost, told), 1.0])
    words = JOB_WORDS[row["sort"]]
    says = words[0].upper() + words[1:] + " of " + of["id"] + " has a week of its window."
    model.row("once|" + of["id"] + "|" + row["job"], 1.0, 1.0, terms, says, plan["wishes"]["must"])
    for step in plan["locked"]:
        if step["group"] == of["id"] and step["job"] == row["job"]:
            fixed = [[column, 1.0] for column in columns if model.told[column]["week"] == step["week"]]
            says = (
                words[0].upper() + words[1:] + " of " + of["id"] + " is locked in " + in_week(plan, step["week"]) + "."
            )
            model.row("locked|" + of["id"] + "|" + row["job"], 1.0, 1.0, fixed, says, True)


def add_exclusions(model: "Model", plan: "dict[str, Any]", of: "dict[str, Any]") -> None:
    """What must not stand beside one another on a group: sowing and pre-emergents, lime and quick feeds, order."""
    there = of["jobs_there"]
    sown = [at for at in there if model.told[at]["sort"] == "overseed"]
    for week in sorted({model.told[at]["week"] for at in sown}):
        now = [at for at in sown if model.told[at]["week"] == week]
        _no_sowing_after(model, plan, of, week, now)
        _gentle(model, plan, of, week, now)
        later = [at for at in there if model.told[at]["sort"] == "aerate" and model.told[at]["week"] > week]
        says = "Aeration of " + of["id"] + " comes before overseeding in " + in_week(plan, week) + "."
        _not_both(model, "aerated|" + of["id"] + "|" + str(week), now, later, says)
    _lime(model, plan, of)
    _pre_twice(model, plan, of)


def _pre_twice(model: "Model", plan: "dict[str, Any]", of: "dict[str, Any]") -> None:
    """Two pre-emergents of different windows are as far apart as one protects."""
    pres = [at for at in of["jobs_there"] if model.told[at]["sort"] == "pre_emergent"]
    days = {at: plan["weeks"][model.told[at]["week"]]["day"] for at in pres}
    for job, week in sorted({(model.told[at]["job"], model.told[at]["week"]) for at in pres}):
        now = [at for at in pres if model.told[at]["job"] == job and model.told[at]["week"] == week]
        later = [at for at in pres if 0 <= days[at] - days[now[0]] < PRE_DAYS[0] and model.told[at]["job"] != job]
        says = "Two pre-emergents on " + of["id"] + " are as far apart as one protects."
        _not_both(model, "pre|" + of["id"] + "|" + job + "|" + str(week), now, later, says)


def _gentle(model: "Model", plan: "dict[str, Any]", of: "dict[str, Any]", week: int, now: list[int]) -> None:
    """Seedlings bear little nitrogen: until they are grown what falls within six weeks stays small beside sowing."""
    n = {one["id"]: one["n"] for one in plan["products"]}
    day = plan["weeks"][week]["day"]
    days = {at: plan["weeks"][model.told[at]["week"]]["day"] for at in of["starts"]}
    kg = {at: n[model.told[at]["product"]] * model.told[at]["high_kg"] for at in of["starts"]}
    most = GENTLE_ONCE_KG_M2 * of["area_m2"]
    says = "Grass of " + of["id"] + " sown in " + in_week(plan, week) + " gets little nitrogen while it is young."
    for last in sorted({days[at] for at in of["starts"] if 0 <= days[at] - day <= YOUNG_DAYS[0]}):
        fed = [at for at in of["starts"] if 0 <= last - days[at] <= ALL_DAYS[0]]
        loose = max(most, total([kg[at] for at in fed]))
        if loose > most:
            terms = [[at, kg[at]] for at in fed] + [[at, loose - most] for at in now]
            model.row("young|" + of["id"] + "|" + str(week) + "|" + str(last - day), None, loose, terms, says, True)


def _no_sowing_after(model: "Model", plan: "dict[str, Any]", of: "dict[str, Any]", week: int, now: list[int]) -> None:
    waits = {one["id"]: one["wait_days"] or SOW_DAYS[0] for one in plan["products"]}
    day = plan["weeks"][week]["day"]
    barred = []
    for at in of["jobs_there"]:
        told = model.told[at]
        days = day - plan["weeks"][told["week"]]["day"]
        wait = waits.get(told["product"], SOW_DAYS[0])
        if told["sort"] == "pre_emergent" and (0 <= days < wait or 0 <= -days <= YOUNG_DAYS[0]):
            barred.append(at)
    says = (
        "Overseeding of "
        + of["id"]
        + " in "
        + in_week(plan, week)
        + " keeps clear of any pre-emergent, before and after."
    )
    _not_both(model, "sowing|" + of["id"] + "|" + str(week), now, barred, says)
    for one in plan["done"]:
        if one["group"] == of["id"] and _is_of(plan, one["product"], "pre_emergent"):
            if day - one["day"] >= waits[one["product"]]:
                continue
            says = "Overseeding of " + of["id"] + " waits for the pre-emergent that was put down to wear off."
            name = "worn|" + of["id"] + "|" + str(week) + "|" + str(one["day"])
            model.row(name, None, 0.0, [[at, 1.0] for at in now], says, True)


def _is_of(plan: "dict[str, Any]", product: "str | None", sort: str) -> bool:
    return any(one["id"] == product and one["sort"] == sort for one in plan["products"])


def _lime(model: "Model", plan: "dict[str, Any]", of: "dict[str, Any]") -> None:
    limed = [at for at in of["jobs_there"] if model.told[at]["sort"] == "lime"]
    fed = of["starts"]
    days = {at: plan["weeks"][model.told[at]["week"]]["day"] for at in limed}
    for week in sorted({model.told[at]["week"] for at in fed}):
        near = [at for at in limed if abs(days[at] - plan["weeks"][week]["day"]) <= LIME_NITROGEN_DAYS[0]]
        now = [at for at in fed if model.told[at]["week"] == week]
        says = "Lime on " + of["id"] + " stays a fortnight away from the feed in " + in_week(plan, week) + "."
        _not_both(model, "lime|" + of["id"] + "|" + str(week), now, near, says)


def _not_both(model: "Model", name: str, one: list[int], other: list[int], says: str) -> None:
    """One row for each job that is ruled out: two of those may well stand beside one another."""
    for job in sorted({model.told[at]["job"] for at in other}):
        barred = [at for at in other if model.told[at]["job"] == job]
        if one:
            model.row(name + "|" + job, None, 1.0, [[at, 1.0] for at in one + barred], says, True)


def day_in(plan: "dict[str, Any]", week: int) -> str:
    """The date a step of a week is shown at: its Monday, or today where that is past."""
    return day_text(plan["weeks"][week]["day"])
