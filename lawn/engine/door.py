"""The only way into the engine: a call by name, JSON-able in, JSON-able out.

    call("label.rate", {"net_kg": 21.77, "coverage_m2": 445.9})
    {"value": {...}, "working": [...], "engine": "0.2.0"}    or    {"error": {...}, "engine": "0.2.0"}

The server calls call(), the phone call_json(). Bad input never raises here; it comes back as an error
with four facts and a sentence.
"""

import json

from lawn.engine.core.errors import EngineError, missing, wrong_type
from lawn.engine.core.glossary import GLOSSARY

TYPE_CHECKING = False
if TYPE_CHECKING:  # never true at run time: MicroPython has no typing module
    from typing import Any

ENGINE_VERSION = "0.2.0"
MOST_DEPTH = 64  # of lists and groups within one another; none of ours has ten


# What stands before the dot of a call's name, and the topics that have such calls. A topic is imported when one of its
# calls is asked for the first time. Names of calls are fixed: phones, tests and checks from outside rely on them.
TOPICS = {
    "area": ("ground",),
    "feeding": ("nutrition", "limits"),
    "hopper": ("spreader",),
    "label": ("product",),
    "limits": ("nutrition", "limits"),
    "mowing": ("mowing",),
    "record": ("log",),
    "season": ("season",),
    "spread": ("spread",),
    "spreading": ("dial",),
    "swath": ("route", "spreader"),
    "units": ("units",),
    "warmth": ("warmth",),
    "watering": ("watering",),
    "weather": ("weather",),
}

_opened: "dict[str, tuple[Any, tuple[str, ...], tuple[str, ...]]]" = {}


def call(name: str, args: object) -> "dict[str, Any]":
    """Run one call by name.

    Args:
        name: a call of the registry, such as label.rate [text]
        args: its arguments by name [group of values]
    Returns:
        answer: value, working and engine version; or error and engine version [group of values]
    """
    try:
        value, working = _run(name, args)
        _check_finite(name, value)
        _check_finite(name, working)
    except EngineError as error:
        return {"error": error.facts(), "engine": ENGINE_VERSION}
    return {"value": value, "working": working, "engine": ENGINE_VERSION}


def call_json(name: str, args_json: str) -> str:
    """Run one call with its arguments as JSON text and answer in JSON text; for the phone's worker.

    A fault of ours comes back as an error too: the phone has nobody to read a traceback.
    """
    if _too_deep(args_json):
        error = wrong_type(name="arguments", value=None, wanted="nested at most " + str(MOST_DEPTH) + " deep")
        return json.dumps({"error": error.facts(), "engine": ENGINE_VERSION})
    try:
        args = json.loads(args_json)
    except ValueError:
        error = wrong_type(name="arguments", value=None, wanted="valid JSON")
        return json.dumps({"error": error.facts(), "engine": ENGINE_VERSION})
    try:
        return json.dumps(call(name, args))
    except Exception as fault:
        return json.dumps({"error": _fault(name, fault), "engine": ENGINE_VERSION})


def describe() -> "list[dict[str, Any]]":
    """List every call with its arguments, units, ranges and results, as its docstring states them.

    MicroPython keeps no docstrings; there the list holds the names only.
    """
    from lawn.engine.core.docstrings import read

    rows = []
    known = calls()
    for name in sorted(known):
        function, needed, optional = known[name]
        row = read(getattr(function, "__doc__", None) or "")
        row["call"] = name
        row["required"] = list(needed)
        row["optional"] = list(optional)
        rows.append(row)
    return rows


def _too_deep(text: str) -> bool:
    """Tell whether lists and groups stand in one another more than MOST_DEPTH deep: no reader survives it.

    The quick count takes brackets within texts along, so only what seems too deep is read letter by letter.
    """
    return _reach(text, "[", "]") + _reach(text, "{", "}") > MOST_DEPTH and _depth(text) > MOST_DEPTH


def _reach(text: str, opens: str, closes: str) -> int:
    now = most = 0
    for piece in text.split(closes):
        now += piece.count(opens)
        most = max(most, now)
        now = max(0, now - 1)
    return most


def _depth(text: str) -> int:
    now = most = 0
    quoted = escaped = False
    for letter in text:
        if quoted:
            quoted = escaped or letter != '"'
            escaped = letter == "\\" and not escaped
        elif letter == '"':
            quoted = True
        elif letter in "[{":
            now += 1
            most = max(most, now)
        elif letter in "]}":
            now -= 1
    return most


def _check_finite(name: str, found: object) -> None:
    """Refuse a result that is no number: JSON has none for it, and a person could do nothing with it."""
    if isinstance(found, float):
        if not -1e308 <= found <= 1e308:
            message = "These values lead to a result that is no number: at least one is far too small or too large."
            raise EngineError(code="not_finite", name=name, value=found, message=message)
    elif isinstance(found, dict):
        for key in found:
            _check_finite(name, found[key])
    elif isinstance(found, (list, tuple)):
        for item in found:
            _check_finite(name, item)


def calls() -> "dict[str, tuple[Any, tuple[str, ...], tuple[str, ...]]]":
    """Import every topic and give all calls: name, function, arguments that must be given, that may be given.

    Returns:
        calls: all of them by name [group of values]
    """
    for first in TOPICS:
        for topic in TOPICS[first]:
            _open(topic)
    return _opened


def _of(name: str) -> "tuple[Any, tuple[str, ...], tuple[str, ...]] | None":
    for topic in TOPICS.get(name.split(".")[0], ()):
        if name not in _opened:
            _open(topic)
    return _opened.get(name)


def _open(topic: str) -> None:
    module = __import__("lawn.engine." + topic + ".calls", None, None, ("CALLS",))
    _opened.update(module.CALLS)


def _fault(name: str, fault: Exception) -> dict[str, object]:
    message = "The engine failed on this call (" + type(fault).__name__ + "); nothing you entered is wrong."
    return EngineError(code="fault", name=name, value=None, message=message).facts()


def _run(name: str, args: object) -> "tuple[Any, Any]":
    known = _opened.get(name) or _of(name) if isinstance(name, str) else None
    if known is None:
        raise EngineError(code="unknown_call", name="call", value=name, message="The engine has no call of this name.")
    if not isinstance(args, dict):
        raise wrong_type(name="arguments", value=args, wanted="a group of named values")
    function, needed, optional = known
    _check_names(args, needed, optional)
    answer: tuple[Any, Any] = function(**args)
    return answer


def _check_names(args: "dict[Any, Any]", needed: tuple[str, ...], optional: tuple[str, ...]) -> None:
    for key in sorted([str(key) for key in args]):
        if key not in needed and key not in optional:
            known = ", ".join(needed + optional)
            raise EngineError(
                code="unknown_argument",
                name=key,
                value=args.get(key),
                message="This call knows no " + key + "; it knows: " + known + ".",
            )
    for key in needed:
        if args.get(key) is None:
            row = GLOSSARY.get(key, ("", "", None, None))
            raise missing(name=key, low=row[2], high=row[3])
