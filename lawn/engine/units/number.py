"""Numbers as people write them: "5,000", "5 000", "1 1/2", ".5", "22,7" where it cannot mean two things.

The phone reads a bare number by the same grammar (frontend/src/format/number.ts), without waking the engine; all
readers are held to fixtures/units_vectors.json.
"""

from lawn.engine.core.errors import EngineError
from lawn.engine.units.wording import DIGITS, tidy

ALLOWED = "Enter a number such as 12, 5,000, 0.5 or 1 1/2."
GROUP = 3  # figures between two separators of thousands


def refuse(code: str, written: str, message: str) -> EngineError:
    """The error for a text that cannot be read; the text is its value."""
    return EngineError(code=code, name="text", value=written, message=message)


def number_of(*, written: str, comma: bool) -> float:
    """The number written.

    A comma before exactly three figures groups thousands ("5,000"), except after a lone zero ("0,500"). Where a decimal
    comma is usual, a point before three figures that end in 0 ("1.000", "2.500") can mean either, and is refused.

    Args:
        written: a number alone [text]
        comma: a decimal comma is usual here, as with metric units [true or false]
    Returns:
        value: the number [number]
    Raises:
        empty: nothing is written
        not_a_number: it is none
        grouping: it is grouped in a way that cannot be read
        comma: its comma can be read two ways
        point: its point can be read two ways
        zero_division: a fraction over 0
    Source: definition
    """
    body = tidy(written=written)
    if not body:
        raise refuse("empty", written, "Nothing is written here. " + ALLOWED)
    sign = -1.0 if body[0] == "-" else 1.0
    return sign * _unsigned(body[1:].strip() if body[0] in "+-" else body, written, comma)


def figures(words: str) -> bool:
    """Tell whether a text is figures and nothing else."""
    return words != "" and all(one in DIGITS for one in words)


def _unsigned(body: str, written: str, comma: bool) -> float:
    if "/" in body:
        return _fraction(body, written)
    whole, point, decimals = body.partition(".")
    if (figures(whole) and (figures(decimals) or not decimals)) or (not whole and figures(decimals)):
        if comma and _either_way(whole, decimals):
            raise _point(written, whole, decimals)
        return float(body)
    if _grouped(whole) and (not point or figures(decimals)):
        return float(whole.replace(",", "").replace(" ", "") + point + decimals)
    return _with_comma(body, written, comma)


def _fraction(body: str, written: str) -> float:
    """Read 3/4, 1 3/4 or 1-3/4."""
    before, _, bottom = body.partition("/")
    at = max(before.find(" "), before.find("-"))
    whole, top = ("0", before) if at < 0 else (before[:at], before[at + 1 :])
    if not (figures(whole) and figures(top) and figures(bottom)):
        raise _unreadable(body, written)
    if int(bottom) == 0:
        raise refuse("zero_division", written, "The number “" + written + "” divides by zero. " + ALLOWED)
    return float(whole) + float(top) / float(bottom)


def _either_way(whole: str, decimals: str) -> bool:
    """A point that may be a decimal point or group thousands: 1.000, 12.500."""
    return _first_group(whole) and len(decimals) == GROUP and decimals[-1] == "0"


def _point(written: str, whole: str, decimals: str) -> EngineError:
    shorter = decimals
    while shorter.endswith("0"):
        shorter = shorter[:-1]
    small = whole + ("." + shorter if shorter else "")
    ways = small + " or " + whole + "," + decimals
    return refuse("point", written, "The number “" + written + "” can be read two ways. Enter " + ways + ".")


def _first_group(whole: str) -> bool:
    return figures(whole) and len(whole) <= GROUP and whole[0] != "0"


def _grouped(whole: str) -> bool:
    """Whether thousands are grouped rightly, all by commas or all by spaces."""
    for separator in (",", " "):
        groups = whole.split(separator)
        if len(groups) > 1 and _first_group(groups[0]):
            return all(figures(one) and len(one) == GROUP for one in groups[1:])
    return False


def _with_comma(body: str, written: str, comma: bool) -> float:
    whole, found, decimals = body.partition(",")
    if not (found and figures(decimals) and (figures(whole) or (" " in whole and _grouped(whole)))):
        raise _unreadable(body, written)
    lone_zero = whole.replace("0", "") == ""
    if lone_zero or (comma and len(decimals) != GROUP):
        return float(whole.replace(" ", "") + "." + decimals)
    message = (
        "The number “" + written + "” can be read two ways. Enter decimals with a point (22.7) and thousands as 5,000."
    )
    raise refuse("comma", written, message)


def _unreadable(body: str, written: str) -> EngineError:
    if body and all(one in DIGITS + "., " for one in body):
        return refuse(
            "grouping", written, "The number “" + written + "” is grouped in a way that cannot be read. " + ALLOWED
        )
    return refuse("not_a_number", written, "The text “" + written + "” is not a number. " + ALLOWED)
