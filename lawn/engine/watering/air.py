"""Pressure, vapour, wind and heat of the air near the ground (FAO Irrigation and Drainage Paper 56)."""

import math

STEFAN_BOLTZMANN = 4.903e-9  # MJ/K4 m2 day
ALBEDO = 0.23  # of the grass of reference
KELVIN = 273.16


def pressure_kpa(elevation_m: float) -> float:
    """Pressure of the air (equation 7)."""
    kpa: float = 101.3 * ((293.0 - 0.0065 * elevation_m) / 293.0) ** 5.26
    return kpa


def psychrometric_kpa_c(elevation_m: float) -> float:
    """Psychrometric constant (equation 8)."""
    return 0.000665 * pressure_kpa(elevation_m)


def vapour_kpa(temperature_c: float) -> float:
    """Pressure of vapour that air of a temperature can hold (equation 11)."""
    return 0.6108 * math.exp(17.27 * temperature_c / (temperature_c + 237.3))


def vapour_slope_kpa_c(temperature_c: float) -> float:
    """How fast that rises with temperature (equation 13)."""
    return 4098.0 * vapour_kpa(temperature_c) / (temperature_c + 237.3) ** 2


def wind_at_2m_m_s(wind_m_s: float, height_m: float) -> float:
    """Wind at 2 m from wind at another height (equation 47)."""
    return wind_m_s * 4.87 / math.log(67.8 * height_m - 5.42)


def clear_sky_mj_m2(*, top_mj_m2: float, elevation_m: float) -> float:
    """Radiation on the ground under a clear sky (equation 37).

    Args:
        top_mj_m2: radiation at the top of the air [MJ/m2; 0 to 50]
        elevation_m: height above the sea [m; -450 to 6000]
    Returns:
        clear_sky_mj_m2: radiation [MJ/m2]
    Raises:
        nothing: the arguments were checked before
    Source: fao56
    Checked: Uccle, 6 July: 30.9 MJ/m2 (fao56)
    """
    return (0.75 + 2e-5 * elevation_m) * top_mj_m2


def sunshine_mj_m2(*, top_mj_m2: float, sun_hours: float, daylight_hours: float) -> float:
    """Radiation on the ground from hours of sunshine (equation 35).

    Args:
        top_mj_m2: radiation at the top of the air [MJ/m2; 0 to 50]
        sun_hours: hours of sunshine; more than there is daylight counts as all of it [h; 0 to 24]
        daylight_hours: hours of daylight [h; 0 to 24]
    Returns:
        sunshine_mj_m2: radiation [MJ/m2]
    Raises:
        nothing: the arguments were checked before
    Source: fao56
    Checked: Rio de Janeiro in May: 14.5 MJ/m2 (fao56)
    """
    return (0.25 + 0.50 * min(1.0, sun_hours / max(daylight_hours, 0.1))) * top_mj_m2


def radiation_by_range_mj_m2(*, top_mj_m2: float, min_c: float, max_c: float, coastal: bool) -> float:
    """Radiation on the ground from the day's range of temperature (equation 50).

    Args:
        top_mj_m2: radiation at the top of the air [MJ/m2; 0 to 50]
        min_c: lowest temperature [C; -60 to 60]
        max_c: highest temperature [C; -60 to 60]
        coastal: true near a coast [true or false]
    Returns:
        radiation_by_range_mj_m2: radiation [MJ/m2]
    Raises:
        nothing: the arguments were checked before
    Source: fao56
    Checked: Lyon in July: 22.3 MJ/m2 (fao56)
    """
    return (0.19 if coastal else 0.16) * math.sqrt(max_c - min_c) * top_mj_m2


def lost_heat_mj_m2(*, min_c: float, max_c: float, vapour: float, ground_mj_m2: float, clear_mj_m2: float) -> float:
    """Heat the ground sends back, net (equation 39).

    Args:
        min_c: lowest temperature [C; -60 to 60]
        max_c: highest temperature [C; -60 to 60]
        vapour: pressure of vapour in the air [kPa; 0 to 10]
        ground_mj_m2: radiation on the ground [MJ/m2; 0 to 50]
        clear_mj_m2: what it would be under a clear sky [MJ/m2; 0 to 50]
    Returns:
        lost_heat_mj_m2: heat sent back [MJ/m2]
    Raises:
        nothing: the arguments were checked before
    Source: fao56
    Checked: Rio de Janeiro in May: 3.5 MJ/m2 (fao56)
    """
    warm = ((max_c + KELVIN) ** 4 + (min_c + KELVIN) ** 4) / 2.0
    # under a sun that never rises nothing tells the clouds; the handbook's lowest share stands for them
    clear = min(1.0, ground_mj_m2 / clear_mj_m2) if clear_mj_m2 > 0.1 else 0.33
    return STEFAN_BOLTZMANN * warm * (0.34 - 0.14 * math.sqrt(vapour)) * (1.35 * clear - 0.35)
