"""The share of its water that a lawn got and will get, over days of which rain and thirst may not all be known."""

from lawn.engine.core.dates import DAYS_BEFORE, day_text
from lawn.engine.core.numeric import optional_number, total
from lawn.engine.watering import balance
from lawn.engine.watering.need import ROOT_MM
from lawn.engine.watering.reference_et import hargreaves_et_mm
from lawn.engine.watering.sun import top_radiation_mj_m2

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

USUAL_SOIL = "loam"  # the middle of the printed soils, where what is written of the ground is none of them
RECENT_DAYS = 14  # watering of so many days is taken to go on (common practice)
FORGET_DAYS = 7  # so many days in a row that nobody told of, and the ground is taken to be wet again (common practice)


def holds_mm(*, soil: "str | None") -> float:
    """Water that the root zone of a soil holds for the grass.

    Args:
        soil: the soil as somebody wrote it down; loam where it is none of the printed ones [text or null]
    Returns:
        holds_mm: water held over 200 mm of roots [mm]
    Raises:
        nothing: any text is taken
    Source: fao56
    Checked: loam holds 155 mm in a metre, the middle of the printed range (fao56)
    """
    name = "" if soil is None else soil.strip().lower().replace(" ", "_")
    return balance.total_mm(
        available_mm_m=balance.HOLDS_MM_M.get(name, balance.HOLDS_MM_M[USUAL_SOIL]), root_mm=ROOT_MM
    )


def told(
    *, days: "list[dict[str, Any]]", first: int, latitude_deg: "float | None"
) -> "list[tuple[float, float] | None]":
    """Rain and the water a short grass would use, of each day of which both are known.

    Args:
        days: days without a gap, as weather.join answers them [list]
        first: number of the first [day]
        latitude_deg: latitude, by which temperatures alone tell that use where no service told it [deg or null]
    Returns:
        told: for each day rain and use in mm, null where either is not known [list]
    Raises:
        out_of_range: a figure is outside its range
    Source: fao56
    """
    found: list[tuple[float, float] | None] = []
    for at in range(len(days)):
        path = "days[" + str(at) + "]."
        rain = optional_number(path + "rain_mm", days[at].get("rain_mm"))
        use = None if rain is None else _use(path, days[at], first + at, latitude_deg)
        found.append(None if rain is None or use is None else (rain, use))
    return found


def _use(path: str, day: "dict[str, Any]", on: int, latitude_deg: "float | None") -> "float | None":
    use = optional_number(path + "et0_mm", day.get("et0_mm"))
    low, high = (optional_number(path + name, day.get(name)) for name in ("min_c", "max_c"))
    if use is not None or latitude_deg is None or low is None or high is None or high < low:
        return use
    date = day_text(on)
    number = DAYS_BEFORE[int(date[5:7]) - 1] + int(date[8:])
    top = top_radiation_mj_m2(latitude_deg=latitude_deg, day_of_year=number)
    return hargreaves_et_mm(mean_c=(low + high) / 2.0, min_c=low, max_c=high, top_mj_m2=top)


def shares(
    *,
    told: "list[tuple[float, float] | None]",
    turf: str,
    holds: float,
    watered: "dict[int, float]",
    now: int,
) -> "list[float | None]":
    """Share of its water that the grass gets on each day; none of a day that nobody told of.

    A day without rain on record is not a dry day: there the lack stays as it was, and after a week of such days
    counting begins anew from wet ground, so that the climate alone never makes a drought.

    Args:
        told: rain and use of each day, as `told` answers them [list]
        turf: season of the grass [one of cool, warm]
        holds: water that the root zone holds for the grass [mm]
        watered: water given by place of its day; the mean of the last two weeks is taken to go on [group of values]
        now: place of today [day]
    Returns:
        shares: share of each day, null where nobody told of it [list]
    Raises:
        nothing: the arguments were checked before
    Source: fao56
    """
    found: list[float | None] = []
    goes_on = _recent(watered, now)
    missing, unknown = 0.0, FORGET_DAYS
    for at in range(len(told)):
        day = told[at]
        if day is None:
            unknown += 1
            found.append(None)
            continue
        missing = 0.0 if unknown >= FORGET_DAYS else missing
        unknown = 0
        rain, use = day[0], balance.USE[turf] * day[1]
        wet = balance.reaching_mm(rain_mm=rain, et0_mm=day[1]) + (watered.get(at, 0.0) if at <= now else goes_on)
        may = balance.adjusted_share(balance.MAY_USE[turf], use)
        missing, share, _ = balance.next_day(missing, wet, use, holds, may)
        found.append(share)
    return found


def _recent(watered: "dict[int, float]", now: int) -> float:
    return total([watered.get(at, 0.0) for at in range(now - RECENT_DAYS + 1, now + 1)]) / RECENT_DAYS
