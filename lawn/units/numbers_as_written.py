"""Numbers as people write them: "5,000", "1 1/2", ".5", "22,7" (only where it cannot mean two things).

The phone reads the same grammar (frontend/src/format/number.ts; with a unit, lawn/engine/units/number.py); all are
held to fixtures/units_vectors.json. Values stay exact fractions until the caller makes a float of them.
"""

import re
from fractions import Fraction

ALLOWED = "Enter a number such as 12, 5,000, 0.5 or 1 1/2."

_SPACES = re.compile(r"[\s\u00a0\u2007\u2009\u202f]+")
_VULGAR = {
    "½": "1/2", "¼": "1/4", "¾": "3/4", "⅓": "1/3", "⅔": "2/3",
    "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8",
}  # fmt: skip

_MIXED = re.compile(r"(\d+)[ -](\d+)/(\d+)", re.ASCII)
_FRACTION = re.compile(r"(\d+)/(\d+)", re.ASCII)
_PLAIN = re.compile(r"\d+\.?\d*|\.\d+", re.ASCII)
_EITHER = re.compile(r"[1-9]\d{0,2}\.\d\d0", re.ASCII)
_GROUPED = re.compile(r"[1-9]\d{0,2}(?:,\d{3})+(?:\.\d+)?|[1-9]\d{0,2}(?: \d{3})+(?:\.\d+)?", re.ASCII)
_COMMA = re.compile(r"\d+,\d+|[1-9]\d{0,2}(?: \d{3})+,\d+", re.ASCII)


class WrittenError(ValueError):
    """What was written cannot be read. Carries a code for programs and a sentence for people."""

    def __init__(self, code: str, value: str, message: str) -> None:
        super().__init__(message)
        self.code = code
        self.value = value
        self.message = message


def tidy(text: str) -> str:
    """Rewrite the text with one kind of space, one kind of minus, and printed fractions spelled out."""
    for sign, spelled in _VULGAR.items():
        text = text.replace(sign, f" {spelled}")
    return _SPACES.sub(" ", text.replace("\u2212", "-").replace("\u2044", "/")).strip()


def read_number(text: str, *, comma: bool = False) -> Fraction:
    """Read the number written in `text`, exactly.

    comma: True where a decimal comma is usual (metric units), so "22,7" is 22.7. A comma before
    exactly three digits always groups thousands ("5,000"), except after a lone zero ("0,500"). There, too,
    a point before three digits that end in 0 ("1.000", "2.500") can mean either, and is refused.
    Raises WrittenError (empty, not_a_number, grouping, comma, point, zero_division).
    """
    written = tidy(text)
    if not written:
        raise WrittenError("empty", text, f"Nothing is written here. {ALLOWED}")
    sign = -1 if written.startswith("-") else 1
    body = written[1:].strip() if written[0] in "+-" else written
    return sign * _unsigned(body, text, comma)


def _unsigned(body: str, text: str, comma: bool) -> Fraction:
    if found := _MIXED.fullmatch(body):
        return int(found[1]) + _ratio(found[2], found[3], text)
    if found := _FRACTION.fullmatch(body):
        return _ratio(found[1], found[2], text)
    if _PLAIN.fullmatch(body):
        if comma and _EITHER.fullmatch(body):
            raise _point(body, text)
        return Fraction(body.rstrip("."))
    if _GROUPED.fullmatch(body):
        return Fraction(body.replace(",", "").replace(" ", ""))
    if _COMMA.fullmatch(body):
        return _decimal_comma(body, text, comma)
    raise _unreadable(body, text)


def _ratio(top: str, bottom: str, text: str) -> Fraction:
    if int(bottom) == 0:
        raise WrittenError("zero_division", text, f"“{text}” divides by zero. {ALLOWED}")
    return Fraction(int(top), int(bottom))


def _decimal_comma(body: str, text: str, comma: bool) -> Fraction:
    whole, decimals = body.split(",")
    lone_zero = set(whole) == {"0"}
    if lone_zero or (comma and len(decimals) != 3):
        return Fraction(f"{whole.replace(' ', '')}.{decimals}")
    message = f"“{text}” can be read two ways. Enter decimals with a point (22.7) and thousands as 5,000."
    raise WrittenError("comma", text, message)


def _point(body: str, text: str) -> WrittenError:
    small = body.rstrip("0").rstrip(".")
    return WrittenError("point", text, f"“{text}” can be read two ways. Enter {small} or {body.replace('.', ',')}.")


def _unreadable(body: str, text: str) -> WrittenError:
    if re.fullmatch(r"[\d., ]+", body, re.ASCII):
        message = f"“{text}” is grouped in a way that cannot be read. {ALLOWED}"
        return WrittenError("grouping", text, message)
    return WrittenError("not_a_number", text, f"“{text}” is not a number. {ALLOWED}")
