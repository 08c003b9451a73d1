"""Turns a solver's values back into steps a person can take, each with its reasons, and what they cost."""

from lawn.engine.core.dates import day_text
from lawn.engine.core.numeric import flag, listing, number, optional_number, total
from lawn.engine.season.assemble import assemble
from lawn.engine.season.jobs import day_in
from lawn.engine.season.needs import WEEK
from lawn.engine.season.reasons import is_locked, of_feed, of_job, unused, working_of

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

CHOSEN = 0.5  # a yes or no may be off by the solver's last digits
BEST_SHARE = 1e-4  # a gap below it is none that a person could see
NEAR_SHARE = 0.01


def read(
    *,
    groups: object,
    products: object,
    climate: object,
    rules: object,
    wishes: object,
    done: object,
    locked: object,
    today: str,
    solution: object,
    bound: float | None = None,
    stopped: bool | None = None,
) -> "tuple[dict[str, object], list[dict[str, object]]]":
    """A plan from the values a solver found: its steps with their reasons, bags, cost and how good it is known to be.

    Args:
        groups: ground that is fed alike, up to 12 [list]
        groups.id: the group, once only [text]
        groups.area_m2: its area [m2; 0.5 to 100000]
        groups.turf: season of its grass [one of cool, warm]
        groups.zones?: its zones [list of texts]
        groups.aim_n_kg_m2?: nitrogen of a year, shared out by the windows of climate.jobs [kg/m2; 0 to 0.1]
        groups.need_n_kg_m2?: nitrogen asked for in each week, in place of that [list of numbers]
        groups.n_once_kg_m2?: nitrogen at once at most, held over any six weeks [kg/m2; 0 to 5]
        groups.n_quick_once_kg_m2?: its quick part at most, held over any four weeks [kg/m2; 0 to 5]
        groups.n_year_kg_m2?: nitrogen of a year at most [kg/m2; 0 to 5]
        groups.phosphate?: whether phosphate may go on, by a soil test or at sowing; not when not said [true or false]
        groups.jobs?: dated jobs that are wanted: pre_emergent, overseed, lime, aerate, soil_test [list of texts]
        groups.job_minutes?: minutes one job takes; by its area when not said [min; 1 to 600]
        products: what is in the shed or can be bought, up to 24 [list]
        products.id: the product, once only [text]
        products.sort: what it is [one of fertilizer, pre_emergent, post_emergent, lime, seed, other]
        products.net_kg: weight of a bag [kg; 0.01 to 2000]
        products.price: price of a bag [money; 0 to 100000]
        products.n_percent?: nitrogen on the label [%; 0 to 100]
        products.slow_n_share?: slow-release share of it; none when not said [share; 0 to 1]
        products.source?: kind of nitrogen; soluble when not said
            [one of soluble, sulfur_coated, polymer_coated, condensed, ibdu, natural]
        products.p2o5_percent?: phosphate on the label [%; 0 to 100]
        products.rate_kg_m2: the label's rate, the most at once [kg/m2; 0.000001 to 50]
        products.stock_kg?: what is in the shed [kg; 0 to 20000]
        products.interval_days?: least days between uses by the label [day; 0 to 365]
        products.wait_days?: days from this pre-emergent to seeding; the longest published when not said [day; 0 to 365]
        climate: the place's usual year [group of values]
        climate.daily_mean_c?: usual mean of each day, 1 January first, 29 February among them [list of numbers]
        climate.monthly_mean_c?: means of the twelve months instead, January first [list of numbers]
        climate.warmest_c?: mean of the warmest month, where the twelve are not known [C; -60 to 60]
        climate.coldest_c?: mean of the coldest month, with it [C; -60 to 60]
        climate.southern?: true where January is warm; asked for only with these two [true or false]
        climate.jobs?: what is done in a year, rows of a skeleton as season.windows and season.needs take them [list]
        climate.jobs.job: its name [text]
        climate.jobs.sort?: what it is [text]
        climate.jobs.turf?: the season of grass it is for [one of cool, warm]
        climate.jobs.opens: when it opens [group of values]
        climate.jobs.closes: when it closes [group of values]
        climate.jobs.shares?: its share of the year's nitrogen by yearly aim [list]
        rules: what holds at the place [group of values]
        rules.closed?: spans of days on which nothing is spread [list]
        rules.closed.first: first day [date]
        rules.closed.last: last day [date]
        wishes: what the household would like [group of values]
        wishes.grid?: weeks in which feeds may begin; half_month when not said [one of half_month, weekly]
        wishes.near?: steps near which every week may be one, and only near them [list]
        wishes.near.group: the group [text]
        wishes.near.date: day of the step [date]
        wishes.weeks?: how many weeks are planned; a year when not said [weeks; 1 to 60]
        wishes.evenings_week?: evenings a week; 2 when not said [evenings; 0 to 7]
        wishes.evening_minutes?: minutes of one; 120 when not said [min; 5 to 1440]
        wishes.evening_cost?: what an evening is worth; 2 when not said [money; 0 to 1000]
        wishes.spend_most?: money to spend at most [money; 0 to 1000000]
        wishes.gentle_only?: only feeds that are mostly slow [true or false]
        wishes.skip?: spans of days in which nothing is to be done [list]
        wishes.skip.first: first day [date]
        wishes.skip.last: last day [date]
        wishes.missed_cost_kg_n?: what a kilogram of nitrogen missed counts for; three times the dearest when not said
            [money/kg; 0 to 100000]
        wishes.job_missed_cost?: what a job left out counts for; 60 when not said [money; 0 to 100000]
        wishes.moved_cost?: what a step that is not in the present plan counts for more [money; 0 to 100000]
        wishes.present?: steps of the present plan [list]
        wishes.present.group: the group [text]
        wishes.present.date: day of the step [date]
        wishes.present.product?: its product [text]
        wishes.present.job?: its job, where it is a dated one [text]
        wishes.must?: whether every job asked for must have its week [true or false]
        done: feeds and pre-emergents put down in the last year [list]
        done.date: day [date]
        done.group: the group [text]
        done.product?: the product [text]
        done.n_kg_m2: nitrogen that came with it [kg/m2; 0 to 5]
        done.slow_n_share?: slow-release share of that [share; 0 to 1]
        done.rate_kg_m2?: how much of it [kg/m2; 0.000001 to 50]
        locked: steps that stay where they are [list]
        locked.date: day of the step [date]
        locked.group: the group [text]
        locked.product?: its product [text]
        locked.job?: its job, where it is a dated one [text]
        today: the day of planning; weeks begin on its Monday [date]
        solution: values of the columns of season.build, in their order [list of numbers]
        bound?: what no plan could cost less than, by the solver [money; -1000000000 to 1000000000]
        stopped?: whether the solver was stopped before it was done [true or false]
    Returns:
        steps: what to do, in order [list]
        steps.week: week of the plan, the first being 0 [place]
        steps.date: its Monday, or today [date]
        steps.sort: what it is [one of feed, pre_emergent, overseed, lime, aerate, soil_test]
        steps.job: its row in climate.jobs; null for a feed [text or null]
        steps.product: the product; null where none is chosen or needed [text or null]
        steps.group: the group [text]
        steps.zones: its zones [list of texts]
        steps.kg: product on the whole group [kg]
        steps.rate_kg_m2: product rate [kg/m2]
        steps.until: day until which a feed serves; null for other jobs [date or null]
        steps.locked: whether it was locked [true or false]
        steps.why: why it is where it is [list]
        steps.why.why: the reason [one of need, locked, now, fed_until, closed, skipped, not_growing, heat, not_green,
            cold, no_need_before, dearer_sooner, in_shed, only_one, cheapest_nitrogen, fits_whole, window]
        steps.why.since: from when, where that matters [date or null]
        steps.why.until: until when, likewise [date or null]
        steps.why.n_kg_m2: nitrogen it is for, likewise [kg/m2 or null]
        left_out: jobs asked for that found no week [list]
        left_out.group: the group [text]
        left_out.job: its row in climate.jobs [text]
        left_out.sort: what it is [one of pre_emergent, overseed, lime, aerate, soil_test]
        unused: feeds that no week of a group can take [list]
        unused.group: the group [text]
        unused.product: the product [text]
        unused.why: what keeps it out [one of not_gentle, phosphate, no_week, too_strong, little_need]
        unused.rate_kg_m2: the label's rate [kg/m2]
        unused.most_kg_m2: what the ceilings leave of it at once, at most; null where they are not asked [kg/m2 or null]
        bags: what to buy [list]
        bags.product: the product [text]
        bags.bags: whole bags [bags]
        bags.kg: their weight [kg]
        bags.price: their price [money]
        left_over: what is left at the end [list]
        left_over.product: the product [text]
        left_over.kg: how much [kg]
        cost: parts of what the plan costs [group of values]
        cost.bought: bags [money]
        cost.left_over: what leftovers lose in worth [money]
        cost.evenings: evenings, by what one is worth [money]
        cost.missed: nitrogen missed, by what it counts for [money]
        weighed_cost: what the solver compared plans by [money]
        bound: what no plan could cost less than; null where not told [money or null]
        gap_share: how far the two are apart, over the cost [share or null]
        says: how good the plan is known to be [one of best, near_best, may_be_better, stopped, unknown]
        missed_n_kg: nitrogen that groups ask for and do not get [kg]
        evenings: evenings it takes [evenings]
    Raises:
        out_of_range: a number is outside its range
        wrong_count: there are more or fewer values than columns
    Source: definition
    Checked: the steps of a plan cost what its values do (computed)
    """
    model, plan = assemble(
        groups=groups,
        products=products,
        climate=climate,
        rules=rules,
        wishes=wishes,
        done=done,
        locked=locked,
        today=today,
    )
    values = _values(model, solution)
    lowest = optional_number("bound", bound)
    steps = _steps(model, plan, values)
    bags, left = _bags(model, plan, values)
    cost = _cost(model, plan, values, bags)
    whole = total([values[at] * model.columns[at]["cost"] for at in range(len(values))])  # type: ignore[operator]
    gap = None if lowest is None else max(0.0, whole - lowest) / max(whole, 1e-9)
    value: dict[str, object] = {
        "steps": steps,
        "left_out": _left_out(model, values),
        "unused": unused(model, plan),
        "bags": bags,
        "left_over": left,
        "cost": cost,
        "weighed_cost": whole,
        "bound": lowest,
        "gap_share": gap,
        "says": _says(gap, flag("stopped", stopped)),
        "missed_n_kg": _missed(model, plan, values),
        "evenings": _evenings(model, values),
    }
    return value, working_of(steps, bags, left, value, plan["wishes"])


def _values(model: "Any", solution: object) -> list[float]:
    count = len(model.columns)
    rows = listing("solution", solution, count, count)
    return [number("solution", one) for one in rows]


def _says(gap: "float | None", stopped: bool) -> str:
    """How good the plan is known to be, as a word."""
    if gap is None:
        return "unknown"
    if gap <= BEST_SHARE:
        return "best"
    return "near_best" if gap <= NEAR_SHARE else "stopped" if stopped else "may_be_better"


def _steps(model: "Any", plan: "dict[str, Any]", values: list[float]) -> "list[dict[str, Any]]":
    more = {(model.told[at]["group"], model.told[at]["product"]): max(0.0, values[at]) for at in model.of("more")}
    chosen = [at for at in model.of("feed") + model.of("job") if values[at] > CHOSEN]
    groups = {of["id"]: of for of in plan["groups"]}
    found = []
    for at in sorted(chosen, key=lambda at: (model.told[at]["week"], at)):
        told = model.told[at]
        of, kg = groups[told["group"]], told["low_kg"]
        if told["what"] == "feed":
            key = (told["group"], told["product"])
            added = min(more.get(key, 0.0), told["high_kg"] - told["low_kg"])
            if key in more:
                more[key] -= added
            kg += added
        why = of_feed(model, plan, of, told, values) if told["what"] == "feed" else of_job(plan, of, told)
        found.append(
            {
                "week": told["week"],
                "date": day_in(plan, told["week"]),
                "sort": "feed" if told["what"] == "feed" else told["sort"],
                "job": told.get("job"),
                "product": told["product"],
                "group": told["group"],
                "zones": of["zones"],
                "kg": kg,
                "rate_kg_m2": kg / of["area_m2"],
                "until": day_text(plan["monday"] + WEEK * told["until"]) if "until" in told else None,
                "locked": is_locked(plan, told),
                "why": why,
            }
        )
    return found


def _left_out(model: "Any", values: list[float]) -> "list[dict[str, object]]":
    return [
        {"group": model.told[at]["group"], "job": model.told[at]["job"], "sort": model.told[at]["sort"]}
        for at in model.of("left_out")
        if values[at] > CHOSEN
    ]


def _bags(
    model: "Any", plan: "dict[str, Any]", values: list[float]
) -> "tuple[list[dict[str, Any]], list[dict[str, Any]]]":
    bags, left = [], []
    for product in plan["products"]:
        count = [values[at] for at in model.of("bags") if model.told[at]["product"] == product["id"]]
        over = [max(0.0, values[at]) for at in model.of("left") if model.told[at]["product"] == product["id"]]
        number_of = int(count[0] + CHOSEN) if count else 0
        if number_of:
            weight = number_of * product["net_kg"]
            price = number_of * product["price"]
            bags.append({"product": product["id"], "bags": number_of, "kg": weight, "price": price})
        if over and over[0] > 1e-6:
            left.append({"product": product["id"], "kg": over[0]})
    return bags, left


def _cost(
    model: "Any", plan: "dict[str, Any]", values: list[float], bags: "list[dict[str, Any]]"
) -> "dict[str, float]":
    left = [values[at] * model.columns[at]["cost"] for at in model.of("left")]
    return {
        "bought": total([one["price"] for one in bags]),
        "left_over": total(left),
        "evenings": _evenings(model, values) * plan["wishes"]["evening_cost"],
        "missed": _missed(model, plan, values) * plan["wishes"]["missed_cost_kg_n"],
    }


def _evenings(model: "Any", values: list[float]) -> float:
    return total([values[at] for at in model.of("evening") if values[at] > CHOSEN])


def _missed(model: "Any", plan: "dict[str, Any]", values: list[float]) -> float:
    """Kilograms of nitrogen that groups ask for and do not get."""
    n = {one["id"]: one["n"] for one in plan["products"]}
    parts = []
    for at in range(len(values)):
        told = model.told[at]
        if told["what"] == "skip" and values[at] > CHOSEN:
            parts.append(told["n_kg"])
        elif told["what"] == "feed" and values[at] > CHOSEN:
            parts.append(told["n_kg"] - told["low_kg"] * n[told["product"]])
        elif told["what"] == "more":
            parts.append(-values[at] * n[told["product"]])
    return max(0.0, total(parts))
