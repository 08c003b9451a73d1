"""Degree days: warmth added up, by the three methods that thresholds were published with."""

import math

from lawn.engine.core.dates import day_number, day_text
from lawn.engine.core.errors import impossible, missing
from lawn.engine.core.numeric import choice, flag, number, optional_number, total
from lawn.engine.core.rows import column, rows_of, unbroken
from lawn.engine.core.working import COMMON, DEFINITION, step

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

METHODS = ("mean", "modified", "sine")
SOURCES = {"mean": "wsu_2013", "modified": "isu_agron541", "sine": "baskerville_1969"}
SAYS = {
    "mean": "mean of lowest and highest, no higher than the upper limit, less the base; never below 0",
    "modified": "lowest and highest each brought between base and upper limit, their mean less the base",
    "sine": "a sine through lowest and highest: its area above the base, less that above the upper limit",
}
# Month and day counting begins on; half a year on in the south (common practice for the south).
COUNTS = {"february": ("-02-15", "-08-15"), "january": ("-01-01", "-07-01")}
MOST_DAYS = 1000
SMALL = 0.5  # radians: below, the difference of sine and arc is taken by its series
NOWHERE = 1000.0  # an upper limit that no day reaches


def sine_above_c(*, min_c: float, max_c: float, base_c: float) -> float:
    """Mean over a day of what a sine through its lowest and highest has above a threshold.

    Args:
        min_c: lowest temperature of the day [C; -60 to 60]
        max_c: highest temperature of the day [C; -60 to 60]
        base_c: the threshold [C; -10 to 40]
    Returns:
        above_c: degree days of the day [C day]
    Raises:
        out_of_range: an argument is outside its range
    Source: baskerville_1969
    """
    if min_c >= base_c:
        return (min_c + max_c) / 2.0 - base_c
    if max_c <= base_c:
        return 0.0
    half = (max_c - min_c) / 2.0
    arc = math.acos((base_c - (min_c + max_c) / 2.0) / half)
    return half * _sine_less_arc(arc) / math.pi


def _sine_less_arc(arc: float) -> float:
    """Sine of an arc less the arc times its cosine; both runtimes agree on it for small arcs too."""
    if arc > SMALL:
        return math.sin(arc) - arc * math.cos(arc)
    term, found = arc * arc * arc / 3.0, 0.0
    for k in range(1, 9):
        found += term
        # the next term of sum (-1)^(k+1) 2k arc^(2k+1) / (2k+1)!
        term *= -arc * arc * (k + 1.0) / (k * (2.0 * k + 2.0) * (2.0 * k + 3.0))
    return found


def day_degrees_c(*, min_c: float, max_c: float, base_c: float, method: str, upper_c: float) -> float:
    """Degree days of one day.

    Args:
        min_c: lowest temperature of the day [C; -60 to 60]
        max_c: highest temperature of the day [C; -60 to 60]
        base_c: temperature from which they count [C; -10 to 40]
        method: how they are counted [one of mean, modified, sine]
        upper_c: temperature above which nothing more counts [C; 0 to 1000]
    Returns:
        degrees_c: degree days [C day]
    Raises:
        out_of_range: an argument is outside its range
    Source: wsu_2013
    """
    if method == "sine":
        return sine_above_c(min_c=min_c, max_c=max_c, base_c=base_c) - sine_above_c(
            min_c=min_c, max_c=max_c, base_c=upper_c
        )
    if method == "modified":
        return (_between(min_c, base_c, upper_c) + _between(max_c, base_c, upper_c)) / 2.0 - base_c
    return max(0.0, min((min_c + max_c) / 2.0, upper_c) - base_c)


def _between(value: float, low: float, high: float) -> float:
    return min(max(value, low), high)


def degree_days(
    *,
    days: object,
    base_c: float,
    method: str,
    upper_c: float | None = None,
    count_from: str | None = None,
    southern: bool | None = None,
) -> tuple[dict[str, object], "list[dict[str, object]]"]:
    """Degree days of each day and their sum.

    Args:
        days: the days in order [list]
        days.date?: the day; needed where counting begins on a date [date]
        days.min_c: its lowest temperature [C; -60 to 60]
        days.max_c: its highest temperature [C; -60 to 60]
        base_c: temperature from which they count [C; -10 to 40]
        method: how they are counted; a threshold belongs to the method it was found with [one of mean, modified, sine]
        upper_c?: temperature above which nothing more counts [C; 0 to 60]
        count_from?: begin on 15 February or 1 January, in the south 15 August or 1 July; else with the first
            day [one of february, january]
        southern?: true in the southern hemisphere [true or false]
    Returns:
        daily: degree days of each day; 0 before counting begins [list of numbers]
        total: their sum [C day]
        from: first day that counts; null where the days have no dates [date or null]
    Raises:
        out_of_range: an argument is outside its range
        impossible: a day's lowest is above its highest, the upper limit is not above the base, or days are left out
        missing_argument: counting is to begin on a date and the days have none
    Source: wsu_2013
    Checked: 70 and 40 F over 50 F give 5 degree days by the mean (wsu_2013)
    """
    rows = rows_of("days", days, ("date", "min_c", "max_c"), MOST_DAYS)
    lows, highs = column("days", rows, "min_c"), column("days", rows, "max_c")
    _ordered(lows, highs)
    base = number("base_c", base_c)
    upper = _upper(base, upper_c)
    way = choice("method", method, METHODS)
    first, skipped = _begins(rows, count_from, flag("southern", southern))
    daily = []
    for at in range(len(rows)):
        one = day_degrees_c(min_c=lows[at], max_c=highs[at], base_c=base, method=way, upper_c=upper)
        daily.append(one if at >= skipped else 0.0)
    whole = total(daily)
    value: dict[str, object] = {"daily": daily, "total": whole, "from": first}
    return value, _working(lows[-1], highs[-1], base, upper, way, daily, whole, first)


def _ordered(lows: list[float], highs: list[float]) -> None:
    for at in range(len(lows)):
        if lows[at] > highs[at]:
            message = "The lowest temperature of a day cannot be above its highest."
            raise impossible(name="days[" + str(at) + "].min_c", value=lows[at], message=message, high=highs[at])


def _upper(base: float, upper_c: float | None) -> float:
    upper = optional_number("upper_c", upper_c)
    if upper is not None and upper <= base:
        message = "The upper limit must lie above the base."
        raise impossible(name="upper_c", value=upper, message=message, low=base)
    return NOWHERE if upper is None else upper


def _begins(rows: "list[dict[str, Any]]", count_from: str | None, southern: bool) -> "tuple[str | None, int]":
    """First day that counts, and how many stand before it."""
    if count_from is None:
        dated = rows[0].get("date") is not None
        return (day_text(unbroken("days", rows)) if dated else None), 0
    way = choice("count_from", count_from, tuple(sorted(COUNTS)))
    if rows[0].get("date") is None:
        raise missing(name="days[0].date")
    start = unbroken("days", rows)
    last = start + len(rows) - 1
    begin = _latest(last, COUNTS[way][1 if southern else 0])
    return day_text(begin), max(0, begin - start)


def _latest(last: int, month_day: str) -> int:
    """The last such day of a year that is not after the last day given."""
    year = int(day_text(last)[:4])
    found = day_number("date", str(year) + month_day)
    return found if found <= last else day_number("date", str(year - 1) + month_day)


def _working(
    low: float,
    high: float,
    base: float,
    upper: float,
    way: str,
    daily: list[float],
    whole: float,
    first: str | None,
) -> "list[dict[str, object]]":
    numbers: dict[str, object] = {"min_c": low, "max_c": high, "base_c": base}
    if upper < NOWHERE:
        numbers["upper_c"] = upper
    steps = [
        step(
            what="Degree days of the last day",
            formula=SAYS[way],
            numbers=numbers,
            result=daily[-1],
            unit="C day",
            source=SOURCES[way],
        ),
        step(
            what="Degree days together",
            formula="those of all days that count, added",
            numbers={"days": len(daily)},
            result=whole,
            unit="C day",
            source=DEFINITION,
        ),
    ]
    if first is not None:
        steps.append(
            step(
                what="First day that counts",
                formula="15 February or 1 January, half a year on in the south; else the first day given",
                numbers={"days": len(daily)},
                result=first,
                unit="date",
                source=COMMON,
            )
        )
    return steps
