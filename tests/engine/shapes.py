"""Whether a value is of the kind a docstring states: what the phone's types of calls rest on."""

from collections.abc import Callable
from functools import cache
from typing import Any

from lawn.engine.door import describe

Row = dict[str, Any]
TEXTS = ("text", "date", "moment")
PLAIN: dict[str, Callable[[Any], bool]] = {
    "true or false": lambda value: isinstance(value, bool),
    "corner": lambda value: is_list(value, is_number) and len(value) == 2,
    "refusal": lambda value: isinstance(value, dict) and {"code", "message"} <= set(value),
    "list of numbers": lambda value: is_list(value, is_number),
    "list of texts": lambda value: is_list(value, is_text),
    "list of corners": lambda value: is_list(value, PLAIN["corner"]),
    "list of lists of corners": lambda value: is_list(value, PLAIN["list of corners"]),
}


def is_list(value: Any, of: Any) -> bool:
    """Whether a value is a list of such things."""
    return isinstance(value, list | tuple) and all(of(item) for item in value)


def is_number(value: object) -> bool:
    """Whether a value is a number; true and false are none."""
    return isinstance(value, int | float) and not isinstance(value, bool)


def is_text(value: object) -> bool:
    """Whether a value is a text."""
    return isinstance(value, str)


@cache
def rows_of(call: str, part: str) -> tuple[Row, ...]:
    """The rows of a call's arguments or results, those of other calls that they name put in."""
    own: list[Row] = next(row for row in describe() if row["call"] == call)[part]
    found = list(own)
    for row in own:
        if row["like"]:
            found += _borrowed(row, part)
    return tuple(found)


def _borrowed(row: Row, part: str) -> list[Row]:
    """The rows of another call's argument or result of that name, as they stand within this one."""
    last = row["name"].split(".")[-1] + "."
    inner = [one for one in rows_of(row["like"], part) if one["name"].startswith(last)]
    return [{**one, "name": row["name"] + "." + one["name"].removeprefix(last)} for one in inner]


def faults_of(call: str, part: str, value: Any) -> list[str]:
    """Each place where what is taken or answered is not what the docstring says; nothing more may stand in it."""
    return _group(rows_of(call, part), "", value)


def _group(rows: tuple[Row, ...], inside: str, value: Any) -> list[str]:
    if not isinstance(value, dict):
        return [f"{inside or 'all'}: {value!r} is no group"]
    stated = {name: row for row in rows if (name := _last(row, inside))}
    strange = [f"{inside}{name}: not stated" for name in value if name not in stated]
    missing = [f"{inside}{name}: missing" for name, row in stated.items() if not row["optional"] and name not in value]
    there = [(row, value[name]) for name, row in stated.items() if name in value]
    return [*strange, *missing, *(fault for row, one in there for fault in _fault(rows, row, one))]


def _last(row: Row, inside: str) -> str:
    name: str = row["name"].removeprefix(inside)
    return name if row["name"].startswith(inside) and "." not in name else ""


def _fault(rows: tuple[Row, ...], row: Row, value: Any) -> list[str]:
    if value is None:
        return [] if row["null"] else [f"{row['name']}: null"]
    inside = row["name"] + "."
    if row["unit"] == "group of values":
        return _group(rows, inside, value)
    if row["unit"] in ("list", "groups by id"):
        inner = value.values() if isinstance(value, dict) else value
        return [fault for item in inner for fault in _group(rows, inside, item)]
    return [] if _is_of(row, value) else [f"{row['name']}: {value!r} is no {row['unit']}"]


def _is_of(row: Row, value: Any) -> bool:
    if row["choices"]:
        return value in row["choices"]
    if row["parts"]:
        return isinstance(value, dict) and list(value) == row["parts"] and all(map(is_number, value.values()))
    if row["unit"] in TEXTS:
        return is_text(value)
    return bool(PLAIN.get(row["unit"], is_number)(value))
