"""What a household wishes of a year, as its plan record says it, in the words of season.build."""

from lawn.engine.core.dates import day_number, day_text
from lawn.engine.core.numeric import choice, flag, group, listing, number, optional_number

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

LEVELS = ("low", "middle", "high")
CLIPPINGS = ("left", "collected")
WISHED = ("level", "clippings", "budget", "evenings_week", "minutes_evening", "only_gentle", "skip_months")
NAMES = {"budget": "spend_most", "evenings_week": "evenings_week", "minutes_evening": "evening_minutes"}
MOVED_COST = (
    3.0  # a step that moves counts like an evening and a half: less than that is not worth a change (common practice)
)


def wishes_of(wishes: object, day: int) -> "tuple[str, bool, dict[str, Any]]":
    """How green it is to be, whether clippings stay, and the rest as season.build takes it."""
    row = group("wishes", {} if wishes is None else wishes, WISHED)
    level = "middle" if row.get("level") is None else choice("wishes.level", row.get("level"), LEVELS)
    clippings = row.get("clippings")
    left = clippings is None or choice("wishes.clippings", clippings, CLIPPINGS) == "left"
    found: dict[str, Any] = {"gentle_only": flag("wishes.only_gentle", row.get("only_gentle"))}
    for name in sorted(NAMES):
        given = optional_number("wishes." + name, row.get(name))
        if given is not None:
            found[NAMES[name]] = given
    found["skip"] = _spans([_month(at, one) for at, one in enumerate(_months(row.get("skip_months")))], day)
    return level, left, found


def _months(value: object) -> "list[object]":
    return listing("wishes.skip_months", [] if value is None else value, 0, 12)


def _month(at: int, value: object) -> int:
    return int(number("wishes.skip_months[" + str(at) + "]", value, 1, 12))


def _spans(months: list[int], day: int) -> "list[dict[str, str]]":
    """Those months of this year, the one before and the one after, whole."""
    found = []
    this = int(day_text(day)[:4])
    for year in (this - 1, this, this + 1):
        for month in sorted(months):
            follows = (year + 1, 1) if month == 12 else (year, month + 1)
            last = day_number("wishes.skip_months", _written(follows[0], follows[1])) - 1
            found.append({"first": _written(year, month), "last": day_text(last)})
    return found


def _written(year: int, month: int) -> str:
    return str(year) + "-" + ("0" + str(month))[-2:] + "-01"
