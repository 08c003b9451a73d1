"""Cutting: how high, how short, and when."""

from lawn.engine.core.glossary import WORDS, add

add(
    {
        "highest_mm": ("highest setting of the mower", "mm", 10.0, 200.0),
        "height_mm": ("height of the grass", "mm", 2.0, 2000.0),
        "height_before_mm": ("height before the cut", "mm", 5.0, 2000.0),
        "target_mm": ("height of cut wanted", "mm", 2.0, 200.0),
        "cut_mm": ("height after the cut", "mm", 2.0, 500.0),
        "error_mm": ("likely error of the height", "mm", 0.5, 100.0),
        "water_share": ("share of its water that the grass gets", "share", 0.0, 1.0),
        "slow_share": ("slow-release share of the nitrogen", "share", 0.0, 1.0),
        "looks": ("heights learnt from", "count", 0, 100000),
        "growth_mm_day": ("growth of a day", "mm", 0.0, 50.0),
        "days_between": ("days between cuts", "day", 1, 60),
        "since_days": ("days since the last cut", "day", 0.0, 36500.0),
        "notch_mm": ("height a notch of the mower cuts at", "mm", 5.0, 200.0),
        "own_mm": ("height of cut kept here", "mm", 2.0, 200.0),
        "low_mm": ("lowest height for this grass", "mm", 2.0, 200.0),
        "high_mm": ("highest height for this grass", "mm", 2.0, 200.0),
        "recent_mean_c": ("mean temperature of the last week", "C", -60.0, 60.0),
        "minutes": ("minutes mown", "minute", 0.0, 1440.0),
        "hours_between": ("hours of use between sharpenings", "h", 1.0, 500.0),
        "weekdays": ("day of the week, Monday 1", "day", 1, 7),
    }
)
WORDS["seen"] = "list of heights read"
WORDS["cut"] = "day of the cut"
WORDS["looked"] = "day the height was read"
WORDS["feeds"] = "list of feeds"
WORDS["waterings"] = "list of waterings"
WORDS["belief"] = "what was learnt"
WORDS["notches"] = "list of the mower's notches"
WORDS["weather"] = "list of forecast days"
WORDS["mows"] = "list of mows"
WORDS["exception"] = "exception"
WORDS["heights"] = "list of heights read without a cut"
