"""When the sun sets: how long an evening's mow has light."""

import math

from lawn.engine.core.dates import day_number
from lawn.engine.core.numeric import number
from lawn.engine.core.working import step

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

ZENITH_DEG = 90.833  # the upper edge of the sun on the horizon, with the air's refraction (noaa_solar)
DAY_MINUTES = 1440.0
CENTURY_DAYS = 36525.0
NOON_2000 = 730120.5  # noon of 1 January 2000 UTC, in days as core/dates counts them


def sunset(
    *, latitude_deg: float, longitude_deg: float, date: str
) -> "tuple[dict[str, object], list[dict[str, object]]]":
    """Sunrise and sunset of a day at a place, to about a minute below latitude 60.

    Args:
        latitude_deg: latitude, south below 0 [deg; -90 to 90]
        longitude_deg: longitude, west below 0 [deg; -180 to 180]
        date: the day at that place [date]
    Returns:
        sunset_min: minutes from the day's 0:00 UTC to sunset; null where the sun does not set or rise [minute or null]
        sunrise_min: the same to sunrise [minute or null]
        noon_min: the same to the sun's highest place [minute]
        state: whether there is a sunset that day [one of sets, light_all_day, dark_all_day]
    Raises:
        out_of_range: a number is outside its range
        wrong_type: the date is none
    Source: noaa_solar
    Checked: at latitude 40, longitude -105, on 21 June 2010 it sets 1592 minutes after 0:00 UTC (computed)
    """
    latitude = number("latitude_deg", latitude_deg)
    longitude = number("longitude_deg", longitude_deg)
    day = day_number("date", date)
    noon = _at(day, DAY_MINUTES / 2.0 - 4.0 * longitude, latitude, longitude)["noon"]
    down, up = _edge(day, noon, latitude, longitude, 1.0), _edge(day, noon, latitude, longitude, -1.0)
    state = _state(down["reach"])
    value: dict[str, object] = {
        "sunset_min": down["minutes"],
        "sunrise_min": up["minutes"],
        "noon_min": noon,
        "state": state,
    }
    return value, _working(value, latitude, longitude, down)


def _at(day: int, minutes: float, latitude: float, longitude: float) -> "dict[str, float]":
    """Where the sun is at a minute of the day, from 0:00 UTC."""
    century = (day + minutes / DAY_MINUTES - NOON_2000) / CENTURY_DAYS
    slope, ahead = _sun(century)
    north = math.radians(latitude)
    horizon = math.cos(math.radians(ZENITH_DEG)) / (math.cos(north) * math.cos(slope))
    return {
        "looked_min": minutes,
        "noon": DAY_MINUTES / 2.0 - 4.0 * longitude - ahead,
        "ahead": ahead,
        "slope": slope,
        "reach": horizon - math.tan(north) * math.tan(slope),
    }


def _sun(century: float) -> tuple[float, float]:
    """The sun's angle over the equator, and the minutes by which it is ahead of the mean sun; names as printed."""
    t = century
    mean = math.radians((280.46646 + t * (36000.76983 + t * 0.0003032)) % 360.0)
    anomaly = math.radians((357.52911 + t * (35999.05029 - 0.0001537 * t)) % 360.0)
    orbit = 0.016708634 - t * (0.000042037 + 0.0000001267 * t)
    centre = math.sin(anomaly) * (1.914602 - t * (0.004817 + 0.000014 * t))
    centre += math.sin(2.0 * anomaly) * (0.019993 - 0.000101 * t) + math.sin(3.0 * anomaly) * 0.000289
    node = math.radians(125.04 - 1934.136 * t)
    seen = mean + math.radians(centre - 0.00569 - 0.00478 * math.sin(node))
    tilt = 23.0 + (26.0 + (21.448 - t * (46.815 + t * (0.00059 - t * 0.001813))) / 60.0) / 60.0
    tilt = math.radians(tilt + 0.00256 * math.cos(node))
    half = math.tan(tilt / 2.0) ** 2
    ahead = half * math.sin(2.0 * mean) - 2.0 * orbit * math.sin(anomaly)
    ahead += 4.0 * orbit * half * math.sin(anomaly) * math.cos(2.0 * mean)
    ahead -= 0.5 * half * half * math.sin(4.0 * mean) + 1.25 * orbit * orbit * math.sin(2.0 * anomaly)
    return math.asin(math.sin(tilt) * math.sin(seen)), 4.0 * math.degrees(ahead)


def _edge(day: int, noon: float, latitude: float, longitude: float, way: float) -> "dict[str, Any]":
    """Sunset (way 1) or sunrise (-1), looked for once more with the sun where it is by then."""
    minutes: float | None = noon + way * DAY_MINUTES / 4.0
    sun: dict[str, Any] = {}
    for _ in range(2):
        sun = _at(day, noon if minutes is None else minutes, latitude, longitude)
        half = _half_day_min(sun["reach"])
        minutes = None if half is None else sun["noon"] + way * half
    sun["minutes"] = minutes
    return sun


def _half_day_min(reach: float) -> "float | None":
    """Minutes from noon to sunset, 4 for each degree the earth turns; none where the sun stays up or down."""
    return 4.0 * math.degrees(math.acos(reach)) if -1.0 <= reach <= 1.0 else None


def _state(reach: float) -> str:
    if -1.0 <= reach <= 1.0:
        return "sets"
    return "light_all_day" if reach < -1.0 else "dark_all_day"


def _working(
    value: "dict[str, object]", latitude: float, longitude: float, sun: "dict[str, Any]"
) -> "list[dict[str, object]]":
    slope_deg, ahead = math.degrees(sun["slope"]), sun["ahead"]
    return [
        _step(
            "Sun over the equator",
            "from the sun's mean place and its orbit",
            {"from_utc_min": sun["looked_min"]},
            slope_deg,
            "deg",
        ),
        _step(
            "Sun ahead of the clock",
            "from the sun's mean place and its orbit",
            {"from_utc_min": sun["looked_min"]},
            ahead,
            "minute",
        ),
        _step(
            "Noon of the sun, from 0:00 UTC",
            "720 less 4 a degree of longitude, less the sun's lead",
            {"longitude_deg": longitude, "ahead_min": ahead},
            value["noon_min"],
            "minute",
        ),
        _step(
            "Sunset, from 0:00 UTC",
            "noon and 4 minutes for each degree the earth turns until the sun's upper edge is at the horizon",
            {"latitude_deg": latitude, "slope_deg": slope_deg, "zenith_deg": ZENITH_DEG},
            value["sunset_min"],
            "minute",
        ),
        _step(
            "Sunrise, from 0:00 UTC",
            "noon less the same",
            {"latitude_deg": latitude, "slope_deg": slope_deg, "zenith_deg": ZENITH_DEG},
            value["sunrise_min"],
            "minute",
        ),
    ]


def _step(what: str, formula: str, numbers: "dict[str, object]", result: object, unit: str) -> "dict[str, object]":
    return step(what=what, formula=formula, numbers=numbers, result=result, unit=unit, source="noaa_solar")
