"""The climate of a place from days of weather."""

from lawn.engine.core.errors import impossible
from lawn.engine.core.numeric import listing, total
from lawn.engine.core.working import COMMON, step
from lawn.engine.weather.days import checked, mean_c

MOST_DAYS = 12000  # over thirty years
FEWEST_DAYS = 20  # of each calendar month: two thirds of one


def months(*, days: object) -> "tuple[dict[str, object], list[dict[str, object]]]":
    """Mean temperature of each calendar month, from days of one year or many.

    Args:
        days: days of weather, in any order [list]
        days.date: the day [date]
        days.min_c?: lowest temperature [C; -60 to 60]
        days.max_c?: highest temperature [C; -60 to 60]
        days.mean_c?: mean temperature; else halfway between the two [C; -60 to 60]
    Returns:
        monthly_mean_c: mean temperature of January to December, in C [list of numbers]
        counted: days behind each of them [list of numbers]
        from: first day counted [date]
        to: last day counted [date]
    Raises:
        impossible: a month has fewer than 20 days with a temperature
        wrong_type: a date is none
        out_of_range: a temperature is outside its range
    Source: common practice
    Checked: nothing: a mean of daily means is what the words say
    """
    rows: list[list[float]] = [[] for _ in range(12)]
    dates: list[str] = []
    for at, item in enumerate(listing("days", days, 1, MOST_DAYS)):
        day = checked("days[" + str(at) + "]", item)
        mean = mean_c(day)
        if mean is not None:
            rows[int(day["date"][5:7]) - 1].append(mean)
            dates.append(day["date"])
    if min([len(row) for row in rows]) < FEWEST_DAYS:
        message = "Each calendar month needs 20 days with a temperature: the table is too short for a climate."
        raise impossible(name="days", value=len(dates), message=message, low=FEWEST_DAYS)
    means = [total(row) / len(row) for row in rows]
    value: dict[str, object] = {
        "monthly_mean_c": means,
        "counted": [len(row) for row in rows],
        "from": min(dates),
        "to": max(dates),
    }
    numbers: dict[str, object] = {"days": len(dates), "from": min(dates), "to": max(dates)}
    formula = "sum of the daily means of each calendar month over their number"
    return value, [
        step(what="Mean of the months", formula=formula, numbers=numbers, result=means, unit="C", source=COMMON)
    ]
