"""Faults in the season: windows on the wrong side of the year, plans that break a rule or lose a bag."""

from tests.plants.fault import Planted, by

_WINDOWS = "tests/handbook/test_season_windows.py"

PLANTS = (
    Planted(
        "months_of_the_north_in_the_south",
        "A job of June is asked for in June south of the equator too, in the middle of winter.",
        "lawn/engine/season/windows.py",
        "+ (HALF if is_southern(year) else 0)",
        "",
        by(_WINDOWS, "test_south_by_hand"),
    ),
    Planted(
        "soil_of_one_day",
        "A window opens at the first warm day of soil instead of three days' mean.",
        "lawn/engine/season/turning.py",
        "SOIL_DAYS = 3",
        "SOIL_DAYS = 1",
        by(_WINDOWS, "test_north_by_hand"),
    ),
)
