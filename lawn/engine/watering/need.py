"""How much water the root zone lacks, when the grass will want some, and what share of its water it gets until then."""

from lawn.engine.core.dates import day_number, day_text
from lawn.engine.core.errors import impossible, missing
from lawn.engine.core.numeric import at_least, choice, number, optional_number
from lawn.engine.core.rows import column, optional_column, rows_of, unbroken
from lawn.engine.core.working import DEFINITION, step
from lawn.engine.watering import balance

MOST_DAYS = 800
TURFS = ("cool", "warm")
ROOT_MM = 200.0  # of a home lawn, where it was not dug for (common practice)


def need(
    *,
    days: object,
    turf: str,
    soil: str | None = None,
    available_mm_m: float | None = None,
    root_mm: float | None = None,
    depletion_share: float | None = None,
    start_depletion_mm: float | None = None,
    today: str | None = None,
) -> "tuple[dict[str, object], list[dict[str, object]]]":
    """Water missing in the root zone, day by day.

    Args:
        days: every day, past and forecast, from one on which the ground was wet or its lack was known [list]
        days.date: the day [date]
        days.et0_mm: water a short grass would use [mm; 0 to 25]
        days.rain_mm: rain [mm; 0 to 1000]
        days.watered_mm?: water given; none when not said [mm; 0 to 500]
        turf: season of the grass [one of cool, warm]
        soil?: its soil, where the water it holds was not measured [one of sand, loamy_sand, sandy_loam, loam,
            silt_loam, silt, silty_clay_loam, silty_clay, clay]
        available_mm_m?: water a metre of it holds for roots [mm/m; 10 to 300]
        root_mm?: depth of the roots; 200 when not said [mm; 30 to 2000]
        depletion_share?: share of that water that may be used before the grass lacks any; else 0.4, for warm-season
            grass 0.5, less on thirsty days [share; 0.1 to 0.8]
        start_depletion_mm?: water missing when the first day begins; none when not said [mm; 0 to 600]
        today?: day asked about; the last one when not said [date]
    Returns:
        depletion_mm: water missing at the end of each day [list of numbers]
        water_share: share of its water that the grass got on each day [list of numbers]
        water_mm: water that fills the root zone on the day asked about [mm]
        holds_mm: water the root zone holds for the grass [mm]
        may_use_mm: of it may be used on the day asked about before the grass lacks any [mm]
        due: first day from the one asked about on which more is missing; null where none is [date or null]
    Raises:
        out_of_range: an argument is outside its range
        missing_argument: neither soil nor the water it holds is given
        impossible: days are left out, or the day asked about is not among them
    Source: fao56
    Checked: 160 mm held, 0.4 of it to be used, 55 mm missing: 61 mm after a day of 6 mm (fao56)
    """
    rows = rows_of("days", days, ("date", "et0_mm", "rain_mm", "watered_mm"), MOST_DAYS)
    first = unbroken("days", rows)
    kind = choice("turf", turf, TURFS)
    per_metre, deep = _available(soil, available_mm_m), _or("root_mm", root_mm, ROOT_MM)
    holds = balance.total_mm(available_mm_m=per_metre, root_mm=deep)
    fixed = optional_number("depletion_share", depletion_share)
    start = min(holds, _or("start_depletion_mm", start_depletion_mm, 0.0))
    et0 = column("days", rows, "et0_mm")
    wet = _wet(column("days", rows, "rain_mm"), optional_column("days", rows, "watered_mm", 0.0), et0)
    missed, shares, limits = _days(wet, et0, kind, holds, fixed, start)
    asked = _asked(today, first, len(rows))
    due = next((at for at in range(asked, len(rows)) if not at_least(limits[at], missed[at])), None)
    value: dict[str, object] = {
        "depletion_mm": missed,
        "water_share": shares,
        "water_mm": missed[asked],
        "holds_mm": holds,
        "may_use_mm": limits[asked],
        "due": None if due is None else day_text(first + due),
    }
    return value, _working(value, et0[asked], wet[asked], kind, {"available_mm_m": per_metre, "root_mm": deep})


def _or(name: str, value: "float | None", otherwise: float) -> float:
    found = optional_number(name, value)
    return otherwise if found is None else found


def _available(soil: "str | None", available_mm_m: "float | None") -> float:
    if available_mm_m is not None:
        return number("available_mm_m", available_mm_m)
    if soil is None:
        raise missing(name="soil")
    return balance.HOLDS_MM_M[choice("soil", soil, tuple(sorted(balance.HOLDS_MM_M)))]


def _wet(rain: list[float], watered: list[float], et0: list[float]) -> list[float]:
    return [balance.reaching_mm(rain_mm=rain[at], et0_mm=et0[at]) + watered[at] for at in range(len(rain))]


def _days(
    wet: list[float], et0: list[float], turf: str, holds: float, fixed: "float | None", start: float
) -> "tuple[list[float], list[float], list[float]]":
    """Water missing, share the grass got, and how much may be missing, for each day."""
    missed, shares, limits, now = [], [], [], start
    for at in range(len(wet)):
        use = balance.USE[turf] * et0[at]
        may = balance.adjusted_share(balance.MAY_USE[turf], use) if fixed is None else fixed
        now, share, _ = balance.next_day(now, wet[at], use, holds, may)
        missed.append(now)
        shares.append(share)
        limits.append(may * holds)
    return missed, shares, limits


def _asked(today: "str | None", first: int, count: int) -> int:
    if today is None:
        return count - 1
    at = day_number("today", today) - first
    if not 0 <= at < count:
        message = "The day asked about is not among the days given."
        raise impossible(
            name="today", value=today, message=message, low=day_text(first), high=day_text(first + count - 1)
        )
    return at


def _working(
    value: "dict[str, object]", et0: float, wet: float, turf: str, ground: "dict[str, object]"
) -> "list[dict[str, object]]":
    use = balance.USE[turf]
    return [
        step(
            what="Water the root zone holds",
            formula="what a metre of the soil holds times the depth of the roots",
            numbers=ground,
            result=value["holds_mm"],
            unit="mm",
            source="fao56",
        ),
        step(
            what="May be missing",
            formula="share that may be used times what the root zone holds; 0.04 less of it for each mm over 5",
            numbers={"holds_mm": value["holds_mm"], "et0_mm": et0},
            result=value["may_use_mm"],
            unit="mm",
            source="fao56",
        ),
        step(
            what="Water missing on the day asked about",
            formula="missing before, less rain and watering, and what the grass used: its share of a short grass's",
            numbers={"wet_mm": wet, "et0_mm": et0, "use_share": use},
            result=value["water_mm"],
            unit="mm",
            source="ucanr_kc",
        ),
        step(
            what="Water due",
            formula="first day on which more is missing than may be",
            numbers={"may_use_mm": value["may_use_mm"]},
            result=value["due"],
            unit="date",
            source=DEFINITION,
        ),
    ]
