"""What grass asks for, week by week: published shares of the year by window, and growth as gate and shape in them."""

from lawn.engine.core.dates import day_number, day_text
from lawn.engine.core.numeric import choice, group, listing, number, text, total, whole
from lawn.engine.core.working import COMMON, N_UNIT, step
from lawn.engine.season.turning import growth_of, next_open, place_of, turn_of, year_of
from lawn.engine.season.windows import MOST_JOBS, job_of, span_of
from lawn.engine.warmth.climate import DAYS
from lawn.engine.warmth.response import TURFS

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

LEAST_POTENTIAL = 0.15  # below it grass hardly grows: nothing is needed
LB_KFT2 = 0.45359237 / 92.90304  # kg/m2 of a pound per 1,000 ft2, exact (NIST SP 811)
WEEK = 7


def needs(
    *, climate: object, jobs: object, first: str, weeks: int, turf: str, aim_n_kg_m2: float
) -> "tuple[dict[str, object], list[dict[str, object]]]":
    """Nitrogen that should be there for the grass in each week, of the aim for a year.

    Args:
        climate: the place's usual year [group of values]
        climate.daily_mean_c?: usual mean of each day, 1 January first, 29 February among them [list of numbers]
        climate.monthly_mean_c?: means of the twelve months instead, January first [list of numbers]
        climate.warmest_c?: mean of the warmest month, where the twelve are not known [C; -60 to 60]
        climate.coldest_c?: mean of the coldest month, with it [C; -60 to 60]
        climate.southern?: true where January is warm; asked for only with these two [true or false]
        jobs: what is done in a year, as season.windows takes it; of them the feeds count [list]
        jobs.job: its name [text]
        jobs.sort?: what it is; a feed is one that says so [text]
        jobs.turf?: the season of grass it is for; any when not said [one of cool, warm]
        jobs.opens: when it opens [group of values]
        jobs.closes: when it closes [group of values]
        jobs.shares?: its share of the year by yearly aim, straight lines between them [list]
        jobs.shares.aim_lb_kft2: yearly aim, in the pounds per 1,000 ft2 it is printed in [lb/1000 ft2; 0 to 20]
        jobs.shares.share: share of the year's nitrogen [share; 0 to 1]
        first: a day of the first week, which begins on a Monday [date]
        weeks: how many weeks [weeks; 1 to 60]
        turf: season of the grass [one of cool, warm]
        aim_n_kg_m2: nitrogen of a year [kg/m2; 0 to 0.1]
    Returns:
        weeks: each week [list]
        weeks.week: its place, the first being 0 [place]
        weeks.date: its Monday [date]
        weeks.n_kg_m2: nitrogen it asks for [kg/m2]
        weeks.potential: growth potential of its middle [share]
        n_kg_m2: nitrogen of all these weeks [kg/m2]
        windows: the feeding windows [list]
        windows.job: its name [text]
        windows.opens: first day; null where the year never has it [date or null]
        windows.closes: last day [date or null]
        windows.share: its share of the year at this aim [share]
        windows.n_kg_m2: nitrogen of the whole window [kg/m2]
    Raises:
        out_of_range: a number is outside its range
    Source: illinois_n
    Checked: an aim of 2 lb is half for early May, half for early September (illinois_n)
    """
    kind, aim = choice("turf", turf, TURFS), number("aim_n_kg_m2", aim_n_kg_m2)
    monday = monday_of(day_number("first", first))
    year = year_of(climate)
    year["growth"] = growth_of(year, kind)
    found, rows = [0.0] * whole("weeks", weeks), []
    for at, item in enumerate(listing("jobs", jobs, 1, MOST_JOBS)):
        path = "jobs[" + str(at) + "]"
        row = item if isinstance(item, dict) else group(path, item, ())
        if row.get("sort") == "feed" and row.get("turf", kind) == kind:
            rows.append(window_of(path, row, year, monday, aim, found))
    shown = _weeks(found, year, monday)
    value: dict[str, object] = {"weeks": shown, "n_kg_m2": total(found), "windows": rows}
    return value, _working(rows, found, aim)


def monday_of(day: int) -> int:
    """The Monday of a day's week."""
    return day - (day - 1) % WEEK


def window_of(
    path: str, row: "dict[str, Any]", year: "dict[str, Any]", monday: int, aim: float, found: list[float]
) -> "dict[str, Any]":
    """One window's share, put into the weeks it lies in by the growth of its days."""
    share = share_of(path, row, aim)
    span = span_of(year, job_of(path, row))
    told: dict[str, Any] = {"job": row["job"], "opens": None, "closes": None, "share": share, "n_kg_m2": aim * share}
    if span is None:
        return told
    opens = next_open(year, span[0], span[1] - span[0], monday)
    told["opens"], told["closes"] = day_text(opens), day_text(opens + span[1] - span[0])
    grown = [year["growth"][(span[0] + at) % DAYS] for at in range(span[1] - span[0] + 1)]
    weights = [one if one >= LEAST_POTENTIAL else 0.0 for one in grown]
    whole_weight = total(weights)
    for at in range(len(weights)):
        week = (opens + at - monday) // WEEK
        if whole_weight > 0.0 and 0 <= week < len(found):
            found[week] += aim * share * weights[at] / whole_weight
    return told


def weekly(turf: str, aim: float, year: "dict[str, Any]", rows: "list[Any]", monday: int, weeks: int) -> "list[float]":
    """Nitrogen asked for in each week by the feeds among a skeleton's rows; the year's growth is that of the grass."""
    found = [0.0] * weeks
    for at, row in enumerate(rows):
        if row.get("sort") == "feed" and row.get("turf", turf) == turf:
            window_of("climate.jobs[" + str(at) + "]", row, year, monday, aim, found)
    return found


def share_of(path: str, row: "dict[str, Any]", aim: float) -> float:
    """Share of the year at an aim; beyond the first and the last aim of the table, theirs."""
    table = []
    for at, item in enumerate(listing(path + ".shares", row.get("shares"), 1, 20)):
        one = group(path + ".shares[" + str(at) + "]", item, ("aim_lb_kft2", "share"))
        inner = path + ".shares[" + str(at) + "]."
        table.append((number(inner + "aim_lb_kft2", one.get("aim_lb_kft2")), number(inner + "share", one.get("share"))))
    table.sort()
    pounds = aim / LB_KFT2
    if pounds <= table[0][0]:
        return table[0][1]
    for at in range(1, len(table)):
        low, high = table[at - 1], table[at]
        if pounds <= high[0]:
            return low[1] + (high[1] - low[1]) * (pounds - low[0]) / (high[0] - low[0])
    return table[-1][1]


def _weeks(found: list[float], year: "dict[str, Any]", monday: int) -> "list[dict[str, object]]":
    rows: list[dict[str, object]] = []
    for week in range(len(found)):
        day = monday + WEEK * week
        middle = turn_of(year, place_of("date", day_text(day + 3)))
        potential = year["growth"][middle]
        rows.append({"week": week, "date": day_text(day), "n_kg_m2": found[week], "potential": potential})
    return rows


def _working(rows: "list[dict[str, Any]]", found: list[float], aim: float) -> "list[dict[str, object]]":
    steps = []
    for row in rows:
        numbers = {"aim_n_kg_m2": aim, "share": row["share"]}
        steps.append(_window_step("Share of the year", "by yearly aim", numbers, row, "share", "share"))
        steps.append(_window_step("Nitrogen of a window", "aim times its share", numbers, row, "n_kg_m2", N_UNIT))
    most = max(found)
    steps.append(
        step(
            what="Nitrogen of the week that asks for most",
            formula="of each window by the growth potential of its days, nothing below 0.15",
            numbers={"week": found.index(most), "least_potential": LEAST_POTENTIAL},
            result=most,
            unit=N_UNIT,
            source=COMMON,
        )
    )
    steps.append(
        step(
            what="Nitrogen of these weeks",
            formula="that of all weeks added",
            numbers={"each_n_kg_m2": found},
            result=total(found),
            unit=N_UNIT,
            source="definition",
        )
    )
    return steps


def _window_step(
    what: str, formula: str, numbers: "dict[str, object]", row: "dict[str, Any]", field: str, unit: str
) -> "dict[str, object]":
    source = "illinois_n" if field == "share" else "definition"
    return step(
        what=what,
        formula=formula,
        numbers=numbers,
        result=row[field],
        unit=unit,
        source=source,
        of=text("job", row["job"]),
    )
