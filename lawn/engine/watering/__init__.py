"""Water: what the weather takes from the ground, and what is left there for the grass."""

from lawn.engine.core.glossary import WORDS, add

add(
    {
        "latitude_deg": ("latitude", "deg", -90.0, 90.0),
        "elevation_m": ("height above the sea", "m", -450.0, 6000.0),
        "day_of_year": ("day of the year", "day", 1, 366),
        "dew_point_c": ("dew point", "C", -60.0, 40.0),
        "humidity_max": ("highest humidity", "%", 1.0, 100.0),
        "humidity_min": ("lowest humidity", "%", 0.0, 100.0),
        "wind_height_m": ("height of the wind meter", "m", 0.5, 100.0),
        "radiation_mj_m2": ("radiation of the sun on the ground", "MJ/m2", 0.0, 50.0),
        "sun_hours": ("hours of sunshine", "h", 0.0, 24.0),
        "watered_mm": ("water given", "mm", 0.0, 500.0),
        "available_mm_m": ("water that a metre of soil holds for roots", "mm/m", 10.0, 300.0),
        "root_mm": ("depth of the roots", "mm", 30.0, 2000.0),
        "depletion_share": ("share of that water that may be used", "share", 0.1, 0.8),
        "start_depletion_mm": ("water missing at the start", "mm", 0.0, 600.0),
    }
)
WORDS["soil"] = "soil"
