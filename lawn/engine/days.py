"""Dates and moments written as ISO 8601 text, as both runtimes read them."""

from datetime import date

from lawn.engine.errors import wrong_type
from lawn.engine.numeric import text

DATE_LENGTH = 10


def day_number(name: str, value: object) -> int:
    """Number of a day in one unbroken count.

    Args:
        name: path of the argument, for error names [text]
        value: a date as 2026-05-01, or a moment beginning with one [text]
    Returns:
        day: days since the calendar's beginning [day]
    Raises:
        wrong_type: the text is no date of the calendar
    Source: definition
    """
    written = text(name, value)[:DATE_LENGTH]
    if len(written) == DATE_LENGTH and _digits(written, (0, 1, 2, 3, 5, 6, 8, 9)) and written[4] + written[7] == "--":
        try:
            return date.fromisoformat(written).toordinal()
        except ValueError:
            pass
    raise wrong_type(name=name, value=value, wanted="a date such as 2026-05-01")


def day_text(day: int) -> str:
    """Date of a day number as 2026-05-01."""
    return date.fromordinal(day).isoformat()


def moment_s(name: str, value: object) -> float:
    """Instant of a moment, so that entries of phones in different time zones fall into one order.

    Args:
        name: path of the argument, for error names [text]
        value: moment with its zone offset as 2026-05-01T18:30:00+02:00 or ...Z; a bare date is its midnight [text]
    Returns:
        seconds: seconds of universal time since the calendar's beginning [s]
    Raises:
        wrong_type: the text is no moment
    Source: definition
    """
    day = day_number(name, value)
    clock, offset_s = _clock_and_offset(name, text(name, value)[DATE_LENGTH:], value)
    return day * 86400.0 + clock - offset_s


def year_of(day: int) -> int:
    """Calendar year of a day number."""
    return date.fromordinal(day).year


def _clock_and_offset(name: str, rest: str, value: object) -> tuple[float, float]:
    if rest == "":
        return 0.0, 0.0
    for at in range(1, len(rest)):
        if rest[at] in "Z+-":
            return _clock(name, rest[1:at], value), _offset(name, rest[at:], value)
    return _clock(name, rest[1:], value), 0.0


def _offset(name: str, written: str, value: object) -> float:
    if written == "Z":
        return 0.0
    sign = -1.0 if written[0] == "-" else 1.0
    digits = written[1:].replace(":", "")
    if len(digits) != 4 or not _digits(digits, (0, 1, 2, 3)):
        raise wrong_type(name=name, value=value, wanted="a moment with its zone offset")
    return sign * (int(digits[:2]) * 3600.0 + int(digits[2:]) * 60.0)


def _clock(name: str, written: str, value: object) -> float:
    parts = written.split(":")
    good = 2 <= len(parts) <= 3 and all(_digits(part[:2], (0, 1)) for part in parts)
    whole_parts = all(len(part) == 2 for part in parts[:2])
    if not good or not whole_parts:
        raise wrong_type(name=name, value=value, wanted="a moment such as 2026-05-01T18:30:00+02:00")
    seconds = _seconds(name, parts[2], value) if len(parts) == 3 else 0.0
    return int(parts[0]) * 3600.0 + int(parts[1]) * 60.0 + seconds


def _seconds(name: str, written: str, value: object) -> float:
    whole, _, part = written.partition(".")
    if len(whole) != 2 or not _digits(whole + part, tuple(range(2 + len(part)))):
        raise wrong_type(name=name, value=value, wanted="a moment such as 2026-05-01T18:30:00+02:00")
    return float(int(whole)) + (int(part) / 10.0 ** len(part) if part else 0.0)


def _digits(written: str, places: tuple[int, ...]) -> bool:
    return all(place < len(written) and written[place] in "0123456789" for place in places)
