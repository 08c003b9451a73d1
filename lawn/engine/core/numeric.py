"""Checks of what comes in, and the sums and comparisons both runtimes agree on.

CPython and MicroPython differ in the sum of floats, in rounding of ties, in overflow and in
`isinstance(True, int)`; everything that could show such a difference goes through here.
"""

import math

from lawn.engine.core.errors import EngineError, impossible, missing, out_of_range, wrong_type
from lawn.engine.core.glossary import GLOSSARY

MARGIN = 1e-9  # relative: far above the last bit, far below anything measured in a yard


def total(values: list[float]) -> float:
    """Add floats with the lost low part carried along, so that order hardly matters."""
    running = 0.0
    lost = 0.0
    for value in values:
        new = running + value
        if abs(running) >= abs(value):
            lost += (running - new) + value
        else:
            lost += (value - new) + running
        running = new
    return running + lost


def at_least(value: float, limit: float, margin: float = MARGIN) -> bool:
    """Tell whether value reaches limit, allowing for the last bits (margin is relative)."""
    return value >= limit - margin * max(abs(value), abs(limit))


def whole_up(value: float) -> int:
    """Round up to a whole number, but not for the last bits: 2.0000000001 bags are 2."""
    return math.ceil(value - MARGIN * max(1.0, abs(value)))


def whole_down(value: float) -> int:
    """Round down to a whole number, but not for the last bits: 7.9999999999 clicks are 8."""
    return math.floor(value + MARGIN * max(1.0, abs(value)))


def number(name: str, value: object, low: float | None = None, high: float | None = None) -> float:
    """Return value as a float inside its range, or raise.

    The range is the glossary's for the last part of the name unless low or high is given.
    Booleans, texts, NaN and infinities are no numbers.
    """
    low, high = _limits(name, low, high)
    if value is None:
        raise missing(name=name, low=low, high=high)
    if isinstance(value, bool) or not isinstance(value, (int, float)) or value != value:
        raise wrong_type(name=name, value=value, wanted="a number", low=low, high=high)
    if value < low or value > high:
        raise out_of_range(name=name, value=value, low=low, high=high)
    return float(value)


def optional_number(name: str, value: object, low: float | None = None, high: float | None = None) -> float | None:
    """Return None where nothing was given, else what number() returns."""
    return None if value is None else number(name, value, low, high)


def whole(name: str, value: object) -> int:
    """Return a whole number inside its glossary range, or raise."""
    checked = number(name, value)
    if checked != math.floor(checked):
        low, high = _limits(name, None, None)
        raise wrong_type(name=name, value=value, wanted="a whole number", low=low, high=high)
    return int(checked)


def flag(name: str, value: object, default: bool = False) -> bool:
    """Return true or false; nothing given means default."""
    if value is None:
        return default
    if not isinstance(value, bool):
        raise wrong_type(name=name, value=value, wanted="true or false")
    return value


def text(name: str, value: object) -> str:
    """Return a text that is not empty, or raise."""
    if value is None:
        raise missing(name=name)
    if not isinstance(value, str) or not value:
        raise wrong_type(name=name, value=value, wanted="a text")
    return value


def choice(name: str, value: object, allowed: tuple[str, ...]) -> str:
    """Return one of the allowed words, or raise an error that lists them."""
    if value is None:
        raise missing(name=name)
    if not isinstance(value, str) or value not in allowed:
        raise EngineError(
            code="not_a_choice",
            name=name,
            value=value,
            message=wrong_type(name=name, value=value, wanted="one of: " + ", ".join(allowed)).message,
        )
    return value


def group(name: str, value: object, known: tuple[str, ...]) -> dict[str, object]:
    """Return a mapping that holds only known fields, or raise."""
    if value is None:
        raise missing(name=name)
    if not isinstance(value, dict):
        raise wrong_type(name=name, value=value, wanted="a group of named values")
    for key in sorted([str(key) for key in value]):
        if key not in known:
            raise EngineError(
                code="unknown_argument",
                name=name + "." + key,
                value=value.get(key),
                message="Nothing called " + key + " belongs here; known are: " + ", ".join(known) + ".",
            )
    return value


def listing(name: str, value: object, low: int, high: int) -> list[object]:
    """Return a list of low to high items, or raise; low and high count items."""
    if value is None:
        raise missing(name=name, low=low, high=high)
    if not isinstance(value, (list, tuple)):
        raise wrong_type(name=name, value=value, wanted="a list", low=low, high=high)
    if not low <= len(value) <= high:
        few = "few" if len(value) < low else "many"
        message = "There are too " + few + " items in this list."
        raise EngineError(code="wrong_count", name=name, value=len(value), low=low, high=high, message=message)
    return list(value)


def positive(name: str, value: float, message: str) -> float:
    """Return a result that must be above nothing, or raise that the input cannot be true together."""
    if not value > 0.0:
        raise impossible(name=name, value=value, message=message, low=0.0)
    return value


def _limits(name: str, low: float | None, high: float | None) -> tuple[float, float]:
    key = name.split(".")[-1].split("[")[0]
    known = GLOSSARY[key] if low is None or high is None else ("", "", 0.0, 0.0)
    return (known[2] if low is None else low, known[3] if high is None else high)
