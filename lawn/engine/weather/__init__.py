"""Days of weather: read from tables people have, joined from several sources, summed up as a climate."""

from lawn.engine.core.glossary import GLOSSARY, WORDS, add

# What a day may say: words, unit, lowest and highest, as every call that takes days has them.
NAMES = ("et0_mm", "max_c", "mean_c", "min_c", "rain_mm", "wind_m_s")
FIGURES = {name: GLOSSARY[name] for name in NAMES}

add(
    {
        "latitude_deg": ("latitude", "deg", -90.0, 90.0),
        "longitude_deg": ("longitude", "deg", -180.0, 180.0),
    }
)
WORDS["days"] = "list of days"
WORDS["own"] = "list of the household's own days"
WORDS["fetched"] = "list of fetched days"
WORDS["table"] = "table"
WORDS["first"] = "first day asked about"
WORDS["last"] = "last day asked about"
WORDS["climate_c"] = "list of the climate's daily means"
WORDS["temperature_unit"] = "unit of the temperatures"
WORDS["rain_unit"] = "unit of the rain"
WORDS["wind_unit"] = "unit of the wind"
WORDS["date_order"] = "order of day and month"
