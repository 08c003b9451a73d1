"""The only way into the engine: a call by name, JSON-able in, JSON-able out.

    call("label.rate", {"net_kg": 21.77, "coverage_m2": 445.9})
    {"value": {...}, "working": [...], "engine": "0.2.0"}    or    {"error": {...}, "engine": "0.2.0"}

The server calls call(), the phone call_json(). Bad input never raises here; it comes back as an error
with four facts and a sentence.
"""

import json

from lawn.engine import (
    area,
    bags,
    beforehand,
    ceilings,
    checking,
    clashes,
    feeding,
    gps,
    hopper,
    keeping_off,
    label,
    learnt,
    leftover,
    mowing,
    record,
    setback,
    sharing,
    spreading,
    swath,
    swath_trays,
    taught,
    trace,
)
from lawn.engine.errors import EngineError, missing, wrong_type
from lawn.engine.tables.glossary import GLOSSARY

TYPE_CHECKING = False
if TYPE_CHECKING:  # never true at run time: MicroPython has no typing module
    from typing import Any

ENGINE_VERSION = "0.2.0"
MOST_DEPTH = 64  # of lists and groups within one another; none of ours has ten

HOPPER = ("top_length_m", "top_width_m", "bottom_length_m", "bottom_width_m", "height_m")
SPREADING = ("dial", "product", "target_kg_m2", "area_m2", "history")
LEARNING = ("dial", "product", "history")
WALKING = ("swath_m", "speed_m_s")

# name: (function, arguments that must be given, arguments that may be given). The names are fixed:
# phones, tests and checks from outside rely on them. A test compares the names with the functions' own.
CALLS: "dict[str, tuple[Any, tuple[str, ...], tuple[str, ...]]]" = {
    "area.offsets": (area.offsets, ("spacing_m", "offsets_m"), ("method",)),
    "area.gps": (gps.gps, ("fixes",), ("worst_accuracy_m",)),
    "area.outline": (area.outline, ("points_m",), ("holes_m", "circles_m", "corner_error_m")),
    "area.radii": (area.radii, ("radii_m",), ("method",)),
    "area.shapes": (area.shapes, ("parts",), ("length_error_share",)),
    "area.trace": (
        trace.trace,
        ("points_px", "known"),
        ("holes_px", "distance_error_share", "pointing_px", "north_px_deg"),
    ),
    "area.track": (gps.track, ("fixes",), ("worst_accuracy_m",)),
    "feeding.ledger": (feeding.ledger, ("entries", "zone", "today", "ceilings"), ()),
    "hopper.density": (hopper.density, ("sample_kg", "sample_m3"), ()),
    "hopper.level": (hopper.level, HOPPER + ("mass_kg", "bulk_density_kg_m3"), ()),
    "hopper.mass": (hopper.mass, HOPPER + ("level_share", "bulk_density_kg_m3"), ()),
    "label.aim": (bags.aim, ("aim", "area_m2", "net_kg"), ("coverage_m2", "n_percent", "p2o5_percent", "sort")),
    "label.match": (bags.match, ("coverage_m2", "zones"), ("tolerance_share", "net_kg")),
    "label.needed": (label.needed, ("area_m2", "rate_kg_m2", "net_kg"), ("price",)),
    "label.nitrogen_price": (label.nitrogen_price, ("price", "net_kg", "n_percent"), ()),
    "label.nutrients": (
        label.nutrients,
        ("rate_kg_m2", "n_percent"),
        ("p2o5_percent", "k2o_percent", "slow_n_share"),
    ),
    "label.rate": (label.rate, ("net_kg", "coverage_m2"), ()),
    "label.rate_for_nitrogen": (label.rate_for_nitrogen, ("n_kg_m2", "n_percent"), ()),
    "limits.ceilings": (ceilings.ceilings, ("zones", "once"), ("phosphate", "lime", "place")),
    "limits.setback": (setback.setback, ("zones", "rows"), ("guarded", "place")),
    "mowing.cut": (mowing.cut, ("height_mm", "target_mm"), ("highest_mm",)),
    "record.before": (beforehand.before, ("job", "entries"), ("products", "ceilings", "lime_once_kg_m2")),
    "record.clashes": (clashes.clashes, ("entries", "today"), ("products", "ceilings")),
    "record.due": (record.due, ("zones", "today"), ()),
    "record.keep_off": (keeping_off.keep_off, ("entries", "now"), ("products",)),
    "record.totals": (record.totals, ("entries", "today"), ()),
    "spreading.check": (
        checking.check,
        SPREADING + ("now_kg", "area_done_m2", "area_to_go_m2", "dial_now"),
        ("now_sd_kg", "left_kg", "left_sd_kg", "passes_to_go", "missing_kg_m2", "used_kg", "out", "label_share")
        + WALKING,
    ),
    "spreading.curve": (learnt.curve, LEARNING, WALKING),
    "spreading.next": (
        spreading.next_pass,
        SPREADING + ("left_kg", "passes_to_go"),
        ("left_sd_kg", "missing_kg_m2", "used_kg", "out", "passes") + WALKING,
    ),
    "spreading.split": (sharing.split, ("zones",), ("used_kg", "passes", "n_percent", "p2o5_percent")),
    "spreading.start": (spreading.start, SPREADING, ("passes",) + WALKING),
    "spreading.taught": (taught.taught, LEARNING + ("walked",), ("since",) + WALKING),
    "spreading.used": (
        leftover.used,
        ("start_kg", "measured"),
        ("start_sd_kg", "left_kg", "handfuls", "handful_kg", "hopper_kg", "hopper_sd_kg", "in_bag_kg", "added_kg")
        + ("aim_kg",),
    ),
    "swath.tour": (
        swath.tour,
        ("zones", "swath_m"),
        ("pattern", "header_strips", "speed_m_s", "load_kg", "rate_kg_m2", "covered_m2", "out"),
    ),
    "swath.tray_test": (
        swath_trays.tray_test,
        ("catches_g", "tray_spacing_m", "pattern"),
        ("cv_limit_share", "trays_apart"),
    ),
    "swath.walk_plan": (
        swath.walk_plan,
        ("outline_m", "swath_m"),
        ("holes_m", "heading_deg", "pattern", "header_strips", "speed_m_s", "load_kg", "rate_kg_m2"),
    ),
}


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
    from lawn.engine.describe import read

    rows = []
    for name in sorted(CALLS):
        function, needed, optional = CALLS[name]
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


def _fault(name: str, fault: Exception) -> dict[str, object]:
    message = "The engine failed on this call (" + type(fault).__name__ + "); nothing you entered is wrong."
    return EngineError(code="fault", name=name, value=None, message=message).facts()


def _run(name: str, args: object) -> "tuple[Any, Any]":
    if not isinstance(name, str) or name not in CALLS:
        raise EngineError(code="unknown_call", name="call", value=name, message="The engine has no call of this name.")
    if not isinstance(args, dict):
        raise wrong_type(name="arguments", value=args, wanted="a group of named values")
    function, needed, optional = CALLS[name]
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
