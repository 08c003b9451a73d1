"""Faults in what went down where, and in what went down too soon or too much."""

from tests.plants.fault import Planted, by

_SHARING = "lawn/engine/dial/sharing.py"
_CLASHES = "tests/properties/test_clash_properties.py"
_SPREADING = "tests/properties/dial/test_spreading_properties.py"

PLANTS = (
    Planted(
        "split_over_all_ground",
        "What a pass put down before it ran out is spread over zones it never reached.",
        _SHARING,
        "return [(0.0, min(area_m2, ground_m2), used)]",
        "return [(0.0, ground_m2, used)]",
        by(_SPREADING, "test_a_split_by_passes_loses_nothing_and_gives_nothing_to_ground_no_pass_reached"),
    ),
    Planted(
        "stretch_at_the_pass_rate",
        "A stretch walked at another setting counts with the rate of its whole pass.",
        _SHARING,
        "found.append((from_m2, done_m2, part_kg * used / parts_kg))",
        "found.append((from_m2, done_m2, part_m2 * used / parts_m2))",
        by(_SPREADING, "test_a_split_counts_each_stretch_with_its_own_rate"),
    ),
    Planted(
        "double_feeding_unseen",
        "Two feeds within a week are not asked about.",
        "lawn/engine/log/too_near.py",
        '("interval", "feed", "feed", FEED_DAYS[0], FEED_DAYS[1]),',
        '("interval", "feed", "seed", FEED_DAYS[0], FEED_DAYS[1]),',
        by(_CLASHES, "test_s04_two_feeds_within_a_week_are_found_whoever_did_them"),
    ),
    Planted(
        "quick_of_one_day_only",
        "Quick nitrogen is added up over one day, not over 28.",
        "lawn/engine/log/too_much.py",
        'rows[at]["day"] - one["day"] < days]',
        'rows[at]["day"] - one["day"] < 1]',
        by(_CLASHES, "test_s04_quick_nitrogen_is_added_over_any_28_days_by_a_plain_reading"),
    ),
)
