"""Faults in the season: windows on the wrong side of the year, plans that break a rule or lose a bag."""

from tests.plants.fault import Planted, by

_WINDOWS = "tests/handbook/test_season_windows.py"
_GATHER = "tests/properties/season/test_gather.py"

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
    Planted(
        "unpriced_bag_is_free",
        "A bag whose price nobody entered costs nothing in the plan, so that it is always the one to buy.",
        "lawn/engine/season/gather/shed.py",
        'row["net_kg"] * (dearest_n * n / 100.0 if n > 0.0 else dearest_kg)',
        "0.0",
        by(_GATHER, "test_a_bag_without_a_price_never_looks_cheaper_than_one_with"),
    ),
    Planted(
        "fed_apart_due_alike",
        "A zone fed last week is fed again with its neighbor that was not.",
        "lawn/engine/season/gather/groups.py",
        '(tuple(weeks), tuple(zone["jobs"]))',
        '(tuple(zone["jobs"]),)',
        by(_GATHER, "test_zones_fed_in_different_weeks_lately_are_not_due_alike_and_are_again_later"),
    ),
)
