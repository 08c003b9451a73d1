"""A year as it turns: from its coldest day to its warmest and back, with what windows are measured by."""

from lawn.engine.core.dates import day_number, day_text
from lawn.engine.core.numeric import group, listing, number, total
from lawn.engine.nutrition.potential import potential_share
from lawn.engine.warmth.climate import DAYS
from lawn.engine.warmth.climate import climate as usual
from lawn.engine.warmth.soil import soil

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

HALF = 183  # days from a date to the same warmth on the other side of the equator
SOIL_DAYS = 3  # days whose mean counts, ending on the day itself
AIR_DAYS = 7
TURN_DAYS = 31  # a turn of the year is told by a month's mean, not by one day
WARM_UP = 60  # days before the first, so that the soil has forgotten where it began
LEAP_BEFORE = (0, 31, 60, 91, 121, 152, 182, 213, 244, 274, 305, 335, 366)


def year_of(climate: object) -> "dict[str, Any]":
    """A climate as lists of 366 days that begin with the coldest one.

    Args:
        climate: daily_mean_c, the usual mean of each day of a leap year; or what warmth.climate takes [group of values]
    Returns:
        year: air, soil and growth from the coldest day on, which day that is, how many days on the warmest is
            [group of values]
    """
    daily = _daily(climate)
    slow = _means(daily, TURN_DAYS, TURN_DAYS // 2)
    coldest = _place(slow, min(slow))
    under, _ = soil(days=[{"mean_c": one} for one in daily[-WARM_UP:] + daily])
    return {
        "coldest": coldest,
        "warmest": (_place(slow, max(slow)) - coldest) % DAYS,
        "air": _from(coldest, _means(daily, AIR_DAYS, 0)),
        "soil": _from(coldest, _means(under["daily_c"][WARM_UP:], SOIL_DAYS, 0)),  # type: ignore[index]
        "soil_sd_c": under["sd_c"][-1],  # type: ignore[index]
    }


def _daily(value: object) -> list[float]:
    given = group("climate", value, ("daily_mean_c", "monthly_mean_c", "warmest_c", "coldest_c", "southern"))
    if given.get("daily_mean_c") is None:
        rest = [
            name for name in ("monthly_mean_c", "warmest_c", "coldest_c", "southern") if given.get(name) is not None
        ]
        found, _ = usual(**{name: given[name] for name in rest})  # type: ignore[arg-type]
        return found["daily_mean_c"]  # type: ignore[return-value]
    days = listing("climate.daily_mean_c", given.get("daily_mean_c"), DAYS, DAYS)
    return [number("climate.daily_mean_c", one) for one in days]


def growth_of(year: "dict[str, Any]", turf: str) -> list[float]:
    """Growth potential of each day of such a year."""
    return [potential_share(mean_c=one, turf=turf) for one in year["air"]]


def is_southern(year: "dict[str, Any]") -> bool:
    """Whether the coldest day lies in the middle of the calendar year."""
    return 91 <= int(year["coldest"]) < 274


def place_of(name: str, value: object) -> int:
    """Which of a leap year's 366 days a date is, 1 January being 0."""
    day_number(name, value)
    written = str(value)
    return LEAP_BEFORE[int(written[5:7]) - 1] + int(written[8:10]) - 1


def turn_of(year: "dict[str, Any]", place: int) -> int:
    """How many days after the coldest one a day of the calendar is."""
    return int((place - year["coldest"]) % DAYS)


def date_in(calendar_year: int, place: int) -> int:
    """Number of the day at that place of a leap year; 29 February is 1 March in other years."""
    month = next(at for at in range(12) if place < LEAP_BEFORE[at + 1])
    day = place - LEAP_BEFORE[month] + 1
    leap = calendar_year % 4 == 0 and (calendar_year % 100 != 0 or calendar_year % 400 == 0)
    if month == 1 and day == 29 and not leap:
        month, day = 2, 1
    return day_number("date", _written(calendar_year, month + 1, day))


def next_open(year: "dict[str, Any]", opens: int, days: int, first: int) -> int:
    """Number of the day on which a window that is open for so many days opens, where it closes on `first` or later."""
    place = (opens + year["coldest"]) % DAYS
    around = int(day_text(first)[:4])
    for calendar_year in range(around - 2, around + 2):
        found = date_in(calendar_year, place)
        if found + days >= first:
            return found
    return date_in(around + 2, place)


def _written(calendar_year: int, month: int, day: int) -> str:
    return str(calendar_year) + "-" + ("0" + str(month))[-2:] + "-" + ("0" + str(day))[-2:]


def _means(values: list[float], days: int, ahead: int) -> list[float]:
    """Means over so many days in a year that goes round, ending `ahead` days after each."""
    count = len(values)
    return [total([values[(at + ahead - back) % count] for back in range(days)]) / days for at in range(count)]


def _place(values: list[float], value: float) -> int:
    return next(at for at in range(len(values)) if values[at] == value)


def _from(first: int, values: list[float]) -> list[float]:
    return values[first:] + values[:first]
