"""How high to cut: within the range of the grass, higher in heat, shade and drought."""

from lawn.engine.core.dates import day_number, day_text
from lawn.engine.core.errors import impossible
from lawn.engine.core.numeric import choice, flag, group, listing, number, optional_number, total
from lawn.engine.core.working import COMMON, DEFINITION, step
from lawn.engine.warmth.response import TURFS

# Where in the range: 2.5 to 3 in of 2.5 to 3.5 in spring and fall, the upper half in summer (isu_mow).
USUAL_PLACE, HEAT_PLACE, TOP_PLACE = 0.25, 0.75, 1.0
HEAT_C = 24.0  # mean of a week at which cool-season grass suffers (common practice)
WEEK_DAYS, MOST_DAYS = 7, 800
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
    days: object = None,
    today: str | None = None,
) -> "tuple[dict[str, object], list[dict[str, object]]]":
    """Height to cut to now, within the range of the grass.

    Args:
        turf: season of the grass [one of cool, warm]
        low_mm: lowest height for this grass, or for this household [mm; 2 to 200]
        high_mm: highest height for it [mm; 2 to 200]
        recent_mean_c?: mean temperature of the last week; cool-season grass is cut higher in heat [C; -60 to 60]
        shade?: true where it stands in shade [true or false]
        drought?: true where it wilts or rests in drought [true or false]
        days?: past days, as weather.join answers them; the week up to today is taken where recent_mean_c is not said
            [list]
        days.date: the day [date]
        days.mean_c?: mean temperature of the air [C; -60 to 60]
        today?: the day asked about; wanted with days [date]
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
    week: list[float] = [] if recent is not None or days is None else week_c(days, day_number("today", today))
    recent = total(week) / WEEK_DAYS if week else recent
    hot = kind == "cool" and recent is not None and recent >= HEAT_C
    dry = flag("drought", drought)
    why = _why(hot, flag("shade", shade), dry)
    own = optional_number("own_mm", own_mm)
    place = TOP_PLACE if why[0] in ("drought", "shade") else (HEAT_PLACE if hot else USUAL_PLACE)
    printed = low + (high - low) * place
    target = printed if own is None else (own if why[0] == "usual" else max(own, printed))
    value: dict[str, object] = {"target_mm": target, "why": why, "rest": dry}
    return value, _week_steps(week, recent) + [
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


def week_c(days: object, now: int) -> list[float]:
    """Means of the seven days up to today; none where any of them is not known."""
    wanted = [day_text(now - back) for back in range(WEEK_DAYS)]
    known: dict[str, float] = {}
    for at, item in enumerate(listing("days", days, 0, MOST_DAYS)):
        path = "days[" + str(at) + "]"
        row = item if isinstance(item, dict) else group(path, item, ())
        mean = optional_number(path + ".mean_c", row.get("mean_c"))
        day = day_text(day_number(path + ".date", row.get("date")))
        if day in wanted and mean is not None:
            known[day] = mean
    return [known[one] for one in wanted] if len(known) == WEEK_DAYS else []


def _week_steps(week: list[float], recent: "float | None") -> list[dict[str, object]]:
    if not week:
        return []
    return [
        step(
            what="Mean temperature of the last week",
            formula="means of the seven days up to today, added, over their number",
            numbers={"days_mean_c": week},
            result=recent,
            unit="C",
            source=DEFINITION,
        )
    ]


def _why(hot: bool, shade: bool, drought: bool) -> list[str]:
    found = [name for name, there in (("drought", drought), ("shade", shade), ("heat", hot)) if there]
    return found if found else ["usual"]
