"""The year as one sheet, ready to be drawn: a band for each feeding group."""

from lawn.engine.core.dates import day_number, day_text
from lawn.engine.core.numeric import group, listing, total, whole
from lawn.engine.season.needs import WEEK, monday_of
from lawn.engine.season.sheet.bands import bars_of, feeds_of, flags_of, freed, needed, soil_of
from lawn.engine.season.sheet.inputs import areas_of, done_of, groups_of, products_of, steps_of
from lawn.engine.season.sheet.steps import working_of
from lawn.engine.season.turning import year_of
from lawn.engine.season.windows import MOST_JOBS

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

WEEKS = 53  # a year, whatever day of the week it begins on
OTHER = ""  # ground that no plan can feed, but that has steps


def sheet(
    *,
    groups: list[object],
    zones: list[object],
    products: list[object],
    steps: list[object],
    done: list[object],
    first: str,
    today: str,
    climate: object = None,
    weeks: int | None = None,
) -> "tuple[dict[str, object], list[dict[str, object]]]":
    """What is drawn of a year: for each group its need, the nitrogen free and put down week by week, and its steps.

    Need is the yearly aim by the windows of the year (season.needs), free nitrogen that of every feed by its kind and
    the usual soil (feeding.release). Planned feeds count from their first day, or from today where that has passed.

    Args:
        groups: ground that is fed alike, as season.gather answers it; what else one says may stand there too [list]
        groups.id: the group, once only [text]
        groups.zones: its zones [list of texts]
        groups.turf?: season of its grass [one of cool, warm]
        groups.aim_n_kg_m2?: nitrogen of a year; no need is drawn where not said [kg/m2; 0 to 0.1]
        zones: the zones; what else one says may stand there too [list]
        zones.id: the zone [text]
        zones.area_m2?: its area [m2; 0.5 to 100000]
        products: what labels say; what else one says may stand there too [list]
        products.id: the product [text]
        products.n_percent?: nitrogen on the label [%; 0 to 100]
        products.slow_n_share?: slow-release share of it [share; 0 to 1]
        products.source?: kind of nitrogen; soluble when not said
            [one of soluble, sulfur_coated, polymer_coated, condensed, ibdu, natural]
        products.net_kg?: weight of a bag [kg; 0.01 to 2000]
        steps: steps of the plan that stands, up to 2000 [list]
        steps.id: the step [text]
        steps.job: what is done [text]
        steps.zones: its zones [list of texts]
        steps.from: its first day [date]
        steps.to: its last day [date]
        steps.product?: its product [text]
        steps.rate_kg_m2?: product per area [kg/m2; 0.000001 to 50]
        steps.locked?: whether it stays where it is [true or false]
        steps.state?: planned when not said [one of planned, done, put_off]
        done: what was put down, group by group, as season.gather answers it [list]
        done.date: day [date]
        done.group: the group [text]
        done.n_kg_m2: nitrogen per area [kg/m2; 0 to 5]
        done.product?: the product [text]
        done.slow_n_share?: slow-release share of its nitrogen [share; 0 to 1]
        first: a day of the first week, which begins on a Monday [date]
        today: the day of drawing [date]
        climate?: the place's usual year, as season.build takes it; without it neither need nor free nitrogen is
            known [group of values]
        climate.daily_mean_c?: usual mean of each day, 1 January first, 29 February among them [list of numbers]
        climate.monthly_mean_c?: means of the twelve months instead, January first [list of numbers]
        climate.warmest_c?: mean of the warmest month, where the twelve are not known [C; -60 to 60]
        climate.coldest_c?: mean of the coldest month, with it [C; -60 to 60]
        climate.southern?: true where January is warm; asked for only with these two [true or false]
        climate.jobs?: what is done in a year, rows of a skeleton as season.needs takes them [list]
        weeks?: weeks drawn; 53 when not said [weeks; 1 to 60]
    Returns:
        weeks: each week drawn [list]
        weeks.date: its Monday [date]
        months: where a month begins [list]
        months.month: the month [month]
        months.week: weeks from the first Monday to its first day [weeks]
        today_week: weeks from the first Monday to today, null where it is not drawn [weeks or null]
        top_n_kg_m2: the most there is of anything in a week, so that all bands have one scale [kg/m2]
        products: products of the bars, in the order they are first put down [list of texts]
        bands: each group in its order; ground of no group last, where it has steps [list]
        bands.group: the group, empty for ground of none [text]
        bands.zones: its zones [list of texts]
        bands.need_n_kg_m2: nitrogen asked for in each week, null where it is not known [list of numbers or null]
        bands.free_n_kg_m2: nitrogen that comes free in each week, likewise [list of numbers or null]
        bands.bars: what is put down [list]
        bands.bars.week: its place, the first being 0 [place]
        bands.bars.date: the day [date]
        bands.bars.product: the product, null where the log does not name it [text or null]
        bands.bars.step: the step of the plan, null for what was done [text or null]
        bands.bars.n_kg_m2: nitrogen put down [kg/m2]
        bands.bars.under_n_kg_m2: nitrogen of the bars under it in that week [kg/m2]
        bands.flags: its steps, by day [list]
        bands.flags.step: the step [text]
        bands.flags.job: what is done [text]
        bands.flags.week: its place, the first being 0 [place]
        bands.flags.from: first day [date]
        bands.flags.to: last day [date]
        bands.flags.product: its product [text or null]
        bands.flags.n_kg_m2: nitrogen per area [kg/m2]
        bands.flags.kg: product for this ground; null where rate or area is not known [kg or null]
        bands.flags.bags: the same in bags [bags or null]
        bands.flags.locked: whether it stays where it is [true or false]
        bands.flags.state: how it stands [one of planned, done, put_off]
        bands.flags.late: still planned though its days have passed [true or false]
        bands.flags.earlier_weeks: weeks it may be moved back, not before this week [weeks]
        bands.flags.later_weeks: weeks it may be moved on, not past the last week [weeks]
        sums: nitrogen of these weeks, group by group [list]
        sums.group: the group [text]
        sums.need_n_kg_m2: asked for, null where it is not known [kg/m2 or null]
        sums.put_n_kg_m2: put down and to be put down [kg/m2]
        sums.free_n_kg_m2: that comes free, null where it is not known [kg/m2 or null]
    Raises:
        out_of_range: a number is outside its range
        wrong_type: a date is none
    Source: cornell_n
    Checked: after ten weeks of soil at 20 C feather meal has freed 70 % (ncsu_org)
    """
    count = WEEKS if weeks is None else whole("weeks", weeks)
    monday = monday_of(day_number("first", first))
    read: dict[str, Any] = {
        "areas": areas_of(zones),
        "products": products_of(products),
        "done": done_of(done),
        "today": day_number("today", today),
    }
    year, rows = _climate(climate)
    soil = None if year is None else soil_of(year, monday, count)
    planned = steps_of(steps)
    bands, feeds = [], []
    for of in groups_of(groups) + _other(planned, groups_of(groups)):
        mine = [one for one in planned if _is_on(one, of)]
        put = feeds_of(of, read, mine)
        feeds.append(put)
        known = year is not None and of["turf"] is not None and of["aim_n_kg_m2"] is not None
        bands.append(
            {
                "group": of["id"],
                "zones": of["zones"],
                "need_n_kg_m2": needed(of, year, rows, monday, count) if known and year is not None else None,
                "free_n_kg_m2": None if soil is None else freed(put, soil, monday, count),
                "bars": bars_of(put, monday, count),
                "flags": flags_of(of["zones"], read, mine, monday, count),
            }
        )
    sums = [_sums(one) for one in bands]
    value: dict[str, object] = {
        "weeks": [{"date": day_text(monday + WEEK * at)} for at in range(count)],
        "months": _months(monday, count),
        "today_week": _place(read["today"] - monday, count),
        "top_n_kg_m2": max([0.0] + [_top(one) for one in bands]),
        "products": _hatched(feeds, monday, count),
        "bands": bands,
        "sums": sums,
    }
    return value, working_of(value)


def _climate(climate: object) -> "tuple[dict[str, Any] | None, list[Any]]":
    if climate is None:
        return None, []
    given = climate if isinstance(climate, dict) else group("climate", climate, ())
    usual = {name: given[name] for name in given if name != "jobs"}
    rows = [
        row if isinstance(row, dict) else group("climate.jobs[" + str(at) + "]", row, ())
        for at, row in enumerate(listing("climate.jobs", given.get("jobs") or [], 0, MOST_JOBS))
    ]
    return year_of(usual), rows


def _other(steps: "list[dict[str, Any]]", groups: "list[dict[str, Any]]") -> "list[dict[str, Any]]":
    """Ground of steps that belongs to no group, as a band of its own: no step is left out."""
    grouped = [zone for of in groups for zone in of["zones"]]
    zones: list[str] = []
    for one in steps:
        zones.extend([zone for zone in one["zones"] if zone not in grouped and zone not in zones])
    without = any(not one["zones"] for one in steps)
    return [{"id": OTHER, "zones": zones, "turf": None, "aim_n_kg_m2": None}] if zones or without else []


def _is_on(step: "dict[str, Any]", of: "dict[str, Any]") -> bool:
    """Whether a step is drawn in a band; one that names no ground stands with the rest."""
    return any(zone in of["zones"] for zone in step["zones"]) or (of["id"] == OTHER and not step["zones"])


def _months(monday: int, weeks: int) -> "list[dict[str, object]]":
    found: list[dict[str, object]] = []
    for at in range(WEEK * weeks):
        written = day_text(monday + at)
        if written[8:10] == "01":
            found.append({"month": int(written[5:7]), "week": at / WEEK})
    return found


def _place(days: int, weeks: int) -> float | None:
    return days / WEEK if 0 <= days < WEEK * weeks else None


def _top(band: "dict[str, Any]") -> float:
    bars = [one["n_kg_m2"] + one["under_n_kg_m2"] for one in band["bars"]]
    return float(max([0.0] + (band["need_n_kg_m2"] or []) + (band["free_n_kg_m2"] or []) + bars))


def _hatched(feeds: "list[list[dict[str, Any]]]", monday: int, weeks: int) -> "list[str]":
    """Products in the order of their first day, so that one keeps its hatching."""
    rows = [
        (one["day"], one["product"])
        for put in feeds
        for one in put
        if one["product"] is not None and 0 <= one["day"] - monday < WEEK * weeks
    ]
    found: list[str] = []
    for _, product in sorted(rows):
        if product not in found:
            found.append(product)
    return found


def _sums(band: "dict[str, Any]") -> "dict[str, Any]":
    need, free = band["need_n_kg_m2"], band["free_n_kg_m2"]
    return {
        "group": band["group"],
        "need_n_kg_m2": None if need is None else total(need),
        "put_n_kg_m2": total([one["n_kg_m2"] for one in band["bars"]]),
        "free_n_kg_m2": None if free is None else total(free),
    }
