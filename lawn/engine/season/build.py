"""Turns a yard, a shed, a climate and wishes into a model that any solver can read."""

from lawn.engine.core.numeric import total
from lawn.engine.core.working import COMMON, N_UNIT, step
from lawn.engine.season.assemble import assemble
from lawn.engine.season.greedy import start_of


def build(
    *,
    groups: object,
    products: object,
    climate: object,
    rules: object,
    wishes: object,
    done: object,
    locked: object,
    today: str,
) -> "tuple[dict[str, object], list[dict[str, object]]]":
    """A season as a mixed-integer model: what may be done when, what it costs, what must hold; and a first plan.

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
    Returns:
        model: for a solver that finds the cheapest values of its columns [group of values]
        model.columns: unknowns [list]
        model.columns.name: what it stands for [text]
        model.columns.low: least value [value]
        model.columns.high: greatest value [value]
        model.columns.cost: what one of it costs [money]
        model.columns.integer: whether it must be whole [true or false]
        model.rows: what must hold [list]
        model.rows.name: what it is about [text]
        model.rows.low: least sum; null where there is none [value or null]
        model.rows.high: greatest sum, likewise [value or null]
        model.rows.terms: pairs of a column's place and its factor [list of corners]
        model.rows.says: the same as a sentence [text]
        model.rows.rule: whether a person could change it; else it ties columns together [true or false]
        start: values of a first plan, one a column; rules it breaks are those that wishes made impossible
            [list of numbers]
        weeks: weeks planned [weeks]
        n_kg_m2: nitrogen that the groups ask for, added [kg/m2]
    Raises:
        out_of_range: a number is outside its range
        repeated: a group or product stands twice
    Source: definition
    Checked: a tour of all plans of small yards costs as much as the best values (computed)
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
    asked = total([total(of["needs"]) for of in plan["groups"]])
    value: dict[str, object] = {
        "n_kg_m2": asked,
        "model": {"columns": model.columns, "rows": model.rows},
        "start": start_of(model, plan),
        "weeks": len(plan["weeks"]),
    }
    return value, [
        step(
            what="Nitrogen that the groups ask for",
            formula="aim by published shares of the year, less what lies there already, over all weeks and groups",
            numbers={"groups": len(plan["groups"])},
            result=asked,
            unit=N_UNIT,
            source=COMMON,
        ),
        step(
            what="Weeks planned",
            formula="as asked for, or a year",
            numbers={"columns": len(model.columns), "rows": len(model.rows)},
            result=len(plan["weeks"]),
            unit="weeks",
            source=COMMON,
        ),
    ]
