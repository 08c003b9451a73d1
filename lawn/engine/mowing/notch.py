"""The mower's notches, each with the height it was measured to cut at."""

from lawn.engine.core.errors import impossible
from lawn.engine.core.numeric import at_least, listing, number, text
from lawn.engine.core.rows import rows_of
from lawn.engine.core.working import COMMON, step

MOST_NOTCHES = 40


def notch(*, height_mm: float, notches: object) -> "tuple[dict[str, object], list[dict[str, object]]]":
    """The lowest notch that cuts no lower than a height wanted: rather a little too long than a third too short.

    Args:
        height_mm: height of cut wanted [mm; 2 to 2000]
        notches: the mower's notches [list]
        notches.name: what stands beside the notch [text]
        notches.notch_mm: height it cuts at, measured with a ruler on level ground [mm; 5 to 200]
    Returns:
        name: the notch to set [text or null]
        notch_mm: height it cuts at; null where every notch cuts lower [mm or null]
        over_mm: how much higher than wanted that is [mm or null]
    Raises:
        out_of_range: an argument is outside its range
        impossible: two notches cut at the same height
    Source: common practice
    """
    wanted, rows = number("height_mm", height_mm), notches_of(notches)
    found = lowest(rows, wanted)
    value: dict[str, object] = {"name": None, "notch_mm": None, "over_mm": None}
    over = None
    if found is not None:
        over = found[0] - wanted
        value = {"name": found[1], "notch_mm": found[0], "over_mm": over}
    heights = [row[0] for row in rows]
    words = "the lowest that cuts no lower than wanted; none where all do"
    numbers: dict[str, object] = {"height_mm": wanted, "notch_mm": heights}
    return value, [
        _step("Height of the notch", words, numbers, None if found is None else found[0]),
        _step("Above the height wanted", "height of the notch less that wanted", numbers, over),
    ]


def notches_of(notches: object) -> "list[tuple[float, str]]":
    """The notches by height, the lowest first."""
    listing("notches", notches, 1, MOST_NOTCHES)
    rows = rows_of("notches", notches, ("name", "notch_mm"), MOST_NOTCHES)
    found: list[tuple[float, str]] = []
    for at in range(len(rows)):
        path = "notches[" + str(at) + "]."
        height, name = number(path + "notch_mm", rows[at].get("notch_mm")), text(path + "name", rows[at].get("name"))
        if height in [row[0] for row in found]:
            message = "Two notches cannot cut at the same height: measure both once more."
            raise impossible(name=path + "notch_mm", value=height, message=message)
        found.append((height, name))
    return sorted(found)


def lowest(rows: "list[tuple[float, str]]", wanted_mm: float) -> "tuple[float, str] | None":
    """The lowest notch that cuts no lower than wanted."""
    for row in rows:
        if at_least(row[0], wanted_mm):
            return row
    return None


def _step(what: str, formula: str, numbers: dict[str, object], result: object) -> dict[str, object]:
    return step(what=what, formula=formula, numbers=numbers, result=result, unit="mm", source=COMMON)
