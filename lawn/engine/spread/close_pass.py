"""The end of a pass, or of a stretch of it: what it used, what is left, and its stretches as the log takes them."""

from lawn.engine.core.errors import EngineError
from lawn.engine.core.measuring import MEASURED
from lawn.engine.core.numeric import at_least, choice, flag, group, listing, number, optional_number
from lawn.engine.dial.used import used
from lawn.engine.spread.draft import MOST_PARTS, kg_m2_step, kg_step, m2_step, read_hopper
from lawn.engine.spreader.hopper import mass

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

LEAST_PART_M2 = 0.5  # less ground than this is no stretch of its own (common practice)
STRETCH = ("dial", "there_kg", "there_sd_kg", "from_m2")


def close_pass(
    *,
    stretch: dict[str, object],
    measured: str,
    covered_m2: float,
    start_kg: float | None = None,
    start_sd_kg: float | None = None,
    added_kg: float | None = None,
    parts: list[object] | None = None,
    left_kg: float | None = None,
    handfuls: float | None = None,
    handful_kg: float | None = None,
    level: dict[str, object] | None = None,
    in_bag_kg: float | None = None,
    ground_m2: float | None = None,
    ran_out: bool | None = None,
    goes_on: bool | None = None,
) -> tuple[dict[str, object], list[dict[str, object]]]:
    """Close a pass, or with `goes_on` the stretch of it walked at the present setting.

    At the end of a pass the balance runs from its start, on the way from where the present setting began. A stretch of
    less than half a square metre is none: what its reading differs belongs to the stretch before.

    Args:
        stretch: the stretch at the present setting [group of values]
        stretch.dial: its setting [dial; -1000 to 1000]
        stretch.there_kg: what there was when it began, pours since included [kg; 0 to 5000]
        stretch.there_sd_kg?: likely error of that, where it was a reading [kg; 0 to 20000]
        stretch.from_m2?: ground of the pass covered before it [m2; 0 to 6000000]
        measured: how the rest was measured: scale, level or handfuls [one of scale, level, handfuls]
        covered_m2: ground the pass has covered [m2; 0 to 6000000]
        start_kg?: product there was when the pass began; needed at its end [kg; 0 to 5000]
        start_sd_kg?: likely error of that, where it was a reading [kg; 0 to 20000]
        added_kg?: extra product poured in on the way of the pass [kg; 0 to 5000]
        parts?: the stretches before, in order, as the log takes them [list]
        parts.dial: setting of the stretch [dial; -1000 to 1000]
        parts.area_m2: its ground [m2; 0 to 100000]
        parts.used_kg: product put down on it [kg; 0 to 5000]
        parts.measured: how what it left was measured [one of scale, level, handfuls]
        parts.left_kg: what it left [kg; 0 to 20000]
        left_kg?: what is left, where it was weighed or is known as a mass [kg; 0 to 20000]
        handfuls?: handfuls left in the hopper [handfuls; 0 to 100000]
        handful_kg?: what one of them weighs [kg; 0.001 to 5]
        level?: where a level was read: the hopper's inner measures, the level and the density [group of values]
        level.top_length_m: inside length at the rim [m; 0.05 to 2]
        level.top_width_m: inside width at the rim [m; 0.05 to 2]
        level.bottom_length_m: inside length at the floor [m; 0.01 to 2]
        level.bottom_width_m: inside width at the floor [m; 0.01 to 2]
        level.height_m: inside height [m; 0.05 to 2]
        level.level_share: height of the level as a share of the hopper's [share; 0 to 1]
        level.bulk_density_kg_m3: mass of the loose product per volume [kg/m3; 100 to 2500]
        in_bag_kg?: what is left besides, in the bag [kg; 0 to 5000]
        ground_m2?: ground the pass has to cover [m2; 0 to 6000000]
        ran_out?: it ran out; counts only where ground was left [true or false]
        goes_on?: the pass goes on: a check on the way [true or false]
    Returns:
        used_kg: put down by the pass; null while it goes on [kg or null]
        left_kg: what is left of everything [kg]
        left_sd_kg: its likely error [kg]
        rate_kg_m2: put down over ground covered; null while it goes on or where none is covered [kg/m2 or null]
        stretch_kg: put down at the present setting [kg]
        stretch_m2: ground covered at it [m2]
        parts: the stretches with this one; empty at the end of a pass of one setting [list]
        parts.dial: its setting [dial]
        parts.area_m2: its ground [m2]
        parts.used_kg: product put down on it [kg]
        parts.measured: how what it left was measured [one of scale, level, handfuls]
        parts.left_kg: what it left [kg]
        closed: whether this stretch stands among them by itself [true or false]
        ran_out: whether it ran out before the ground was covered [true or false]
    Raises:
        out_of_range: an argument is outside its range, or more is left than there was and than its error allows
        missing_argument: what is left was not said, or what there was at the start
    Source: common practice
    """
    given = group("stretch", stretch, STRETCH)
    dial = number("stretch.dial", given.get("dial"))
    covered = number("covered_m2", covered_m2)
    from_m2 = optional_number("stretch.from_m2", given.get("from_m2"), 0.0, 6000000.0) or 0.0
    before = _parts(parts)
    on = flag("goes_on", goes_on)
    seen: dict[str, Any] = {"left_kg": left_kg, "handfuls": handfuls, "handful_kg": handful_kg, "in_bag_kg": in_bag_kg}
    working = _read_level(seen, level)
    there: dict[str, Any] = {"start_kg": number("stretch.there_kg", given.get("there_kg"))}
    there["start_sd_kg"] = optional_number("stretch.there_sd_kg", given.get("there_sd_kg"))
    choice("measured", measured, MEASURED)
    whole = None if on else _pass(start_kg, start_sd_kg, added_kg, measured, seen)
    at_setting = _at_setting(there, measured, seen, bool(before) or on, whole)
    read: dict[str, Any] = at_setting if whole is None else whole[0]
    working.extend(whole[1] if whole is not None else [])
    stretch_m2 = max(0.0, covered - from_m2)
    ground = optional_number("ground_m2", ground_m2)
    used_kg = None if on else read["used_kg"]
    rate_kg_m2 = None if used_kg is None or not covered > 0.0 else used_kg / covered
    row = {"dial": dial, "area_m2": stretch_m2, "used_kg": at_setting["used_kg"], "measured": measured}
    row["left_kg"] = read["left_kg"]
    closed = _closes(row, before, on)
    working.extend(_stretch_steps(there["start_kg"], row, covered, from_m2))
    if not on:
        working.append(_rate_step(used_kg, covered, rate_kg_m2))
    value: dict[str, object] = {
        "used_kg": used_kg,
        "left_kg": read["left_kg"],
        "left_sd_kg": read["left_sd_kg"],
        "rate_kg_m2": rate_kg_m2,
        "stretch_kg": row["used_kg"],
        "stretch_m2": stretch_m2,
        "parts": _with(before, row, closed, on),
        "closed": closed,
        "ran_out": flag("ran_out", ran_out) and (ground is None or not at_least(covered, ground)),
    }
    if at_setting is not read or on:
        working.extend(at_setting["working"])
    if before and not closed:
        working.extend(_merged_steps(before[-1], row))
    return value, working


def _parts(value: object) -> "list[dict[str, Any]]":
    found = []
    for at, item in enumerate(listing("parts", value, 0, MOST_PARTS) if value is not None else []):
        path = "parts[" + str(at) + "]"
        one = item if isinstance(item, dict) else group(path, item, ())
        found.append(
            {
                "dial": number(path + ".dial", one.get("dial")),
                "area_m2": number(path + ".area_m2", one.get("area_m2"), 0.0),
                "used_kg": number(path + ".used_kg", one.get("used_kg")),
                "measured": choice(path + ".measured", one.get("measured"), MEASURED),
                "left_kg": number(path + ".left_kg", one.get("left_kg")),
            }
        )
    return found


def _read_level(seen: "dict[str, Any]", level: object) -> list[dict[str, object]]:
    """Bring a level read off the hopper to kilograms; no steps where none was read."""
    if level is None:
        return []
    value, working = mass(**read_hopper("level", level, ("level_share", "bulk_density_kg_m3")))
    seen["hopper_kg"], seen["hopper_sd_kg"] = value["mass_kg"], value["sd_kg"]
    return working


def _pass(
    start_kg: object, start_sd_kg: object, added_kg: object, measured: str, seen: "dict[str, Any]"
) -> "tuple[dict[str, Any], list[dict[str, object]]]":
    """The balance of the whole pass."""
    start: Any = number("start_kg", start_kg)
    sd: Any = optional_number("start_sd_kg", start_sd_kg)
    added: Any = optional_number("added_kg", added_kg)
    return used(start_kg=start, start_sd_kg=sd, added_kg=added, measured=measured, **seen)


def _at_setting(
    there: "dict[str, Any]", measured: str, seen: "dict[str, Any]", of_its_own: bool, whole: object
) -> "dict[str, Any]":
    """The balance since the present setting; where one served throughout, the pass's own.

    At the end of a pass a reading may lie above the one its last setting began with: nothing was put down since.
    """
    if not of_its_own and isinstance(whole, tuple):
        found: dict[str, Any] = whole[0]
        return found
    try:
        value, working = used(measured=measured, start_kg=there["start_kg"], start_sd_kg=there["start_sd_kg"], **seen)
    except EngineError:
        if whole is None:
            raise
        return {"used_kg": 0.0, "working": []}
    shown: dict[str, Any] = dict(value)
    shown["working"] = working
    return shown


def _closes(row: "dict[str, Any]", before: "list[dict[str, Any]]", on: bool) -> bool:
    """Whether the stretch stands by itself: enough ground, and at the end of a pass others before it."""
    return bool(row["area_m2"] >= LEAST_PART_M2) and (on or bool(before))


def _with(before: "list[dict[str, Any]]", row: "dict[str, Any]", closed: bool, on: bool) -> "list[dict[str, Any]]":
    if closed:
        return before + [row]
    if on or not before:
        return before
    last = dict(before[-1])
    last["area_m2"] += row["area_m2"]
    last["used_kg"] += row["used_kg"]
    last["left_kg"] = row["left_kg"]
    return before[:-1] + [last]


def _stretch_steps(
    there_kg: float, row: "dict[str, Any]", covered_m2: float, from_m2: float
) -> list[dict[str, object]]:
    kgs: dict[str, object] = {"there_kg": there_kg, "left_kg": row["left_kg"]}
    grounds: dict[str, object] = {"covered_m2": covered_m2, "from_m2": from_m2}
    formula = "what there was less what is left, never below 0"
    return [
        kg_step("Put down at this setting", formula, kgs, row["used_kg"]),
        m2_step("Ground at this setting", "covered by now less covered before it", grounds, row["area_m2"]),
    ]


def _merged_steps(last: "dict[str, Any]", row: "dict[str, Any]") -> list[dict[str, object]]:
    kgs: dict[str, object] = {"before_kg": last["used_kg"], "used_kg": row["used_kg"]}
    grounds: dict[str, object] = {"before_m2": last["area_m2"], "area_m2": row["area_m2"]}
    formula = "too little ground for a stretch of its own: put to the one before"
    return [
        kg_step("Put down on the stretch before", formula, kgs, last["used_kg"] + row["used_kg"]),
        m2_step("Ground of the stretch before", formula, grounds, last["area_m2"] + row["area_m2"]),
    ]


def _rate_step(used_kg: object, covered_m2: float, rate_kg_m2: float | None) -> dict[str, object]:
    numbers: dict[str, object] = {"used_kg": used_kg, "covered_m2": covered_m2}
    return kg_m2_step("Product per area", "put down over ground covered", numbers, rate_kg_m2)
