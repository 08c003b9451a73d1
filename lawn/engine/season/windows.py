"""Windows of a year's jobs, dated by warmth on its way up or down, so that either half of the globe dates itself."""

from lawn.engine.core.dates import day_number, day_text
from lawn.engine.core.errors import missing
from lawn.engine.core.numeric import at_least, choice, group, listing, number, optional_number, text
from lawn.engine.core.working import COMMON, step
from lawn.engine.season.turning import HALF, LEAP_BEFORE, growth_of, is_southern, next_open, turn_of, year_of
from lawn.engine.warmth.climate import DAYS
from lawn.engine.warmth.response import TURFS

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

MOST_JOBS = 100
MEASURES = ("soil", "air", "growth", "frost", "month", "opened")
WAYS = ("up", "down")
FROST_C = 9.0  # usual mean of the week in which first frosts fall (from memory; the household's own date is better)
EDGE = ("measure", "way", "edge_c", "edge_potential", "month", "shift_days")
SAYS = {
    "soil": "the first day on which three days of soil reach it on the way",
    "air": "the first day on which a week of air reaches it on the way",
    "growth": "the first day on which the growth potential reaches it on the way",
    "frost": "the first day on which a week's air is as cool as when first frosts fall",
    "month": "the first day of a month, half a year on south of the equator",
    "opened": "so many days after it opens",
}


def windows(*, climate: object, jobs: object, first: str, turf: str) -> "tuple[dict[str, object], list[Any]]":
    """Dates of each job's window, the next one that is still open on the first day or opens after it.

    Args:
        climate: the place's usual year [group of values]
        climate.daily_mean_c?: usual mean of each day, 1 January first, 29 February among them [list of numbers]
        climate.monthly_mean_c?: means of the twelve months instead, January first [list of numbers]
        climate.warmest_c?: mean of the warmest month, where the twelve are not known [C; -60 to 60]
        climate.coldest_c?: mean of the coldest month, with it [C; -60 to 60]
        climate.southern?: true where January is warm; asked for only with these two [true or false]
        jobs: what is done in a year [list]
        jobs.job: its name [text]
        jobs.opens: when it opens [group of values]
        jobs.opens.measure: what it goes by [one of soil, air, growth, frost, month, opened]
        jobs.opens.way?: on the way up, after the coldest day, or down, after the warmest [one of up, down]
        jobs.opens.edge_c?: temperature, of soil or air [C; -30 to 60]
        jobs.opens.edge_potential?: share of the best growth [share; 0 to 1]
        jobs.opens.month?: month of the northern year, of its first day [month; 1 to 12]
        jobs.opens.shift_days?: so many days after that, or before it [day; -200 to 200]
        jobs.closes: when it closes [group of values]
        jobs.closes.measure: what it goes by [one of soil, air, growth, frost, month, opened]
        jobs.closes.way?: on the way up or down [one of up, down]
        jobs.closes.edge_c?: temperature, of soil or air [C; -30 to 60]
        jobs.closes.edge_potential?: share of the best growth [share; 0 to 1]
        jobs.closes.month?: month of the northern year, of its first day [month; 1 to 12]
        jobs.closes.shift_days?: so many days after that, or before it [day; -200 to 200]
        first: the first day asked about [date]
        turf: season of the grass [one of cool, warm]
    Returns:
        windows: of each job, in their order [list]
        windows.job: its name [text]
        windows.state: whether such a year has it [one of dated, never]
        windows.opens: first day; null where the year never has it [date or null]
        windows.opens_early: first day, were the soil as much warmer or cooler as its likely error [date or null]
        windows.opens_late: the same the other way [date or null]
        windows.closes: last day [date or null]
        windows.closes_early: last day, were the soil as much off [date or null]
        windows.closes_late: the same the other way [date or null]
        southern: whether the year is coldest in the middle of the calendar's [true or false]
        soil_sd_c: likely error of the soil's temperature [K]
    Raises:
        out_of_range: a number is outside its range
        missing_argument: a window has no temperature, growth or month to go by
    Source: msu_2020
    Checked: soil of 10 to 12.8 C is the window of a spring pre-emergent (msu_2020)
    """
    from_day = day_number("first", first)
    kind = choice("turf", turf, TURFS)
    year = year_of(climate)
    year["growth"] = growth_of(year, kind)
    found: list[dict[str, object]] = []
    working: list[dict[str, object]] = []
    for at, item in enumerate(listing("jobs", jobs, 1, MOST_JOBS)):
        row = job_of("jobs[" + str(at) + "]", item)
        spans = [_span(year, row, off) for off in (0.0, -year["soil_sd_c"], year["soil_sd_c"])]
        found.append(_dated(year, row, spans, from_day))
        working += _working(row, found[-1])
    value: dict[str, object] = {"windows": found, "southern": is_southern(year), "soil_sd_c": year["soil_sd_c"]}
    return value, working + [_error_step(year)]


def job_of(path: str, item: object) -> "dict[str, Any]":
    """A job with its two edges checked; what else its row says is let pass."""
    row = item if isinstance(item, dict) else group(path, item, ())
    checked = {"job": text(path + ".job", row.get("job"))}
    for end in ("opens", "closes"):
        checked[end] = _edge(path + "." + end, row.get(end))  # type: ignore[assignment]
    return checked


def span_of(year: "dict[str, Any]", row: "dict[str, Any]") -> "tuple[int, int] | None":
    """Days after the coldest one on which a job's window opens and closes; nothing where the year has none."""
    return _span(year, row, 0.0)


def _edge(path: str, value: object) -> "dict[str, Any]":
    given = group(path, value, EDGE)
    measure = choice(path + ".measure", given.get("measure"), MEASURES)
    shift = optional_number(path + ".shift_days", given.get("shift_days"))
    edge: dict[str, Any] = {"measure": measure, "shift": 0 if shift is None else int(shift), "mark": 0.0, "way": "up"}
    if measure in ("soil", "air", "growth"):
        edge["way"] = choice(path + ".way", given.get("way"), WAYS)
        field = "edge_potential" if measure == "growth" else "edge_c"
        edge["mark"] = number(path + "." + field, given.get(field))
    elif measure == "frost":
        edge["way"], edge["mark"] = "down", FROST_C
    elif measure == "month":
        edge["mark"] = number(path + ".month", given.get("month"))
    elif shift is None:
        raise missing(name=path + ".shift_days", low=-200, high=200)
    return edge


def _span(year: "dict[str, Any]", row: "dict[str, Any]", off_c: float) -> "tuple[int, int] | None":
    """Opening and closing day with the soil's marks moved by so much in the way of the earlier day."""
    opens = _day(year, row["opens"], off_c, None)
    if opens is None:
        return None
    closes = _day(year, row["closes"], off_c, opens)
    if closes is None:  # never reached: it stays open until the year turns
        closes = year["warmest"] if row["closes"]["way"] == "up" else DAYS
    around = row["closes"]["measure"] == "month" or (row["opens"]["way"] == "down" and row["closes"]["way"] == "up")
    if closes < opens and around:
        closes += DAYS
    return None if closes < opens else (opens, closes)


def _day(year: "dict[str, Any]", edge: "dict[str, Any]", off_c: float, opened: "int | None") -> "int | None":
    measure, mark = edge["measure"], edge["mark"]
    if measure == "opened":
        return (opened or 0) + int(edge["shift"])
    if measure == "month":
        place = LEAP_BEFORE[int(mark) - 1] + (HALF if is_southern(year) else 0)
        return turn_of(year, (place + edge["shift"]) % DAYS)
    series = year["air" if measure == "frost" else measure]
    up = edge["way"] == "up"
    if measure == "soil":
        mark += off_c if up else -off_c
    for day in range(0 if up else year["warmest"], year["warmest"] + 1 if up else DAYS):
        if at_least(series[day], mark) if up else at_least(mark, series[day]):
            return int(day + edge["shift"])
    return None


def _dated(year: "dict[str, Any]", row: "dict[str, Any]", spans: "list[Any]", first: int) -> "dict[str, object]":
    dated: dict[str, object] = {"job": row["job"], "state": "dated" if spans[0] else "never"}
    names = (("opens", "closes"), ("opens_early", "closes_early"), ("opens_late", "closes_late"))
    start = next_open(year, spans[0][0], spans[0][1] - spans[0][0], first) if spans[0] else 0
    for span, pair in zip(spans, names):  # noqa: B905  # MicroPython's zip has no strict
        for at in range(2):
            near = span or spans[0]
            dated[pair[at]] = day_text(start + near[at] - spans[0][0]) if spans[0] else None
    return dated


def _working(row: "dict[str, Any]", dated: "dict[str, object]") -> "list[dict[str, object]]":
    steps = []
    for end in ("opens", "closes"):
        edge = row[end]
        steps.append(
            step(
                what=row["job"] + (" opens" if end == "opens" else " closes"),
                formula=SAYS[edge["measure"]],
                numbers={"mark": edge["mark"], "way": edge["way"], "shift_days": edge["shift"]},
                result=dated[end],
                unit="date",
                source=COMMON,
                of=row["job"],
            )
        )
    return steps


def _error_step(year: "dict[str, Any]") -> "dict[str, object]":
    return step(
        what="Likely error of the soil's temperature",
        formula="as that of a year of daily means",
        numbers={"days": DAYS},
        result=year["soil_sd_c"],
        unit="K",
        source="zheng_1993",
    )
