"""Reads what a plan is made from: groups, products, rules, wishes, what was done and what is locked."""

from lawn.engine.core.dates import day_number
from lawn.engine.core.errors import repeated
from lawn.engine.core.numeric import choice, flag, group, listing, number, optional_number, text
from lawn.engine.season.needs import WEEK, monday_of
from lawn.engine.warmth.response import TURFS

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

MOST_GROUPS = 12
MOST_PRODUCTS = 24
MOST_ROWS = 400
JOBS = ("pre_emergent", "overseed", "lime", "aerate", "soil_test")
SORTS = ("fertilizer", "pre_emergent", "post_emergent", "lime", "seed", "other")
SOURCES = ("soluble", "sulfur_coated", "polymer_coated", "condensed", "ibdu", "natural")
OF_JOB = {"pre_emergent": "pre_emergent", "overseed": "seed", "lime": "lime"}  # the sort of product a job takes
GRIDS = ("half_month", "weekly")
EVENINGS = 2.0  # a week, where nobody said otherwise: one weeknight and one weekend day (common practice)
EVENING_MINUTES = 120.0
EVENING_COST = 2.0  # what an evening is worth, in the household's money: so that jobs share one
MISSED_FACTOR = 3.0  # nitrogen that is missing costs so many times the dearest kilogram of it
JOB_MISSED_COST = 60.0
MINUTES = 10.0  # to fill and to clean, and then so many square metres a minute
M2_MINUTE = 30.0
GROUP = (
    "id",
    "area_m2",
    "turf",
    "zones",
    "aim_n_kg_m2",
    "need_n_kg_m2",
    "n_once_kg_m2",
    "n_quick_once_kg_m2",
    "n_year_kg_m2",
    "phosphate",
    "jobs",
    "job_minutes",
)
PRODUCT = (
    "id",
    "sort",
    "net_kg",
    "price",
    "n_percent",
    "slow_n_share",
    "source",
    "p2o5_percent",
    "rate_kg_m2",
    "stock_kg",
    "interval_days",
    "wait_days",
)
WISHES = (
    "grid",
    "near",
    "weeks",
    "evenings_week",
    "evening_minutes",
    "evening_cost",
    "spend_most",
    "gentle_only",
    "skip",
    "missed_cost_kg_n",
    "job_missed_cost",
    "moved_cost",
    "present",
    "must",
)


def read(
    groups: object, products: object, rules: object, wishes: object, done: object, locked: object, today: object
) -> "dict[str, Any]":
    """Everything checked, dates as numbers of days and of weeks from this week's Monday."""
    day = day_number("today", today)
    monday = monday_of(day)
    asked = _wishes(wishes, monday)
    found: dict[str, Any] = {"today": day, "monday": monday, "wishes": asked}
    found["groups"] = _distinct("groups", [_group(*pair) for pair in _rows("groups", groups, GROUP, 1, MOST_GROUPS)])
    found["products"] = _distinct(
        "products", [_product(*pair) for pair in _rows("products", products, PRODUCT, 0, MOST_PRODUCTS)]
    )
    found["closed"] = _spans("rules.closed", group("rules", rules, ("closed",)).get("closed"))
    ids = [one["id"] for one in found["groups"]]
    found["done"] = [
        _done(path, row, ids)
        for path, row in _rows(
            "done", done, ("date", "group", "product", "rate_kg_m2", "n_kg_m2", "slow_n_share"), 0, MOST_ROWS
        )
    ]
    found["locked"] = _steps("locked", locked, ids, monday, asked["weeks"])
    if asked["missed_cost_kg_n"] is None:
        asked["missed_cost_kg_n"] = _dearest(found["products"]) * MISSED_FACTOR
    return found


def _rows(name: str, value: object, known: tuple[str, ...], low: int, high: int) -> "list[tuple[str, dict[str, Any]]]":
    rows = listing(name, value, low, high)
    paths = [name + "[" + str(at) + "]" for at in range(len(rows))]
    return [(paths[at], group(paths[at], rows[at], known)) for at in range(len(rows))]


def _distinct(name: str, rows: "list[dict[str, Any]]") -> "list[dict[str, Any]]":
    seen: list[str] = []
    for at in range(len(rows)):
        if rows[at]["id"] in seen:
            raise repeated(name + "[" + str(at) + "]", rows[at]["id"], "This stands twice in the list.")
        seen.append(rows[at]["id"])
    return rows


def _group(path: str, row: "dict[str, Any]") -> "dict[str, Any]":
    area = number(path + ".area_m2", row.get("area_m2"))
    wanted = listing(path + ".jobs", row.get("jobs") or [], 0, len(JOBS))
    zones = listing(path + ".zones", row.get("zones") or [], 0, 1000)
    needs = row.get("need_n_kg_m2")
    minutes = optional_number(path + ".job_minutes", row.get("job_minutes"))
    found: dict[str, Any] = {
        "id": text(path + ".id", row.get("id")),
        "area_m2": area,
        "turf": choice(path + ".turf", row.get("turf"), TURFS),
        "zones": [text(path + ".zones", one) for one in zones],
        "need": None
        if needs is None
        else [number(path + ".need_n_kg_m2", one) for one in listing(path + ".need_n_kg_m2", needs, 1, 60)],
        "phosphate": flag(path + ".phosphate", row.get("phosphate")),
        "jobs": [choice(path + ".jobs", one, JOBS) for one in wanted],
        "minutes": MINUTES + area / M2_MINUTE if minutes is None else minutes,
    }
    for name in ("aim_n_kg_m2", "n_once_kg_m2", "n_quick_once_kg_m2", "n_year_kg_m2"):
        found[name] = optional_number(path + "." + name, row.get(name))
    return found


def _product(path: str, row: "dict[str, Any]") -> "dict[str, Any]":
    slow = optional_number(path + ".slow_n_share", row.get("slow_n_share"))
    source = row.get("source")
    found: dict[str, Any] = {
        "id": text(path + ".id", row.get("id")),
        "sort": choice(path + ".sort", row.get("sort"), SORTS),
        "net_kg": number(path + ".net_kg", row.get("net_kg")),
        "price": number(path + ".price", row.get("price")),
        "rate_kg_m2": number(path + ".rate_kg_m2", row.get("rate_kg_m2")),
        "slow": 0.0 if slow is None else slow,
        "source": "soluble" if source is None else choice(path + ".source", source, SOURCES),
    }
    for name in ("n_percent", "p2o5_percent", "stock_kg", "interval_days", "wait_days"):
        given = optional_number(path + "." + name, row.get(name))
        found[name] = 0.0 if given is None else given
    found["n"] = found["n_percent"] / 100.0
    found["price_kg"] = found["price"] / found["net_kg"]
    return found


def _dearest(products: "list[dict[str, Any]]") -> float:
    prices = [one["price_kg"] / one["n"] for one in products if one["sort"] == "fertilizer" and one["n"] > 0.0]
    return float(max(prices + [1.0]))


def _wishes(value: object, monday: int) -> "dict[str, Any]":
    row = group("wishes", value, WISHES)
    defaults = {
        "evenings_week": EVENINGS,
        "evening_minutes": EVENING_MINUTES,
        "evening_cost": EVENING_COST,
        "spend_most": None,
        "missed_cost_kg_n": None,
        "job_missed_cost": JOB_MISSED_COST,
        "moved_cost": 0.0,
    }
    found: dict[str, Any] = {}
    for name in sorted(defaults):
        given = optional_number("wishes." + name, row.get(name))
        found[name] = defaults[name] if given is None else given
    weeks = optional_number("wishes.weeks", row.get("weeks"))
    found["weeks"] = 52 if weeks is None else int(weeks)
    found["grid"] = "half_month" if row.get("grid") is None else choice("wishes.grid", row.get("grid"), GRIDS)
    found["gentle_only"] = flag("wishes.gentle_only", row.get("gentle_only"))
    found["must"] = flag("wishes.must", row.get("must"))
    found["skip"] = _spans("wishes.skip", row.get("skip"))
    for name in ("near", "present"):
        steps = row.get(name)
        found[name] = None if steps is None else _steps("wishes." + name, steps, None, monday, found["weeks"])
    return found


def _spans(name: str, value: object) -> "list[tuple[int, int]]":
    found = []
    for path, row in _rows(name, value or [], ("first", "last"), 0, MOST_ROWS):
        found.append((day_number(path + ".first", row.get("first")), day_number(path + ".last", row.get("last"))))
    return found


def _steps(name: str, value: object, ids: "list[str] | None", monday: int, weeks: int) -> "list[dict[str, Any]]":
    """Steps of a plan as group, product or job, and week; those before this week or after the last are let go."""
    found = []
    for path, row in _rows(name, value, ("date", "group", "product", "job"), 0, MOST_ROWS):
        week = (day_number(path + ".date", row.get("date")) - monday) // WEEK
        of = (
            text(path + ".group", row.get("group"))
            if ids is None
            else choice(path + ".group", row.get("group"), tuple(ids))
        )
        product = None if row.get("product") is None else text(path + ".product", row.get("product"))
        job = None if row.get("job") is None else text(path + ".job", row.get("job"))
        if 0 <= week < weeks:
            found.append({"group": of, "product": product, "job": job, "week": week})
    return found


def _done(path: str, row: "dict[str, Any]", ids: "list[str]") -> "dict[str, Any]":
    slow = optional_number(path + ".slow_n_share", row.get("slow_n_share"))
    rate = optional_number(path + ".rate_kg_m2", row.get("rate_kg_m2"))
    return {
        "day": day_number(path + ".date", row.get("date")),
        "group": choice(path + ".group", row.get("group"), tuple(ids)),
        "product": None if row.get("product") is None else text(path + ".product", row.get("product")),
        "n_kg_m2": number(path + ".n_kg_m2", row.get("n_kg_m2")),
        "slow": 0.0 if slow is None else slow,
        "rate_kg_m2": rate,
    }
