"""Water in the root zone, day by day (FAO Irrigation and Drainage Paper 56, chapter 8)."""

# Water a turf uses over that of the short grass of reference (ucanr_kc); share of the root zone's water it may use up
# before it lacks any (fao56, table 22).
USE = {"cool": 0.80, "warm": 0.60}
MAY_USE = {"cool": 0.40, "warm": 0.50}
SMALL_RAIN = 0.2  # of a day's evapotranspiration: less rain never reaches the roots (fao56)
# Water between field capacity and wilting point, mm in a metre of soil: the middle of the printed range (fao56).
HOLDS_MM_M = {
    "sand": 80.0,
    "loamy_sand": 90.0,
    "sandy_loam": 130.0,
    "loam": 155.0,
    "silt_loam": 160.0,
    "silt": 180.0,
    "silty_clay_loam": 155.0,
    "silty_clay": 160.0,
    "clay": 160.0,
}


def total_mm(*, available_mm_m: float, root_mm: float) -> float:
    """Water the root zone holds for the grass (equation 82).

    Args:
        available_mm_m: water a metre of soil holds for roots [mm/m; 10 to 300]
        root_mm: depth of the roots [mm; 30 to 2000]
    Returns:
        total_mm: water held [mm]
    Raises:
        nothing: the arguments were checked before
    Source: fao56
    Checked: 90 mm/m over 0.4 m hold 36 mm (fao56)
    """
    return available_mm_m * root_mm / 1000.0


def adjusted_share(share: float, use_mm: float) -> float:
    """Share that may be used up, less on thirsty days (table 22, footnote)."""
    return min(0.8, max(0.1, share + 0.04 * (5.0 - use_mm)))


def stress_share(missing_mm: float, holds_mm: float, may_use: float) -> float:
    """Share of its usual water that the grass still gets (equation 84)."""
    if missing_mm <= may_use * holds_mm:
        return 1.0
    return max(0.0, (holds_mm - missing_mm) / ((1.0 - may_use) * holds_mm))


def reaching_mm(*, rain_mm: float, et0_mm: float) -> float:
    """Rain that reaches the roots.

    Args:
        rain_mm: rain [mm; 0 to 1000]
        et0_mm: water a short grass would use [mm; 0 to 25]
    Returns:
        reaching_mm: the rain, or nothing where it is less than a fifth of that [mm]
    Raises:
        nothing: the arguments were checked before
    Source: fao56
    Checked: less than 0.2 of a day's reference evapotranspiration may be ignored (fao56)
    """
    return 0.0 if rain_mm < SMALL_RAIN * et0_mm else rain_mm


def next_day(
    missing_mm: float, wet_mm: float, use_mm: float, holds_mm: float, may_use: float
) -> "tuple[float, float, float]":
    """A day's end: water missing, share of its use the grass got, water that drained below the roots.

    Rain and watering come at the start of the day, so what is too much drains before the grass has drunk (example 38).
    """
    drained = max(0.0, wet_mm - missing_mm)
    missing_mm = max(0.0, missing_mm - wet_mm)
    share = stress_share(missing_mm, holds_mm, may_use)
    return min(holds_mm, missing_mm + share * use_mm), share, drained
