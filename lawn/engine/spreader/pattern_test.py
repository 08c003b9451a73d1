"""A catch-tray test: how even the ground would get at each distance between tracks.

Trays stand in a row across the swath, equally far apart, the spreader walking over the middle of the row.
The overlapped pattern repeats, so its unevenness is taken over one whole repeat: the standard deviation
divides by the number of places, not by one less, since nothing beyond the repeat was left out.
"""

import math

from lawn.engine.core.errors import impossible
from lawn.engine.core.numeric import at_least, choice, listing, number, optional_number, total, whole
from lawn.engine.core.working import DEFINITION, step

FEWEST_TRAYS = 3
MOST_TRAYS = 200
LIMIT = 0.15  # largest unevenness allowed for nitrogen products
LIMIT_SOURCE = "landwise"
HALF_SOURCE = "OSU-B817-13"
# An end tray over half of the fullest one: the throw goes on past the row, and its edge was never seen.
CUT_OFF = 0.5
NEAREST = 1  # place of the nearest distance that can be judged: tracks one tray apart are even whatever was thrown
PATTERNS = ("back_and_forth", "circuit")


def tray_test(
    *,
    catches_g: list[object],
    tray_spacing_m: float,
    pattern: str,
    cv_limit_share: float | None = None,
    trays_apart: int | None = None,
) -> tuple[dict[str, object], list[dict[str, object]]]:
    """Widest distance between tracks that still spreads evenly, from what trays across the swath caught.

    Args:
        catches_g: what each tray caught, left to right as the walker sees it, 3 to 200 trays [list of numbers]
        tray_spacing_m: distance from the middle of one tray to the next [m; 0.05 to 5]
        pattern: back_and_forth (every second pass comes the other way) or circuit (all passes the same way) [one of
            back_and_forth, circuit]
        cv_limit_share?: unevenness still taken; 0.15 when not said [share; 0.01 to 1]
        trays_apart?: show the pattern of tracks this many trays apart; the widest's when not said [trays; 1 to 200]
    Returns:
        by_spacing: for each distance between tracks its unevenness and mean catch [list]
        by_spacing.spacing_m: distance between tracks, a whole number of tray distances [m]
        by_spacing.cv_share: unevenness: standard deviation over mean of the overlapped pattern [share]
        by_spacing.mean_g: mean catch of the overlapped pattern [g]
        widest_m: widest distance between tracks within the limit and the half-catch swath, two trays at least; null
            where there is none, or the pattern is cut off [m or null]
        widest_by_limit_m: the same by the limit alone [m or null]
        cut_off: true where an end tray caught over half of the most: trays are missing outside [true or false]
        cv_at_widest: its unevenness [share or null]
        overlapped_g: the overlapped pattern over one repeat, from the leftmost tray of a pass on [list of numbers]
        touchy: true where tracks one tray closer than the widest would be over the limit [true or false]
        half_catch_m: distance between the two places where the catch is half of that in the middle [m or null]
        lopsided_share: what lies left of the middle as a share of all; 0.5 is even [share]
    Raises:
        out_of_range: a catch is outside 0 to 10000 g, or the distance or limit is outside its range
        wrong_count: fewer than 3 or more than 200 trays
        impossible: nothing was caught, or tracks are to be further apart than the row is long
    Source: OSU-B817-13
    Checked: the swath is twice the distance from the middle to half the middle's catch (OSU-B817-13)
    """
    caught = [number("catches_g[" + str(at) + "]", one) for at, one in enumerate(_trays(catches_g))]
    spacing_m = number("tray_spacing_m", tray_spacing_m)
    way = choice("pattern", pattern, PATTERNS)
    limit = optional_number("cv_limit_share", cv_limit_share)
    allowed = LIMIT if limit is None else limit
    if not total(caught) > 0.0:
        raise impossible(name="catches_g", value="all 0", message="No tray caught anything.", low=0.0)
    rows = [_at_spacing(caught, apart, way, spacing_m) for apart in range(1, len(caught) + 1)]
    half_m = _half_catch(caught, spacing_m)
    cut_off = max(caught[0], caught[-1]) > CUT_OFF * max(caught)
    by_limit = -1 if cut_off else _widest(rows, allowed, None)
    widest = -1 if cut_off else _widest(rows, allowed, half_m)
    touchy = widest > 0 and not at_least(allowed, _cv(rows[widest - 1]))
    apart = widest + 1 if trays_apart is None else _apart(trays_apart, len(caught))
    pattern_g = overlapped(caught, apart, way) if apart else []
    lopsided = _left_share(caught)
    value: dict[str, object] = {
        "by_spacing": rows,
        "widest_m": None if widest < 0 else rows[widest]["spacing_m"],
        "widest_by_limit_m": None if by_limit < 0 else rows[by_limit]["spacing_m"],
        "cut_off": cut_off,
        "cv_at_widest": None if widest < 0 else rows[widest]["cv_share"],
        "overlapped_g": pattern_g,
        "touchy": touchy,
        "half_catch_m": half_m,
        "lopsided_share": lopsided,
    }
    shown = [_cut_off_step(caught)] if cut_off else _steps(rows, widest, allowed, limit is None, way)
    if by_limit > widest:
        shown.append(_limit_step(rows[by_limit], allowed, half_m))
    return value, shown + _pattern_steps(caught, half_m, lopsided, spacing_m)


def _apart(trays_apart: object, count: int) -> int:
    apart = whole("trays_apart", trays_apart)
    if apart > count:
        message = "Strips farther apart than the row of trays is long leave some lawn without any."
        raise impossible(name="trays_apart", value=apart, message=message, low=1, high=count)
    return apart


def overlapped(caught: list[float], apart: int, way: str) -> list[float]:
    """Add up what every pass leaves at each place of one repeat; tracks are `apart` trays from each other.

    Back and forth, every second pass is its own mirror image, so the pattern repeats after two tracks.
    """
    count = len(caught)
    mirrored = way == "back_and_forth"
    repeat = 2 * apart if mirrored else apart
    places = [0.0] * repeat
    for at in range(count):
        places[at % repeat] += caught[at]
        if mirrored:
            places[(count - 1 - at + apart) % repeat] += caught[at]
    return places


def _trays(value: object) -> list[object]:
    return listing("catches_g", value, FEWEST_TRAYS, MOST_TRAYS)


def _at_spacing(caught: list[float], apart: int, way: str, spacing_m: float) -> dict[str, object]:
    places = overlapped(caught, apart, way)
    mean_g = total(places) / len(places)
    squares = total([(place - mean_g) * (place - mean_g) for place in places])
    cv = math.sqrt(squares / len(places)) / mean_g
    return {"spacing_m": apart * spacing_m, "cv_share": cv, "mean_g": mean_g}


def _cv(row: dict[str, object]) -> float:
    cv = row["cv_share"]
    assert isinstance(cv, float)
    return cv


def _widest(rows: list[dict[str, object]], allowed: float, half_m: float | None) -> int:
    """Place of the widest spacing within the limit and the half-catch swath, -1 where there is none.

    Narrower ones may lie above it: flat-topped patterns dip twice, and the handbooks take the widest. Beyond the
    half-catch swath the mean falls short of the rate, however even it lies.
    """
    for at in range(len(rows) - 1, NEAREST - 1, -1):
        spacing_m = rows[at]["spacing_m"]
        assert isinstance(spacing_m, float)
        if at_least(allowed, _cv(rows[at])) and (half_m is None or at_least(half_m, spacing_m)):
            return at
    return -1


def _cut_off_step(caught: list[float]) -> dict[str, object]:
    return step(
        what="The pattern is cut off: an end tray caught over half of the most",
        formula="the fuller of the two end trays over the fullest of all; over 0.5 the throw goes on past the row",
        numbers={"end_g": max(caught[0], caught[-1]), "most_g": max(caught)},
        result=max(caught[0], caught[-1]) / max(caught),
        unit="share",
        source=HALF_SOURCE,
    )


def _left_share(caught: list[float]) -> float:
    count = len(caught)
    left = total(caught[: count // 2])
    middle = caught[count // 2] if count % 2 else 0.0
    return (left + 0.5 * middle) / total(caught)


def _half_catch(caught: list[float], spacing_m: float) -> float | None:
    """Width between the places left and right where the catch falls to half of the middle's; null without them."""
    count = len(caught)
    centre = 0.5 * (count - 1)
    middle = 0.5 * (caught[(count - 1) // 2] + caught[count // 2])
    if not middle > 0.0:
        return None
    right = _falls_to(0.5 * middle, caught, count // 2, 1)
    left = _falls_to(0.5 * middle, caught, (count - 1) // 2, -1)
    if right is None or left is None or not left < centre < right:
        return None
    return (right - left) * spacing_m


def _falls_to(level: float, caught: list[float], start: int, way: int) -> float | None:
    """Place where the catch first falls to a level, walking outwards; between trays by a straight line."""
    at = start
    while 0 <= at + way < len(caught):
        here, beyond = caught[at], caught[at + way]
        if beyond <= level < here:
            return at + way * (here - level) / (here - beyond)
        at += way
    return None


def _steps(
    rows: list[dict[str, object]], widest: int, allowed: float, assumed: bool, way: str
) -> list[dict[str, object]]:
    numbers: dict[str, object] = {"cv_limit_share": allowed, "spacings": len(rows)}
    said = "; 15 % is taken, the most allowed for nitrogen" if assumed else ""
    if widest < 0:
        what = "No distance between strips is within the limit" + said
        least = min([_cv(row) for row in rows[NEAREST:]])
        return [
            step(what=what, formula=_rule(way), numbers=numbers, result=least, unit="share", source=LIMIT_SOURCE),
        ]
    row = rows[widest]
    numbers["cv_share"] = row["cv_share"]
    mean: dict[str, object] = {"mean_g": row["mean_g"], "spacing_m": row["spacing_m"]}
    return [
        step(
            what="Mean catch at this distance between strips",
            formula="everything caught, over the trays from strip to strip",
            numbers={"spacing_m": row["spacing_m"]},
            result=row["mean_g"],
            unit="g",
            source=DEFINITION,
        ),
        step(
            what="Unevenness there",
            formula=_rule(way),
            numbers=mean,
            result=row["cv_share"],
            unit="share",
            source=DEFINITION,
        ),
        step(
            what="Widest distance between strips within the limit" + said,
            formula="the largest whole number of tray distances, 2 or more and no wider than the half-catch swath, "
            "whose unevenness is at most the limit",
            numbers=numbers,
            result=row["spacing_m"],
            unit="m",
            source=LIMIT_SOURCE,
        ),
    ]


def _limit_step(row: dict[str, object], allowed: float, half_m: float | None) -> dict[str, object]:
    numbers: dict[str, object] = {"cv_limit_share": allowed, "cv_share": row["cv_share"], "mean_g": row["mean_g"]}
    if half_m is not None:
        numbers["half_catch_m"] = half_m
    return step(
        what="Widest by the limit alone, where the mean falls short",
        formula="the largest whole number of tray distances within the limit, wider than the half-catch swath",
        numbers=numbers,
        result=row["spacing_m"],
        unit="m",
        source=LIMIT_SOURCE,
    )


def _rule(way: str) -> str:
    mirrored = "every second one mirrored; " if way == "back_and_forth" else ""
    return "catches of neighbouring passes added, " + mirrored + "standard deviation over mean of one repeat"


def _pattern_steps(
    caught: list[float], half_m: float | None, lopsided: float, spacing_m: float
) -> list[dict[str, object]]:
    shown = [
        step(
            what="Share that lies left of the middle",
            formula="left half of the trays (half of a middle tray with them) over all of them",
            numbers={"caught_g": total(caught), "trays": len(caught)},
            result=lopsided,
            unit="share",
            source=DEFINITION,
        )
    ]
    if half_m is not None:
        shown.append(
            step(
                what="Swath by the half-catch rule",
                formula="from where the catch is half of the middle's on the left to the same on the right",
                numbers={"trays": len(caught), "tray_spacing_m": spacing_m},
                result=half_m,
                unit="m",
                source=HALF_SOURCE,
            )
        )
    return shown
