"""Reference evapotranspiration: the water that a short, well watered grass uses on a day."""

import math

from lawn.engine.core.errors import impossible
from lawn.engine.core.numeric import flag, number, optional_number, whole
from lawn.engine.core.working import step
from lawn.engine.watering import air, sun

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

SOURCE = "fao56"
USUAL_WIND_M_S = 2.0
MM_PER_MJ_M2 = 0.408
KNOWN = (
    "dew_point_c",
    "humidity_max",
    "humidity_min",
    "wind_m_s",
    "wind_height_m",
    "radiation_mj_m2",
    "sun_hours",
)


def penman_monteith(
    *, mean_c: float, slope: float, psychrometric: float, net_mj_m2: float, wind_m_s: float, deficit: float
) -> "tuple[float, float]":
    """The two parts of the equation: what radiation drives and what dry wind drives [mm].

    Args:
        mean_c: mean temperature [C; -60 to 60]
        slope: slope of the vapour curve [kPa/C; 0 to 10]
        psychrometric: psychrometric constant [kPa/C; 0 to 1]
        net_mj_m2: net radiation less what the soil takes up [MJ/m2; -50 to 50]
        wind_m_s: wind at 2 m [m/s; 0 to 60]
        deficit: vapour the air could still take [kPa; -10 to 20]
    Returns:
        parts: radiation's part and the wind's part [mm]
    Source: fao56
    Checked: Uccle, 6 July: 2.81 and 1.07 mm (fao56)
    """
    below = slope + psychrometric * (1.0 + 0.34 * wind_m_s)
    by_sun = MM_PER_MJ_M2 * slope * net_mj_m2 / below
    return by_sun, psychrometric * 900.0 / (mean_c + 273.0) * wind_m_s * deficit / below


def hargreaves_et_mm(*, mean_c: float, min_c: float, max_c: float, top_mj_m2: float) -> float:
    """Reference evapotranspiration from temperatures alone.

    Args:
        mean_c: mean temperature [C; -60 to 60]
        min_c: lowest temperature [C; -60 to 60]
        max_c: highest temperature [C; -60 to 60]
        top_mj_m2: radiation at the top of the air [MJ/m2; 0 to 50]
    Returns:
        et_mm: water used on the day [mm]
    Raises:
        out_of_range: an argument is outside its range
    Source: fao56
    Checked: 28 to 38 C, mean 35 C, under 38.94 MJ/m2: 6.1 mm (pyeto)
    """
    return max(0.0, 0.0023 * (mean_c + 17.8) * math.sqrt(max_c - min_c) * MM_PER_MJ_M2 * top_mj_m2)


def reference_et(
    *,
    latitude_deg: float,
    elevation_m: float,
    day_of_year: int,
    min_c: float,
    max_c: float,
    dew_point_c: float | None = None,
    humidity_max: float | None = None,
    humidity_min: float | None = None,
    wind_m_s: float | None = None,
    wind_height_m: float | None = None,
    radiation_mj_m2: float | None = None,
    sun_hours: float | None = None,
    coastal: bool | None = None,
) -> tuple[dict[str, object], "list[dict[str, object]]"]:
    """Reference evapotranspiration of a day, from what is known of its weather.

    Args:
        latitude_deg: latitude, south negative [deg; -90 to 90]
        elevation_m: height above the sea [m; -450 to 6000]
        day_of_year: 1 January is 1 [day; 1 to 366]
        min_c: lowest temperature [C; -60 to 60]
        max_c: highest temperature [C; -60 to 60]
        dew_point_c?: dew point [C; -60 to 40]
        humidity_max?: highest humidity [%; 1 to 100]
        humidity_min?: lowest humidity [%; 0 to 100]
        wind_m_s?: mean wind [m/s; 0 to 60]
        wind_height_m?: height it was measured at; 2 when not said [m; 0.5 to 100]
        radiation_mj_m2?: radiation of the sun on the ground [MJ/m2; 0 to 50]
        sun_hours?: hours of sunshine [h; 0 to 24]
        coastal?: true near a coast, where nights cool less [true or false]
    Returns:
        et0_mm: water that a short grass would use [mm]
        method: from temperatures alone by Hargreaves [one of penman_monteith, hargreaves]
        estimated: what was not known and had to be estimated [list of texts]
        daylight_hours: hours between sunrise and sunset [h]
        top_radiation_mj_m2: radiation at the top of the air [MJ/m2]
    Raises:
        out_of_range: an argument is outside its range
        impossible: the lowest temperature is above the highest, or the lowest humidity above the highest
    Source: fao56
    Checked: Uccle, 6 July: 3.88 mm (fao56)
    """
    known = _known(dew_point_c, humidity_max, humidity_min, wind_m_s, wind_height_m, radiation_mj_m2, sun_hours)
    low, high = number("min_c", min_c), number("max_c", max_c)
    _ordered("min_c", low, high, "The lowest temperature of a day cannot be above its highest.")
    _ordered("humidity_min", known["humidity_min"], known["humidity_max"], "The lowest humidity is above the highest.")
    place = number("latitude_deg", latitude_deg), whole("day_of_year", day_of_year)
    day: dict[str, Any] = {
        "min_c": low,
        "max_c": high,
        "mean_c": (low + high) / 2.0,
        "elevation_m": number("elevation_m", elevation_m),
        "coastal": flag("coastal", coastal),
        "top_mj_m2": sun.top_radiation_mj_m2(latitude_deg=place[0], day_of_year=place[1]),
        "daylight_hours": sun.daylight_hours(place[0], place[1]),
    }
    by_equation = any(known[name] is not None for name in KNOWN if name != "wind_height_m")
    et0, estimated, working = _penman(day, known) if by_equation else _hargreaves(day)
    value: dict[str, object] = {
        "et0_mm": et0,
        "method": "penman_monteith" if by_equation else "hargreaves",
        "estimated": estimated,
        "daylight_hours": day["daylight_hours"],
        "top_radiation_mj_m2": day["top_mj_m2"],
    }
    return value, _of_the_sun(place, day) + working


def _known(*values: object) -> "dict[str, Any]":
    return {KNOWN[at]: optional_number(KNOWN[at], values[at]) for at in range(len(KNOWN))}


def _ordered(name: str, low: "float | None", high: "float | None", message: str) -> None:
    if low is not None and high is not None and low > high:
        raise impossible(name=name, value=low, message=message, high=high)


def _hargreaves(day: "dict[str, Any]") -> "tuple[float, list[str], list[dict[str, object]]]":
    et0 = hargreaves_et_mm(mean_c=day["mean_c"], min_c=day["min_c"], max_c=day["max_c"], top_mj_m2=day["top_mj_m2"])
    numbers = {name: day[name] for name in ("mean_c", "min_c", "max_c", "top_mj_m2")}
    formula = "0.0023 (mean + 17.8) times the root of the day's range times radiation at the top of the air, in mm"
    return et0, ["radiation", "humidity", "wind"], [_step("Water a short grass would use", formula, numbers, et0, "mm")]


def _penman(day: "dict[str, Any]", known: "dict[str, Any]") -> "tuple[float, list[str], list[dict[str, object]]]":
    estimated: list[str] = []
    vapour = _vapour(day, known, estimated)
    ground = _radiation(day, known, estimated)
    wind = _wind(known, estimated)
    clear = air.clear_sky_mj_m2(top_mj_m2=day["top_mj_m2"], elevation_m=day["elevation_m"])
    lost = air.lost_heat_mj_m2(
        min_c=day["min_c"], max_c=day["max_c"], vapour=vapour, ground_mj_m2=ground, clear_mj_m2=clear
    )
    net = (1.0 - air.ALBEDO) * ground - lost
    could = (air.vapour_kpa(day["min_c"]) + air.vapour_kpa(day["max_c"])) / 2.0
    parts = penman_monteith(
        mean_c=day["mean_c"],
        slope=air.vapour_slope_kpa_c(day["mean_c"]),
        psychrometric=air.psychrometric_kpa_c(day["elevation_m"]),
        net_mj_m2=net,
        wind_m_s=wind,
        deficit=max(0.0, could - vapour),
    )
    et0 = max(0.0, parts[0] + parts[1])
    return et0, estimated, _of_the_air(day, vapour, could, ground, clear, lost, net, wind, parts, et0)


def _vapour(day: "dict[str, float]", known: "dict[str, Any]", estimated: list[str]) -> float:
    """Vapour in the air: from the dew point, else from humidity, else as if the night reached the dew point."""
    dew, most, least = known["dew_point_c"], known["humidity_max"], known["humidity_min"]
    if dew is not None:
        return air.vapour_kpa(dew)
    if most is not None and least is not None:
        return (air.vapour_kpa(day["min_c"]) * float(most) + air.vapour_kpa(day["max_c"]) * float(least)) / 200.0
    if most is not None:
        return air.vapour_kpa(day["min_c"]) * float(most) / 100.0
    estimated.append("humidity")
    return air.vapour_kpa(day["min_c"])


def _radiation(day: "dict[str, Any]", known: "dict[str, Any]", estimated: list[str]) -> float:
    """Radiation on the ground: as measured, else from sunshine, else from the day's range of temperature."""
    if known["radiation_mj_m2"] is not None:
        return float(known["radiation_mj_m2"])
    if known["sun_hours"] is not None:
        return air.sunshine_mj_m2(
            top_mj_m2=day["top_mj_m2"], sun_hours=known["sun_hours"], daylight_hours=day["daylight_hours"]
        )
    estimated.append("radiation")
    most = air.clear_sky_mj_m2(top_mj_m2=day["top_mj_m2"], elevation_m=day["elevation_m"])
    by_range = air.radiation_by_range_mj_m2(
        top_mj_m2=day["top_mj_m2"], min_c=day["min_c"], max_c=day["max_c"], coastal=day["coastal"]
    )
    return min(most, by_range)


def _wind(known: "dict[str, Any]", estimated: list[str]) -> float:
    if known["wind_m_s"] is None:
        estimated.append("wind")
        return USUAL_WIND_M_S
    wind, height = float(known["wind_m_s"]), known["wind_height_m"]
    return wind if height is None else air.wind_at_2m_m_s(wind, height)


def _of_the_sun(place: "tuple[float, int]", day: "dict[str, Any]") -> "list[dict[str, object]]":
    numbers: dict[str, object] = {"latitude_deg": place[0], "day_of_year": place[1]}
    top, hours = day["top_mj_m2"], day["daylight_hours"]
    return [
        _step("Radiation at the top of the air", "from latitude and date (equation 21)", numbers, top, "MJ/m2"),
        _step("Hours of daylight", "from latitude and date (equation 34)", numbers, hours, "h"),
    ]


def _of_the_air(
    day: "dict[str, Any]",
    vapour: float,
    could: float,
    ground: float,
    clear: float,
    lost: float,
    net: float,
    wind: float,
    parts: "tuple[float, float]",
    et0: float,
) -> "list[dict[str, object]]":
    ends = {"min_c": day["min_c"], "max_c": day["max_c"]}
    return [
        _step("Vapour in the air", "from dew point or humidity, else as at the coldest hour", ends, vapour, "kPa"),
        _step("Vapour it could hold", "mean of that at the lowest and the highest temperature", ends, could, "kPa"),
        _step(
            "Radiation on the ground",
            "as measured, from sunshine, else from the day's range of temperature",
            {"top_mj_m2": day["top_mj_m2"], "clear_mj_m2": clear},
            ground,
            "MJ/m2",
        ),
        _step(
            "Heat sent back, net",
            "from temperature, vapour and clouds (equation 39)",
            {"vapour_kpa": vapour, "ground_mj_m2": ground, "clear_mj_m2": clear},
            lost,
            "MJ/m2",
        ),
        _step(
            "Radiation kept, net",
            "0.77 of that on the ground less the heat sent back",
            {"ground_mj_m2": ground, "sent_back_mj_m2": lost},
            net,
            "MJ/m2",
        ),
        _step(
            "Wind at 2 m", "as measured, brought to 2 m; 2 m/s where it is not known", {"wind_m_s": wind}, wind, "m/s"
        ),
        _step(
            "Water a short grass would use",
            "what radiation drives and what dry wind drives (equation 6)",
            {"by_radiation_mm": parts[0], "by_wind_mm": parts[1]},
            et0,
            "mm",
        ),
    ]


def _step(what: str, formula: str, numbers: "dict[str, Any]", result: float, unit: str) -> "dict[str, object]":
    return step(what=what, formula=formula, numbers=numbers, result=result, unit=unit, source=SOURCE)
