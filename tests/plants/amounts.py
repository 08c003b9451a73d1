"""Faults in what went down where, in what went down too soon or too much, and in the limits of a plan."""

from tests.plants.fault import Planted, by

_SHARING = "lawn/engine/dial/sharing.py"
_CLASHES = "tests/properties/test_clash_properties.py"
_FEEDING = "tests/handbook/test_feeding.py"
_LIMITS = "tests/handbook/test_limits.py"
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
    Planted(
        "closed_to_the_new_year",
        "A closed time ends with the year.",
        "lawn/engine/limits/conditions.py",
        "else at >= first or at <= last",
        "else at >= first",
        by(_LIMITS, "test_feeding_is_closed_on_the_printed_days_over_the_turn_of_the_year"),
    ),
    Planted(
        "any_test_opens_phosphate",
        "A soil test older than its rule still opens phosphate.",
        "lawn/engine/limits/amounts.py",
        'days = row["within_years"] * YEAR_DAYS[0]',
        'days = row["within_years"] * 2 * YEAR_DAYS[0]',
        by(_LIMITS, "test_two_applications_of_a_quarter_pound_of_phosphate_make_a_year"),
    ),
    Planted(
        "loosest_where_unknown",
        "Where nobody knows the place, the loosest rule holds.",
        "lawn/engine/limits/rows.py",
        "one = fitting[strictest(figures, highest)]",
        "one = fitting[strictest(figures, not highest)]",
        by(_LIMITS, "test_a_feed_reaches_the_printed_figure_of_its_place_and_not_a_hundredth_more"),
    ),
    Planted(
        "own_rule_past_the_cap",
        "A rule of one's own passes what nobody may pass.",
        "lawn/engine/limits/rows.py",
        'if row["cap"] and row[figure] < one[figure]]',
        'if row["cap"] and row[figure] > one[figure]]',
        by(_LIMITS, "test_nobody_passes_a_pound_at_once_whatever_they_enter"),
    ),
    Planted(
        "young_grass_fed_like_old",
        "Seedlings get what grown grass gets.",
        "lawn/engine/limits/amounts.py",
        'return zone["grass"] in GENTLE or is_young(rows=rows, at=at, zone=zone)',
        'return zone["grass"] in GENTLE',
        by(_LIMITS, "test_half_a_pound_at_once_on_gentle_grass_and_on_seedlings"),
    ),
    Planted(
        "microbes_work_in_the_cold",
        "Natural nitrogen comes free in cold soil as a coat lets go.",
        "lawn/engine/nutrition/kinds.py",
        '"natural": BY_MICROBES,',
        '"natural": BY_WATER,',
        by(_FEEDING, "test_natural_nitrogen_falls_off_sharply_in_the_50s_and_hardly_comes_below"),
    ),
    Planted(
        "nitrogen_from_nowhere",
        "What came free is not taken off what is left.",
        "lawn/engine/nutrition/release.py",
        "left = [left[0] - of_quick, left[1] - of_slow]",
        "left = [left[0], left[1] - of_slow]",
        by("tests/properties/limits/test_feeding_properties.py", "test_nothing_is_lost_and_nothing_comes_from_nowhere"),
    ),
    Planted(
        "clippings_count_for_more",
        "Clippings that stay lower the year by more than a quarter.",
        "lawn/engine/nutrition/aim.py",
        "CLIPPINGS_SHARE = 0.25",
        "CLIPPINGS_SHARE = 0.5",
        by(_FEEDING, "test_shade_takes_half_and_clippings_a_quarter_at_most"),
    ),
    Planted(
        "slow_counts_as_quick_to_burn",
        "A slow-release feed is told to burn in heat.",
        "lawn/engine/limits/conditions.py",
        'row["least_slow_share"] or 1.0)',
        "1.0)",
        by(_FEEDING, "test_in_heat_quick_nitrogen_can_burn_at_any_rate"),
    ),
    Planted(
        "bought_once_more_after_a_count",
        "What was bought before a count is added to it again.",
        "lawn/engine/log/stock.py",
        "uses[product_id], buys[product_id] = [], []",
        "uses[product_id] = []",
        by("tests/domain/test_totals.py", "test_what_was_bought_is_in_the_shed_and_a_later_count_corrects_it"),
    ),
    Planted(
        "a_step_done_by_two_unseen",
        "One step of the plan, done by two phones, is no clash.",
        "lawn/engine/log/clashes.py",
        "if len(rows) < 2:",
        "if len(rows) < 3:",
        by("tests/sync/test_season_records.py", "test_s04_one_step_done_by_two_phones_is_found_in_the_merged_book"),
    ),
)
