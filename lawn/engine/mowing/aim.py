"""How high to cut: within the range of the grass, higher in heat, shade and drought."""

from lawn.engine.core.errors import impossible
from lawn.engine.core.numeric import choice, flag, number, optional_number
from lawn.engine.core.working import COMMON, step
from lawn.engine.warmth.response import TURFS

# Where in the range: 2.5 to 3 in of 2.5 to 3.5 in spring and fall, the upper half in summer (isu_mow).
USUAL_PLACE, HEAT_PLACE, TOP_PLACE = 0.25, 0.75, 1.0
HEAT_C = 24.0  # mean of a week at which cool-season grass suffers (common practice)
SOURCES = {"usual": "isu_mow", "heat": "isu_mow", "shade": "az_shade", "drought": "uc_ipm_mowspecial"}


def height(
    *,
    turf: str,
    low_mm: float,
    high_mm: float,
    recent_mean_c: float | None = None,
    shade: bool | None = None,
    drought: bool | None = None,
    own_mm: float | None = None,
) -> "tuple[dict[str, object], list[dict[str, object]]]":
    """Height to cut to now, within the range of the grass.

    Args:
        turf: season of the grass [one of cool, warm]
        low_mm: lowest height for this grass, or for this household [mm; 2 to 200]
        high_mm: highest height for it [mm; 2 to 200]
        recent_mean_c?: mean temperature of the last week; cool-season grass is cut higher in heat [C; -60 to 60]
        shade?: true where it stands in shade [true or false]
        drought?: true where it wilts or rests in drought [true or false]
        own_mm?: height this household keeps; only heat, shade and drought may ask for more [mm; 2 to 200]
    Returns:
        target_mm: height to cut to [mm]
        why: what decided it, the strongest reason first [list of texts]
        rest: true where wilted grass is better not mown at all [true or false]
    Raises:
        out_of_range: an argument is outside its range
        impossible: the lowest height is above the highest
    Source: isu_mow
    Checked: of 2.5 to 3.5 in, 2.75 in in spring and 3.25 in in summer's heat (isu_mow)
    """
    kind = choice("turf", turf, TURFS)
    low, high = number("low_mm", low_mm), number("high_mm", high_mm)
    if low > high:
        message = "The lowest height of cut cannot be above the highest."
        raise impossible(name="low_mm", value=low, message=message, high=high)
    recent = optional_number("recent_mean_c", recent_mean_c)
    hot = kind == "cool" and recent is not None and recent >= HEAT_C
    dry = flag("drought", drought)
    why = _why(hot, flag("shade", shade), dry)
    own = optional_number("own_mm", own_mm)
    place = TOP_PLACE if why[0] in ("drought", "shade") else (HEAT_PLACE if hot else USUAL_PLACE)
    printed = low + (high - low) * place
    target = printed if own is None else (own if why[0] == "usual" else max(own, printed))
    value: dict[str, object] = {"target_mm": target, "why": why, "rest": dry}
    return value, [
        step(
            what="Height of cut",
            formula="a quarter up the range; three quarters up it in heat, its top in shade or drought",
            numbers={"low_mm": low, "high_mm": high, "place_share": place, "recent_mean_c": recent},
            result=printed,
            unit="mm",
            source=SOURCES[why[0]],
        ),
        step(
            what="Cut to",
            formula="the height kept here, or more where heat, shade or drought asks for it; else the height above",
            numbers={"own_mm": own, "printed_mm": printed},
            result=target,
            unit="mm",
            source=COMMON,
        ),
        step(
            what="Heat begins at",
            formula="mean of a week at which cool-season grass suffers",
            numbers={"recent_mean_c": recent},
            result=HEAT_C,
            unit="C",
            source=COMMON,
        ),
    ]


def _why(hot: bool, shade: bool, drought: bool) -> list[str]:
    found = [name for name, there in (("drought", drought), ("shade", shade), ("heat", hot)) if there]
    return found if found else ["usual"]
