"""Cutting: never more than a third of the blade at once."""

from lawn.engine.core.errors import impossible
from lawn.engine.core.numeric import at_least, choice, number, optional_number
from lawn.engine.core.working import COMMON, DEFINITION, step

KEPT_THIRDS = 2.0  # two thirds of the blade stay on
THIRD_SOURCE = "isu_third"
HIGHEST_MM = 115.0  # 4.5 in, the top setting of walk-behind mowers: common practice


# The two cuts that may take more, and what each asks for (common practice).
DORMANT, RENOVATION = "dormant_warm", "renovation"
EXCEPTIONS = (DORMANT, RENOVATION)
EXCEPTION_SAYS = {
    DORMANT: "the one low cut of brown warm-season grass in spring, before it greens; frosts nearly over",
    RENOVATION: "ground that is sown anew or renewed from the bottom: the old grass need not live on",
}


def mow_at_mm(*, target_mm: float) -> float:
    """Height at which the grass is due, so that cutting to the target takes just a third.

    Args:
        target_mm: height of cut wanted [mm; 2 to 200]
    Returns:
        mow_at_mm: height of the grass when due [mm]
    Raises:
        out_of_range: the target is outside its range
    Source: isu_third
    Checked: a 3 in lawn is mown by 4.5 in (cornell_13a)
    """
    return number("target_mm", target_mm) * 3.0 / KEPT_THIRDS


def lowest_cut_mm(*, height_mm: float) -> float:
    """Lowest height the grass may be cut to now.

    Args:
        height_mm: height of the grass now [mm; 2 to 2000]
    Returns:
        lowest_cut_mm: height that leaves two thirds [mm]
    Raises:
        out_of_range: the height is outside its range
    Source: isu_third
    Checked: 4.5 in may come down to 3 in (cornell_13a)
    """
    return number("height_mm", height_mm) * KEPT_THIRDS / 3.0


def cut(
    *,
    height_mm: float,
    target_mm: float,
    highest_mm: float | None = None,
    exception: str | None = None,
    turf: str | None = None,
) -> tuple[dict[str, object], list[dict[str, object]]]:
    """Height to cut to now on the way to the height wanted.

    Args:
        height_mm: height of the grass now [mm; 2 to 2000]
        target_mm: height of cut wanted [mm; 2 to 200]
        highest_mm?: highest setting of the mower; 115 when not said [mm; 10 to 200]
        exception?: one of the two cuts that may take more than a third [one of dormant_warm, renovation]
        turf?: season of the grass; dormant_warm is for warm-season grass only [one of cool, warm]
    Returns:
        cut_to_mm: height to cut to now, never above the grass [mm]
        removed_share: share of the blade that takes off [share]
        straight_share: share that a cut straight to the height wanted takes, allowed or not [share]
        allowed: true when one cut may go straight to the target [true or false]
        mow_at_mm: height of the grass at which the target takes just a third [mm]
        lowest_mm: height that leaves two thirds [mm]
        too_short: true where the grass is no higher than the height wanted: nothing to cut [true or false]
        beyond_mower: true where the mower's highest setting would take more than a third [true or false]
        exception: the exception this cut is made under; null where it takes no more than a third [text or null]
    Raises:
        out_of_range: an argument is outside its range
        impossible: cool-season grass is to be cut low as warm-season grass is
    Source: isu_third
    Checked: a 3 in lawn is mown by 4.5 in (cornell_13a)
    """
    highest = optional_number("highest_mm", highest_mm)
    reach_mm = HIGHEST_MM if highest is None else highest
    lowest_mm = lowest_cut_mm(height_mm=height_mm)
    due_mm = mow_at_mm(target_mm=target_mm)
    by_third = at_least(target_mm, lowest_mm)
    excepted = None if by_third else _exception(exception, turf)
    allowed = by_third or excepted is not None
    cut_to_mm = min(number("target_mm", target_mm), height_mm) if allowed else lowest_mm
    removed_share = 1.0 - cut_to_mm / height_mm
    straight_share = 1.0 - min(target_mm, height_mm) / height_mm
    value: dict[str, object] = {
        "cut_to_mm": cut_to_mm,
        "removed_share": removed_share,
        "straight_share": straight_share,
        "allowed": allowed,
        "mow_at_mm": due_mm,
        "lowest_mm": lowest_mm,
        "too_short": at_least(target_mm, height_mm),
        "beyond_mower": excepted is None and not at_least(reach_mm, lowest_mm),
        "exception": excepted,
    }
    return value, _excepted(excepted, cut_to_mm) + [
        _step("Lowest cut now", "two thirds of the height", {"height_mm": height_mm}, lowest_mm, "mm", THIRD_SOURCE),
        _step(
            "Cut to now",
            "the height wanted, but no lower than the lowest cut now and no higher than the grass",
            {"target_mm": target_mm, "lowest_cut_mm": lowest_mm, "height_mm": height_mm},
            cut_to_mm,
            "mm",
            THIRD_SOURCE,
        ),
        _step(
            "Share of the blade removed",
            "1 less height of cut over height",
            {"cut_to_mm": cut_to_mm, "height_mm": height_mm},
            removed_share,
            "share",
            DEFINITION,
        ),
        _step(
            "Share a cut straight to the height wanted takes",
            "1 less height wanted over height",
            {"target_mm": target_mm, "height_mm": height_mm},
            straight_share,
            "share",
            DEFINITION,
        ),
        _step(
            "What the mower's highest setting leaves above the lowest cut now",
            "highest setting less lowest cut; below 0 no mower cuts so high, and it is brought down otherwise first",
            {"highest_mm": reach_mm, "lowest_cut_mm": lowest_mm},
            reach_mm - lowest_mm,
            "mm",
            COMMON,
        ),
        _step("Mow at", "height wanted over two thirds", {"target_mm": target_mm}, due_mm, "mm", THIRD_SOURCE),
    ]


def _exception(exception: str | None, turf: str | None) -> str | None:
    """The exception asked for, where this grass has it."""
    if exception is None:
        return None
    named = choice("exception", exception, EXCEPTIONS)
    if named == DORMANT and choice("turf", turf, ("cool", "warm")) != "warm":
        message = "Only warm-season grass is cut low once in spring, while it is brown."
        raise impossible(name="exception", value=exception, message=message)
    return named


def _excepted(excepted: str | None, cut_to_mm: float) -> list[dict[str, object]]:
    if excepted is None:
        return []
    numbers: dict[str, object] = {"cut_to_mm": cut_to_mm}
    return [_step("More than a third at once", EXCEPTION_SAYS[excepted], numbers, excepted, "text", COMMON)]


def _step(
    what: str, formula: str, numbers: dict[str, object], result: object, unit: str, source: str
) -> dict[str, object]:
    return step(what=what, formula=formula, numbers=numbers, result=result, unit=unit, source=source)
