"""Faults in the season: windows on the wrong side of the year, plans that break a rule or lose a bag."""

from tests.plants.fault import Planted, by

_PLANNER = "tests/properties/season/test_planner.py"
_BLOCKED = "tests/properties/season/test_blocked.py"
_WINDOWS = "tests/handbook/test_season_windows.py"
_GATHER = "tests/properties/season/test_gather.py"
_ON_PHONE = "frontend/src/features/season/model/sheet/moving.test.ts"
_MOVED = "tests/properties/season/test_moved.py"
_SHEET = "tests/properties/season/test_sheet.py"
_ARGUMENTS = "tests/properties/season/test_arguments.py"
_STEPS = "test_steps_done_put_off_or_past_do_not_stand_and_a_locked_job_stays_even_outside_its_window"
_SHOPPING = "lawn/engine/season/gather/shopping.py"
_SHOPPING_TEST = "tests/properties/season/test_shopping.py"

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
    Planted(
        "claimed_cost_believed",
        "A cost that the solver claims for a start is believed, so a better plan is never looked for.",
        "lawn/planning/solver.py",
        "if start and found.values and not _agrees(model, found):",
        "if False:",
        by(_BLOCKED, "test_a_start_changes_no_best_plan"),
    ),
    Planted(
        "young_grass_fed_richly",
        "Grass is fed as richly as ever while what was sown into it is young.",
        "lawn/engine/season/jobs.py",
        "        _gentle(model, plan, of, week, now)\n",
        "",
        by(_PLANNER, "test_no_plan_of_any_yard_breaks_a_rule"),
    ),
    Planted(
        "leftovers_forgotten",
        "What is left of opened bags costs nothing, so bags are bought as if they kept for ever.",
        "lawn/engine/season/rows.py",
        "LEFT_SHARE = 0.25",
        "LEFT_SHARE = 0.0",
        by(_PLANNER, "test_the_planner_costs_what_the_best_of_all_plans_costs"),
    ),
    Planted(
        "done_step_counted_twice",
        "A step that was done is drawn as a feed beside the one in the log: twice the nitrogen.",
        "lawn/engine/season/sheet/bands.py",
        'step["state"] == "planned" and step["to"]',
        'step["state"] != "put_off" and step["to"]',
        by(_SHEET, "test_a_done_step_counts_by_the_log_alone_and_one_that_passed_or_was_put_off_counts_nowhere"),
    ),
    Planted(
        "step_without_ground_not_drawn",
        "A step that names no ground stands nowhere on the sheet.",
        "lawn/engine/season/sheet/sheet.py",
        'or (of["id"] == OTHER and not step["zones"])',
        "",
        by(_SHEET, "test_every_step_of_the_year_is_a_flag_on_each_ground_it_names"),
    ),
    Planted(
        "last_day_of_a_move_not_asked",
        "A step is moved so that it ends on closed days, and no rule answers.",
        "lawn/engine/season/sheet/move.py",
        "for day in [first] if first == last else [first, last]:",
        "for day in [first]:",
        by(_MOVED, "test_closed_days_speak_on_the_first_and_on_the_last_day_of_the_step"),
    ),
    Planted(
        "move_asked_without_the_log",
        "A step is moved onto a feed that was done a week ago, and no rule answers.",
        "lawn/engine/season/sheet/move.py",
        "jobs: list[Any] = done + [",
        "jobs: list[Any] = [",
        by(_MOVED, "test_a_step_moved_too_near_to_what_was_done_says_from_when_it_is_right"),
    ),
    Planted(
        "the_next_step_not_asked",
        "A step is moved right before another one, and the other, which now follows too soon, is not told.",
        "lawn/engine/season/sheet/move.py",
        'if name == one["job"] or name in one["others"]]',
        'if name == one["job"]]',
        by(_MOVED, "test_another_step_that_then_follows_too_soon_is_named"),
    ),
    Planted(
        "own_rule_unheard",
        "A rule that the household entered for one feed does not reach the plan.",
        "lawn/engine/season/gather/held.py",
        'if rule["kind"] in ONCE',
        'if rule["kind"] in ONCE and rule["source"] != "entered by you"',
        by(_ARGUMENTS, "test_the_household_s_own_rule_lowers_what_a_feed_may_bring"),
    ),
    Planted(
        "put_off_step_stands",
        "A step that was put off holds its week in the next plan.",
        "lawn/engine/season/gather/standing.py",
        'step["state"] != "planned" or ',
        "",
        by(_ARGUMENTS, _STEPS),
    ),
    Planted(
        "locked_job_needs_its_window",
        "An aeration that a person locked outside its window makes every plan impossible.",
        "lawn/engine/season/jobs.py",
        "sorted(set(whole or found) | pinned)",
        "sorted(set(whole or found))",
        by(_ARGUMENTS, _STEPS),
    ),
    Planted(
        "shed_forgotten_when_shopping",
        "The shopping list buys what is in the shed once more.",
        _SHOPPING,
        'buy_kg = 0.0 if covered else need_kg - product["left_kg"]',
        "buy_kg = 0.0 if covered else need_kg",
        by(_SHOPPING_TEST, "test_whole_bags_cover_the_steps_and_one_less_would_not"),
    ),
    Planted(
        "bags_cut_down",
        "Bags are counted down to whole ones, so the last step falls short.",
        _SHOPPING,
        'bags = whole_up(buy_kg / product["net_kg"])',
        'bags = int(buy_kg / product["net_kg"])',
        by(_SHOPPING_TEST, "test_whole_bags_cover_the_steps_and_one_less_would_not"),
    ),
    Planted(
        "bags_wanted_late",
        "A bag is wanted by the last step instead of the first that goes short.",
        _SHOPPING,
        "if not at_least(left_kg, total(taken)):",
        "if one is ordered[-1]:",
        by(_SHOPPING_TEST, "test_the_day_is_that_of_the_first_step_the_shed_does_not_last_for"),
    ),
    Planted(
        "move_against_the_label_taken",
        "A step let go of on days that the label forbids is written there without a word.",
        "frontend/src/features/season/model/sheet/moving.ts",
        "if (answer.value.breaches.length && !anyway) {",
        "if (answer.value.breaches.length > 99) {",
        by(_ON_PHONE, "is not written against the label, but on purpose"),
    ),
    Planted(
        "undo_keeps_the_lock",
        "A move that was taken back leaves the step locked, so that no plan moves it again.",
        "frontend/src/features/season/model/sheet/moving.ts",
        "{ locked: step.locked }",
        "{ locked: true }",
        by(_ON_PHONE, "takes back a move that was sent already by saying the old days again"),
    ),
)
