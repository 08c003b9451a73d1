"""The form of what fixtures/kinds/ calls JSON and says no more of, where the engine computes with it.

One spreading job, pass or outline of another form would spoil the sums, the learning or the map of the whole book, on
every phone of the household.
"""

import base64
import math
import re
from collections.abc import Callable
from typing import Any

from lawn.contract.picture import check_picture
from lawn.contract.refusal import Refused
from lawn.engine.core.errors import EngineError
from lawn.engine.core.glossary import GLOSSARY
from lawn.engine.core.numeric import whole_down
from lawn.engine.dial.scale import MOST_CLICKS
from lawn.engine.limits.rows import read_rules
from lawn.engine.log.entries import MOST_ZONES
from lawn.engine.mowing.notch import MOST_NOTCHES
from lawn.engine.weather import FIGURES

_ID = re.compile(r"\A[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}\Z")
_DATE = re.compile(r"\A(19|20|21)\d\d-(0[1-9]|1[0-2])-(0[1-9]|[12]\d|3[01])\Z", re.ASCII)
_SHA256 = re.compile(r"\A[0-9a-f]{64}\Z")
_BASE64 = re.compile(r"\A(?:[A-Za-z0-9+/]{4})*(?:[A-Za-z0-9+/]{2}==|[A-Za-z0-9+/]{3}=)?\Z")
_MOST_THUMBNAIL_BYTES = 8192
_MOST_THUMBNAIL_PX = 640  # two hundred in a push are decoded while the household waits
_MOST_METRES = 50000.0  # as the engine takes a coordinate
_MOST_GRAMS = 10000.0
_MOST_CORNERS = 400
_MOST_RINGS = 40
_MOST_PARTS = 40
_MOST_TRAYS = 200
_LONGEST_NOTCH = 20
_WAYS = ("scale", "level", "handfuls")


def is_id(value: object) -> bool:
    """Whether a value is a UUID as phones write them: lower case, with hyphens."""
    return isinstance(value, str) and _ID.match(value) is not None


def has_clicks(lowest: Any, highest: Any, step: Any) -> bool:
    """Whether a dial has as many clicks as the engine reads; what is no number is another's question."""
    if not (is_number(lowest) and is_number(highest) and is_number(step) and step > 0):
        return True
    return 1 <= whole_down((highest - lowest) / step) <= MOST_CLICKS


def is_number(value: object) -> bool:
    """Whether a value is a number; JSON's whole numbers have no end, so they are not asked whether they are finite."""
    if isinstance(value, float):
        return math.isfinite(value)
    return isinstance(value, int) and not isinstance(value, bool)


def wrong_in_body(body: dict[str, Any]) -> dict[str, str]:
    """Return {field: message} for the JSON fields of a log entry's body."""
    rules = _BODIES.get(body["kind"], {})
    return {
        name: message for name, (good, message) in rules.items() if body.get(name) is not None and not good(body[name])
    }


def wrong_in_group(kind: str, group: str, value: dict[str, Any]) -> dict[str, str]:
    """Return {field: message} for the JSON fields of a settings group."""
    rules = _GROUPS.get((kind, group), {})
    found = {
        name: says for name, (good, says) in rules.items() if value.get(name) is not None and not good(value[name])
    }
    if (kind, group) == ("zone", "ground") and not found:
        found.update(_beyond_outline(value))
    return found


def _beyond_outline(value: dict[str, Any]) -> dict[str, str]:
    """Edges at the water lie on the outline that stands beside them."""
    edges, outline = value.get("water_edges") or [], value.get("outline") or {"points_m": []}
    count = len(outline["points_m"])
    if all(edge < count for edge in edges):
        return {}
    if not count:
        return {"water_edges": "Edges at the water need an outline."}
    return {"water_edges": f"Edges at the water must be edges of the outline. Allowed is 0 to {count - 1}."}


def _within(value: Any, low: float, high: float) -> bool:
    return is_number(value) and bool(low <= value <= high)


def _items(value: object, fewest: int, most: int, good: Callable[[Any], bool]) -> bool:
    return isinstance(value, list) and fewest <= len(value) <= most and all(good(item) for item in value)


def _amounts(item: dict[str, Any], *names: str) -> bool:
    """Whether each amount is absent or inside the engine's range for its name."""
    return all(item.get(name) is None or _within(item[name], 0, GLOSSARY[name][3]) for name in names)


def _is_spread_zones(value: object) -> bool:
    return _items(value, 0, MOST_ZONES, lambda zone: isinstance(zone, dict) and _is_spread_zone(zone))


def _is_spread_zone(zone: dict[str, Any]) -> bool:
    return is_id(zone.get("zone_id")) and _amounts(zone, "area_m2", "used_kg", "n_kg_m2")


def _is_part(item: Any) -> bool:
    return (
        isinstance(item, dict)
        and _within(item.get("dial"), -1000, 1000)
        and _within(item.get("area_m2"), GLOSSARY["area_m2"][2], GLOSSARY["area_m2"][3])
        and _within(item.get("used_kg"), 0, GLOSSARY["used_kg"][3])
        and item.get("measured") in _WAYS
        and _amounts(item, "left_kg")
    )


def _is_catch(item: Any) -> bool:
    return _within(item, 0, _MOST_GRAMS)


def _is_corner(item: Any) -> bool:
    return _items(item, 2, 2, lambda one: _within(one, -_MOST_METRES, _MOST_METRES))


def _is_ring(item: Any) -> bool:
    return _items(item, 3, _MOST_CORNERS, _is_corner)


def _is_circle(item: Any) -> bool:
    if not isinstance(item, dict) or not _is_corner([item.get("x_m"), item.get("y_m")]):
        return False
    return _within(item.get("radius_m"), GLOSSARY["radius_m"][2], GLOSSARY["radius_m"][3])


def _is_outline(value: Any) -> bool:
    if not isinstance(value, dict) or not _is_ring(value.get("points_m")):
        return False
    rings = _items(value.get("holes_m") or [], 0, _MOST_RINGS, _is_ring)
    if not rings or sum(map(len, [value["points_m"], *(value.get("holes_m") or [])])) > _MOST_CORNERS:
        return False
    circles = _items(value.get("circles_m") or [], 0, _MOST_RINGS, _is_circle)
    north = value.get("north_deg")
    return circles and (north is None or _within(north, -360, 360))


def _are_edges(value: Any) -> bool:
    """Whether these are places in an outline, each once."""
    whole = _items(value, 0, _MOST_CORNERS, lambda one: _within(one, 0, _MOST_CORNERS - 1) and one == int(one))
    return whole and len(set(value)) == len(value)


def _is_sha256(value: Any) -> bool:
    return isinstance(value, str) and _SHA256.match(value) is not None


def _is_thumbnail(value: Any) -> bool:
    """Whether it is a small JPEG with nothing beside the picture in it: no place it was taken at (S19)."""
    if not isinstance(value, str) or _BASE64.match(value) is None:
        return False
    data = base64.b64decode(value)
    if len(data) > _MOST_THUMBNAIL_BYTES:
        return False
    try:
        check_picture(data, _MOST_THUMBNAIL_PX)
    except Refused:
        return False
    return True


def _is_climate(value: Any) -> bool:
    return _items(value, 12, 12, lambda one: _within(one, -60, 60))


def _is_day(month: str, item: Any) -> bool:
    """Whether it is a day of weather of a month, each figure inside the engine's range for its name."""
    return (
        isinstance(item, dict)
        and isinstance(item.get("date"), str)
        and _DATE.match(item["date"]) is not None
        and item["date"][:7] == month[:7]
        and all(item.get(name) is None or _within(item[name], *FIGURES[name][2:]) for name in FIGURES)
    )


def _is_weather(value: Any) -> bool:
    """Whether it is a list of different days of one month; which month, is said beside it and held against it."""
    if not _items(value, 1, 31, lambda item: isinstance(item, dict) and isinstance(item.get("date"), str)):
        return False
    dates = [item["date"] for item in value]
    return len(set(dates)) == len(dates) and all(_is_day(dates[0], item) for item in value)


def _is_months(value: Any) -> bool:
    return _items(value, 0, 12, lambda one: _within(one, 1, 12) and one == int(one)) and len(set(value)) == len(value)


def _is_notches(value: Any) -> bool:
    """A lever's notches as the engine takes them: named, and no two of one height."""
    if not _items(value, 0, MOST_NOTCHES, _is_notch):
        return False
    heights = [float(notch["measured_mm"]) for notch in value]
    return len(set(heights)) == len(heights)


def _is_notch(item: Any) -> bool:
    if not isinstance(item, dict) or not isinstance(item.get("label"), str):
        return False
    _, _, low, high = GLOSSARY["notch_mm"]
    return 1 <= len(item["label"]) <= _LONGEST_NOTCH and _within(item.get("measured_mm"), low, high)


def _is_own_rules(value: Any) -> bool:
    """Local rules as the engine reads them: of a known kind, with the figure of their kind, each with its day."""
    try:
        rows = read_rules(rules=value, name="own_rules")
    except EngineError:
        return False
    return all(_DATE.match(row["date"] or "") for row in rows)


_Form = tuple[Callable[[Any], bool], str]
_GROUPS: dict[tuple[str, str], dict[str, _Form]] = {
    ("zone", "ground"): {
        "outline": (
            _is_outline,
            "Outline must be at most 400 corners in metres, holes included, round obstacles and the bearing of up.",
        ),
        "water_edges": (
            _are_edges,
            "Edges at the water must be a list of places in the outline, each once. Allowed is 0 to 399.",
        ),
    },
    ("household", "climate"): {
        "monthly_mean_c": (_is_climate, "The climate must be twelve temperatures from -60 to 60 °C, January first."),
    },
    ("household", "rules"): {
        "own_rules": (
            _is_own_rules,
            "Own rules must be a list, each of a kind the engine knows, with its figure inside its range and its day.",
        ),
    },
    ("weather_month", "days"): {
        "days": (
            _is_weather,
            "The days must be 1 to 31 different ones of one month, each with its date and figures inside their ranges.",
        ),
    },
    ("mower", "deck"): {
        "notches": (
            _is_notches,
            "Notches must be at most 40, each with a label and a height of 5 to 200 mm; no two of one height.",
        )
    },
    ("plan", "skip"): {
        "skip_months": (_is_months, "Months to skip must be numbers from 1 to 12, each once."),
    },
    ("photo", "photo"): {
        "sha256": (_is_sha256, "SHA-256 of the picture must be 64 hexadecimal digits in lower case."),
        "thumb": (_is_thumbnail, "Thumbnail must be a bare JPEG of at most 8,192 bytes, in base64."),
    },
}
_BODIES: dict[str, dict[str, _Form]] = {
    "spread": {
        "zones": (
            _is_spread_zones,
            "Per zone must be a list of zones, each with its id and what was put down there.",
        )
    },
    "pass": {
        "parts": (
            lambda value: _items(value, 0, _MOST_PARTS, _is_part),
            "The parts of a pass must be a list, each with its dial, area, what it used and how that was measured.",
        )
    },
    "tray_test": {
        "catches_g": (
            lambda value: _items(value, 3, _MOST_TRAYS, _is_catch),
            "Catches must be a list of 3 to 200 weights, from 0 g to 10 kg each.",
        )
    },
}
