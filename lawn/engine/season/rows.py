"""What groups share: evenings and their minutes, whole bags and the shed, money; and each group's ceilings."""

from lawn.engine.core.numeric import total
from lawn.engine.nutrition.spacing import ALL_DAYS, QUICK_DAYS
from lawn.engine.season.arcs import year_ends
from lawn.engine.season.model import FAR, in_week

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    from lawn.engine.season.model import Model

LEFT_SHARE = 0.25  # of its price is what is left in bags worth less: it keeps, but not for ever (common practice)
QUIET = ("soil_test",)  # takes minutes, no evening


def add_evenings(model: "Model", plan: "dict[str, Any]") -> None:
    """An evening with a product or a tool is shared by all groups; so many a week, each so many minutes long."""
    wishes = plan["wishes"]
    shared = _by_evening(model)
    weeks: dict[int, list[list[Any]]] = {}
    minutes = {of["id"]: of["minutes"] for of in plan["groups"]}
    for key in sorted(shared):
        week, what = key
        told = {"what": "evening", "week": week, "of": what, "takes": shared[key]}
        column = model.column(
            "evening|" + what + "|" + str(week), wishes["evening_cost"], told, max(1.0, wishes["evenings_week"])
        )
        weeks[week] = weeks.get(week, []) + [[column, 1.0]]
        _links(model, plan, key, column, shared[key], minutes)
    for week in sorted(weeks):
        says = "The evenings of " + in_week(plan, week) + " hold all that is to be done in them."
        model.row("evenings|" + str(week), None, wishes["evenings_week"], weeks[week], says, True)


def _by_evening(model: "Model") -> "dict[tuple[int, str], list[int]]":
    """Columns by week and by what the evening is spent with: the product, or else the job."""
    found: dict[tuple[int, str], list[int]] = {}
    for at in range(len(model.told)):
        told = model.told[at]
        if told["what"] == "feed" or (told["what"] == "job" and told["sort"] not in QUIET):
            key = (told["week"], told["product"] or told["job"])
            found[key] = found.get(key, []) + [at]
    return found


def _links(
    model: "Model",
    plan: "dict[str, Any]",
    key: "tuple[int, str]",
    column: int,
    taken: list[int],
    minutes: "dict[str, float]",
) -> None:
    week, what = key
    for of in plan["groups"]:
        own = [[at, 1.0] for at in taken if model.told[at]["group"] == of["id"]]
        if own:
            says = what + " goes on " + of["id"] + " only where " + in_week(plan, week) + " has an evening for it."
            model.row("link|" + of["id"] + "|" + what + "|" + str(week), None, 0.0, own + [[column, -1.0]], says, False)
    ids = sorted({model.told[at]["group"] for at in taken})
    most = plan["wishes"]["evening_minutes"]
    if total([minutes[one] for one in ids]) > most:
        terms: list[list[Any]] = [[at, minutes[model.told[at]["group"]]] for at in taken]
        says = "Work with " + what + " fits the minutes of its evenings in " + in_week(plan, week) + "."
        model.row("minutes|" + what + "|" + str(week), None, 0.0, terms + [[column, -most]], says, True)


def add_bags(model: "Model", plan: "dict[str, Any]") -> None:
    """Bags are whole: what is used and what is left come from the shed and from bags bought."""
    spent: list[list[Any]] = []
    for product in plan["products"]:
        terms = used_terms(model, product["id"])
        if not terms:
            continue
        most = total([model.told[column].get("high_kg", 0.0) for column, _ in terms])
        bags = model.column(
            "bags|" + product["id"],
            0.0,
            {"what": "bags", "product": product["id"]},
            float(int(most / product["net_kg"]) + 1),
        )
        worth = LEFT_SHARE * product["price_kg"]
        left = model.column("left|" + product["id"], worth, {"what": "left", "product": product["id"]}, FAR, False)
        says = "What is used and left of " + product["id"] + " comes from the shed and from whole bags."
        stock = product["stock_kg"]
        model.row("bags|" + product["id"], stock, stock, terms + [[left, 1.0], [bags, -product["net_kg"]]], says, False)
        spent.append([bags, product["price"]])
    if plan["wishes"]["spend_most"] is not None and spent:
        says = "What is bought stays within the money you want to spend."
        model.row("spend", None, plan["wishes"]["spend_most"], spent, says, True)


def used_terms(model: "Model", product: str) -> "list[list[Any]]":
    """Kilograms of a product by column."""
    found: list[list[Any]] = []
    for at in range(len(model.told)):
        told = model.told[at]
        if told.get("product") == product and told["what"] in ("feed", "job") and told["low_kg"] > 0.0:
            found.append([at, told["low_kg"]])
        elif told.get("product") == product and told["what"] == "more":
            found.append([at, 1.0])
    return found


def add_ceilings(model: "Model", plan: "dict[str, Any]", of: "dict[str, Any]") -> None:
    """A year's nitrogen, and what may fall within four and six weeks, whatever product and whoever.

    Where a row holds only a part of the year it counts each feed at its most: the plan may then be a little under.
    """
    n = {one["id"]: one["n"] for one in plan["products"]}
    quick = {one["id"]: one["n"] * (1.0 - one["slow"]) for one in plan["products"]}
    puts = [
        at for at in of["starts"] + of["jobs_there"] if model.told[at]["product"] and n[model.told[at]["product"]] > 0.0
    ]
    if of["n_year_kg_m2"] is not None:
        for day, done in year_ends(plan, of):
            _year(model, plan, of, puts, n, day, done)
    if of["n_quick_once_kg_m2"] is not None:
        says = "Quick nitrogen on " + of["id"] + " stays under its ceiling over any four weeks"
        _spans(model, plan, of, puts, quick, QUICK_DAYS[0], of["n_quick_once_kg_m2"], "quick", says, 1)
    if of["n_once_kg_m2"] is not None:
        says = "Nitrogen on " + of["id"] + " stays under its ceiling over any six weeks"
        _spans(model, plan, of, puts, n, ALL_DAYS[0], of["n_once_kg_m2"], "all", says, 0)


def add_intervals(model: "Model", plan: "dict[str, Any]", of: "dict[str, Any]") -> None:
    """Two uses of a product on a group are no closer than its label says."""
    for product in plan["products"]:
        puts = [at for at in of["starts"] + of["jobs_there"] if model.told[at]["product"] == product["id"]]
        weeks = sorted({model.told[at]["week"] for at in puts})
        for week in weeks:
            day = plan["weeks"][week]["day"]
            days = [plan["weeks"][model.told[at]["week"]]["day"] - day for at in puts]
            near = [puts[at] for at in range(len(puts)) if 0 <= days[at] < product["interval_days"]]
            if len({model.told[at]["week"] for at in near}) > 1:
                says = product["id"] + " goes on " + of["id"] + " no sooner again than its label allows."
                name = "interval|" + of["id"] + "|" + product["id"] + "|" + str(week)
                model.row(name, None, 1.0, [[at, 1.0] for at in near], says, True)


def _year(
    model: "Model",
    plan: "dict[str, Any]",
    of: "dict[str, Any]",
    puts: list[int],
    n: "dict[str, float]",
    day: int,
    done: float,
) -> None:
    within = [at for at in puts if plan["weeks"][model.told[at]["week"]]["day"] < day]
    most = (of["n_year_kg_m2"] - done) * of["area_m2"]
    if not within or total(of["needs"]) * of["area_m2"] + _by_jobs(model, within, n) <= most:
        return
    whole = len(within) == len(puts)
    terms: list[list[Any]] = []
    for at in within:
        told = model.told[at]
        terms.append([at, n[told["product"]] * told["low_kg" if whole else "high_kg"]])
    if whole:
        terms += [[at, n[model.told[at]["product"]]] for at in model.of("more") if model.told[at]["group"] == of["id"]]
    says = "Nitrogen of a year on " + of["id"] + " stays under its ceiling, what was done counted in."
    model.row("year|" + of["id"] + "|" + str(day - plan["monday"]), None, max(0.0, most), terms, says, True)


def _by_jobs(model: "Model", within: list[int], n: "dict[str, float]") -> float:
    return total(
        [n[model.told[at]["product"]] * model.told[at]["high_kg"] for at in within if model.told[at]["what"] == "job"]
    )


def _spans(
    model: "Model",
    plan: "dict[str, Any]",
    of: "dict[str, Any]",
    puts: list[int],
    n: "dict[str, float]",
    days: int,
    ceiling: float,
    name: str,
    says: str,
    quick: int,
) -> None:
    """A row for each span that begins with a feed, done or planned, and can hold more than the ceiling."""
    begins = [plan["weeks"][week]["day"] for week in sorted({model.told[at]["week"] for at in puts})]
    done = [one for one in plan["done"] if one["group"] == of["id"]]
    for first in sorted({one["day"] for one in done if one["day"] + days >= plan["monday"]}) + begins:
        terms, weeks = [], []
        for at in puts:
            told = model.told[at]
            kg = n[told["product"]] * told["high_kg"]
            if kg > 0.0 and first <= plan["weeks"][told["week"]]["day"] <= first + days:
                terms.append([at, kg])
                weeks.append(told["week"])
        before = [one["n_kg_m2"] * (1.0 - quick * one["slow"]) for one in done if first <= one["day"] <= first + days]
        most = (ceiling - total(before)) * of["area_m2"]
        if len(set(weeks)) > 1 or (before and terms):
            model.row(
                name + "|" + of["id"] + "|" + str(first - plan["monday"]), None, max(0.0, most), terms, says + ".", True
            )
