"""Warmth of air and soil through the year: what growth, weeds and feeding go by."""

from lawn.engine.core.glossary import WORDS, add

add(
    {
        "base_c": ("temperature from which degree days count", "C", -10.0, 40.0),
        "upper_c": ("temperature above which nothing more counts", "C", 0.0, 60.0),
        "depth_mm": ("depth in the soil", "mm", 20.0, 300.0),
        "start_c": ("soil temperature on the first day", "C", -30.0, 50.0),
        "annual_mean_c": ("mean temperature of a year", "C", -30.0, 40.0),
        "c": ("temperature read", "C", -30.0, 60.0),
        "error_c": ("likely error of the thermometer", "K", 0.05, 10.0),
        "day": ("place of the day in the list", "place", 0, 1000),
        "monthly_mean_c": ("mean temperature of a month", "C", -60.0, 60.0),
        "warmest_c": ("mean temperature of the warmest month", "C", -60.0, 60.0),
        "coldest_c": ("mean temperature of the coldest month", "C", -60.0, 60.0),
    }
)
WORDS["readings"] = "list of readings"
WORDS["count_from"] = "day from which is counted"
