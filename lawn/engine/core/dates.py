"""Dates and moments written as ISO 8601 text, as both runtimes read them."""

from datetime import date

from lawn.engine.core.errors import EngineError, wrong_type
from lawn.engine.core.numeric import text

DATE_LENGTH = 10
# Counted by hand: MicroPython's own dates cost half a millisecond each on a phone, and a book has thousands.
MONTH_DAYS = (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)
DAYS_BEFORE = (0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334)
FIRST_YEAR = 1900
LAST_YEAR = 2200
# Clocks and time zones stand at most a day apart: what is dated later than tomorrow has not been done yet.
AHEAD_DAYS = 1
A_DATE = "a date such as 2026-05-01"
A_MOMENT = "a moment such as 2026-05-01T18:30:00+02:00"


def day_number(name: str, value: object) -> int:
    """Number of a day in one unbroken count.

    Args:
        name: path of the argument, for error names [text]
        value: a date as 2026-05-01, or a moment beginning with one [text]
    Returns:
        day: days since the calendar's beginning [day]
    Raises:
        wrong_type: the text is no date of the calendar
        out_of_range: the year is before 1900 or after 2200
    Source: definition
    """
    written = text(name, value)[:DATE_LENGTH]
    digits = written[:4] + written[5:7] + written[8:]
    if len(digits) != 8 or not digits.isdigit() or written[4] + written[7] != "--":
        raise wrong_type(name=name, value=value, wanted=A_DATE)
    try:
        year, month, day = int(digits[:4]), int(digits[4:6]), int(digits[6:])
    except ValueError:  # digits of another script
        raise wrong_type(name=name, value=value, wanted=A_DATE) from None
    leap = year % 4 == 0 and (year % 100 != 0 or year % 400 == 0)
    if not 1 <= month <= 12 or not 1 <= day <= MONTH_DAYS[month - 1] + (1 if leap and month == 2 else 0):
        raise wrong_type(name=name, value=value, wanted=A_DATE)
    if not FIRST_YEAR <= year <= LAST_YEAR:
        raise EngineError(
            code="out_of_range",
            name=name,
            value=value,
            low="1900-01-01",
            high="2200-12-31",
            message="This date is outside the calendar of the book.",
        )
    past = year - 1
    day += DAYS_BEFORE[month - 1] + (1 if leap and month > 2 else 0)
    return past * 365 + past // 4 - past // 100 + past // 400 + day


def day_text(day: int) -> str:
    """Date of a day number as 2026-05-01."""
    return date.fromordinal(day).isoformat()


def year_of(day: int) -> int:
    """Calendar year of a day number."""
    return date.fromordinal(day).year


def moment_s(name: str, value: object) -> float:
    """Instant of a moment, so that entries of phones in different time zones fall into one order.

    Args:
        name: path of the argument, for error names [text]
        value: moment with its zone offset as 2026-05-01T18:30:00+02:00 or ...Z; a bare date is its midnight [text]
    Returns:
        seconds: seconds of universal time since the calendar's beginning [s]
    Raises:
        wrong_type: the text is no moment
        out_of_range: the year is before 1900 or after 2200
    Source: definition
    """
    day = day_number(name, value)
    rest = text(name, value)[DATE_LENGTH:]
    if rest == "":
        return day * 86400.0
    at = _offset_at(rest)
    return day * 86400.0 + _clock(name, rest[1:at], value) - _offset(name, rest[at:], value)


def _offset_at(rest: str) -> int:
    """Where the zone offset begins in the part after the date; its end where there is none."""
    for sign in ("Z", "+", "-"):
        at = rest.find(sign)
        if at > 0:
            return at
    return len(rest)


def _offset(name: str, written: str, value: object) -> float:
    if written in ("", "Z"):
        return 0.0
    digits = written[1:].replace(":", "")
    if len(digits) != 4 or not digits.isdigit():
        raise wrong_type(name=name, value=value, wanted=A_MOMENT)
    seconds = int(digits[:2]) * 3600.0 + int(digits[2:]) * 60.0
    return -seconds if written[0] == "-" else seconds


def _clock(name: str, written: str, value: object) -> float:
    """Seconds since midnight of 18:30, 18:30:05 or 18:30:05.250."""
    clock, _, part = written.partition(".")
    two = clock.split(":")
    good = 2 <= len(two) <= 3 and all(len(each) == 2 and each.isdigit() for each in two)
    if not good or (part and not part.isdigit()):
        raise wrong_type(name=name, value=value, wanted=A_MOMENT)
    hours, minutes = int(two[0]), int(two[1])
    seconds = int(two[2]) if len(two) == 3 else 0
    if hours > 23 or minutes > 59 or seconds > 60:
        raise wrong_type(name=name, value=value, wanted=A_MOMENT)
    fraction = int(part) / 10.0 ** len(part) if part else 0.0
    return hours * 3600.0 + minutes * 60.0 + seconds + fraction
