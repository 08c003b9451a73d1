"""The usual warmth of each day of the year, from twelve monthly means or from two numbers people know."""

import math

from lawn.engine.core.dates import DAYS_BEFORE
from lawn.engine.core.errors import impossible, missing
from lawn.engine.core.numeric import flag, listing, number, optional_number, total
from lawn.engine.core.working import step

DAYS = 366  # a leap year's, so that every date has its place
MONTH_DAYS = (31, 29, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)
# The middle of July, and half a year from it the middle of January: the warmest and the coldest month of the northern
# temperate zone (common practice).
WARMEST_DAY = 197.5
MONTH_SHARE = math.sin(math.pi / 12.0) / (math.pi / 12.0)  # of the swing is left in the mean of a month
ROUNDS = 40  # each brings the means of the months closer by a factor of about three


def climate(
    *,
    monthly_mean_c: "list[float] | None" = None,
    warmest_c: float | None = None,
    coldest_c: float | None = None,
    southern: bool | None = None,
) -> tuple[dict[str, object], "list[dict[str, object]]"]:
    """Usual mean temperature of each day of a leap year.

    Args:
        monthly_mean_c?: means of the twelve months, January first [list of numbers]
        warmest_c?: mean of the warmest month, where the twelve are not known [C; -60 to 60]
        coldest_c?: mean of the coldest month, with it [C; -60 to 60]
        southern?: true where January is warm; asked for only with these two [true or false]
    Returns:
        daily_mean_c: usual mean of each day, 1 January first, 29 February among them [list of numbers]
        monthly_mean_c: means of the twelve months [list of numbers]
        annual_mean_c: mean of the year [C]
        southern: true where the warm half of the year is around January [true or false]
        from_two: true where the year was drawn as a sine through two numbers [true or false]
    Raises:
        out_of_range: a temperature is outside its range
        missing_argument: neither twelve means nor both of two were given
        impossible: the coldest month is warmer than the warmest
    Source: okstate_sine
    Checked: half a year after the warmest day a sine is at its coldest (okstate_sine)
    """
    two = monthly_mean_c is None
    if two:
        south = flag("southern", southern)
        daily, numbers = _sine(warmest_c, coldest_c, south)
    else:
        monthly = [_month(at, one) for at, one in enumerate(listing("monthly_mean_c", monthly_mean_c, 12, 12))]
        daily, numbers = _through(monthly), {"monthly_mean_c": monthly}
        south = total(monthly[3:9]) < total(monthly[:3] + monthly[9:])
    months = monthly_of(daily)
    mean = total(daily) / DAYS
    value: dict[str, object] = {
        "daily_mean_c": daily,
        "monthly_mean_c": months,
        "annual_mean_c": mean,
        "southern": south,
        "from_two": two,
    }
    return value, _working(two, numbers, daily, months, mean)


def monthly_of(daily: list[float]) -> list[float]:
    """Means of the twelve months of a leap year's days."""
    found, first = [], 0
    for days in MONTH_DAYS:
        found.append(total(daily[first : first + days]) / days)
        first += days
    return found


def _month(at: int, value: object) -> float:
    return number("monthly_mean_c[" + str(at) + "]", value)


def _sine(warmest_c: float | None, coldest_c: float | None, southern: bool) -> "tuple[list[float], dict[str, object]]":
    warm, cold = optional_number("warmest_c", warmest_c), optional_number("coldest_c", coldest_c)
    if warm is None or cold is None:
        raise missing(name="warmest_c" if warm is None else "coldest_c", low=-60.0, high=60.0)
    if cold > warm:
        message = "The coldest month cannot be warmer than the warmest."
        raise impossible(name="coldest_c", value=cold, message=message, high=warm)
    middle, swing = (warm + cold) / 2.0, (warm - cold) / 2.0 / MONTH_SHARE
    daily = []
    for at in range(DAYS):
        turn = 2.0 * math.pi * (at + 0.5 - WARMEST_DAY) / DAYS
        daily.append(middle + (-swing if southern else swing) * math.cos(turn))
    return daily, {"warmest_c": warm, "coldest_c": cold}


def _through(monthly: list[float]) -> list[float]:
    """Straight lines between the middles of months, their ends shifted until each month has its mean."""
    shares = [(_reach_share(month, month - 1), _reach_share(month, (month + 1) % 12)) for month in range(12)]
    knots = monthly[:]
    for _ in range(ROUNDS):
        now = []
        for month in range(12):
            before, after = shares[month]
            own = knots[month]
            now.append(own + before * (knots[month - 1] - own) + after * (knots[(month + 1) % 12] - own))
        knots = [knots[month] + monthly[month] - now[month] for month in range(12)]
    return _lines(knots)


def _reach_share(month: int, other: int) -> float:
    """How far the mean of a month is drawn by the middle of its neighbour."""
    days = MONTH_DAYS[month]
    reach = (days + MONTH_DAYS[other]) / 2.0
    offs = [abs(day + 0.5 - days / 2.0) for day in range(days // 2)]
    return total(offs) / reach / days


def _lines(knots: list[float]) -> list[float]:
    found = []
    for month in range(12):
        days, before, after = MONTH_DAYS[month], month - 1, (month + 1) % 12
        for day in range(days):
            off = day + 0.5 - days / 2.0
            other = before if off < 0.0 else after
            reach = (days + MONTH_DAYS[other]) / 2.0
            found.append(knots[month] + (knots[other] - knots[month]) * abs(off) / reach)
    return found


def _working(
    two: bool, numbers: dict[str, object], daily: list[float], months: list[float], mean: float
) -> "list[dict[str, object]]":
    steps = [
        step(
            what="Usual mean of 1 July",
            formula="a sine whose warmest and coldest months have these means"
            if two
            else "straight lines between months, shifted until every month has its mean",
            numbers=numbers,
            result=daily[DAYS_BEFORE[6] + 1],
            unit="C",
            source="okstate_sine" if two else "sheng_1998",
        ),
        step(
            what="Mean of the year",
            formula="all 366 days added, over their number",
            numbers={"days": DAYS},
            result=mean,
            unit="C",
            source="definition",
        ),
    ]
    for at in range(12):
        steps.append(
            step(
                what="Mean of month " + str(at + 1),
                formula="its days added, over their number",
                numbers={"days": MONTH_DAYS[at]},
                result=months[at],
                unit="C",
                source="definition",
            )
        )
    return steps
