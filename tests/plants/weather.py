"""Faults in weather, warmth and the mow: what leaves the server, what is kept, and what the grass is told to bear."""

from tests.plants.fault import Planted, by

_API = "tests/api/weather/test_weather.py"
_SERIES = "lawn/weather/series.py"
_WARMTH = "tests/properties/weather/test_warmth_properties.py"
_CHART = "tests/properties/weather/test_warmth_chart.py"
_FORECAST = "tests/properties/mowing/test_forecast.py"
_MOW = "tests/properties/test_mowing_properties.py"

PLANTS = (
    Planted(
        "forecast_fetched_unasked",
        "The service is told a household's place before a keeper has said a word.",
        _SERIES,
        "if not household.forecast:",
        "if household.forecast is False:",
        by(_API, "test_nothing_is_asked_before_a_keeper_has_turned_it_on"),
    ),
    Planted(
        "place_cut_off_not_rounded",
        "A place is cut off at a tenth of a degree, so that south and west it lies a tenth from where the phone says.",
        "lawn/weather/place.py",
        "Place(round(household.latitude_deg * 10), round(",
        "Place(int(household.latitude_deg * 10), int(",
        by(_API, "test_a_place_is_rounded_to_the_nearest_tenth"),
    ),
    Planted(
        "cursor_of_any_series",
        "A cursor of a row that was thrown away counts on the new one, so days that a phone lacks never come.",
        _SERIES,
        "whole = series != str(kept.series) or not number.isdigit()",
        "whole = not number.isdigit()",
        by(_API, "test_a_cursor_of_another_series_brings_everything"),
    ),
    Planted(
        "past_weather_let_go",
        "Days of the past go as soon as the service no longer tells them.",
        _SERIES,
        "if key >= first}",
        "if key >= today.isoformat()}",
        by(_API, "test_days_of_the_past_stay_for_400_days"),
    ),
    Planted(
        "trouble_takes_days_away",
        "An odd answer of the service takes away the days that were known.",
        _SERIES,
        "update(trouble=why.code)",
        "update(trouble=why.code, days={}, fetched_at=None)",
        by(_API, "test_an_odd_answer_is_a_word_and_takes_nothing_away"),
    ),
    Planted(
        "every_answer_is_whole",
        "A phone throws its days away for an answer that brings only what is new.",
        "frontend/src/platform/store/weather.ts",
        "if (answer.whole) await db.weather.clear();",
        "await db.weather.clear();",
        by(
            "frontend/src/platform/sync/weather.test.ts",
            "takes changed days alone, and lets go of what is older than 400 days",
        ),
    ),
    Planted(
        "import_replaces_the_month",
        "A table with a few days of a month takes its other days away.",
        "frontend/src/features/weather/model/own-days.ts",
        "...(known ? daysOf(known) : []), ...these",
        "...these",
        by(
            "frontend/src/features/weather/model/own-days.test.ts",
            "are laid over those of their month, and the others stay",
        ),
    ),
    Planted(
        "place_undone_for_good",
        "Undo of a place that was sent removes the household instead of the place.",
        "frontend/src/features/weather/model/place.ts",
        "{ ...of, set: { [name]: before } }",
        "{ ...of, set: { deleted: { deleted: true } } }",
        by(
            "frontend/src/features/weather/model/place.test.ts",
            "is taken back by saying what stood before, and never by removing the household",
        ),
    ),
    Planted(
        "missing_of_what_is_not_asked",
        "A form is stopped by a field that it does not ask for: rain cannot be saved without a temperature.",
        "frontend/src/forms/schema-form.ts",
        "const missing = asked.flatMap(",
        "const missing = fields.flatMap(",
        by("frontend/src/forms/schema-form.test.ts", "says nothing is missing of a field that is not asked for"),
    ),
    Planted(
        "fahrenheit_without_its_zero",
        "Degrees Fahrenheit are only made smaller: freezing is read as 18 °C.",
        "lawn/units/registry.py",
        'comma=unit.system == "metric") - unit.zero) * unit.exact)',
        'comma=unit.system == "metric")) * unit.exact)',
        by("tests/units/test_units_file.py", "test_degrees_fahrenheit_are_counted_from_32_below_freezing"),
    ),
    Planted(
        "error_of_a_reading_from_zero",
        "The error of a thermometer is said from the zero of °F: 1 °C is shown as 34 °F.",
        "lawn/engine/warmth/soil.py",
        "1 when not said [K; 0.05 to 10]",
        "1 when not said [C; 0.05 to 10]",
        by("tests/engine/test_docstrings.py", "test_a_docstring_states_the_unit_its_names_end_in"),
    ),
    Planted(
        "readings_never_forgotten",
        "A reading of the soil in May still moves it in August.",
        "lawn/engine/warmth/soil.py",
        "keep = math.exp(-1.0 / FORGET_DAYS)",
        "keep = math.exp(-0.01 / FORGET_DAYS)",
        by(_WARMTH, "test_a_reading_is_forgotten_within_four_weeks_or_so"),
    ),
    Planted(
        "sine_of_twice_the_height",
        "Degree days swing by the whole range of a day: weeds are expected too early.",
        "lawn/engine/warmth/degree_days.py",
        "half = (max_c - min_c) / 2.0\n    arc",
        "half = max_c - min_c\n    arc",
        by(_WARMTH, "test_degree_days_of_a_sine_are_its_area_by_numeric_integration"),
    ),
    Planted(
        "more_than_a_third_on_the_way",
        "High grass is cut to its height at once.",
        "lawn/engine/mowing/way_down.py",
        "wanted = max(target, lowest_cut_mm(height_mm=before))",
        "wanted = target",
        by(_MOW, "test_no_cut_on_the_way_down_takes_more_than_a_third"),
    ),
    Planted(
        "a_notch_too_low",
        "The mower is set to a notch below the height wanted.",
        "lawn/engine/mowing/notch.py",
        "if at_least(row[0], wanted_mm):",
        "if at_least(row[0], 0.8 * wanted_mm):",
        by(_MOW, "test_a_notch_never_cuts_lower_than_wanted"),
    ),
    Planted(
        "mown_in_frost",
        "A night of frost is taken as open.",
        "lawn/engine/mowing/tonight.py",
        "if cold is not None and cold <= FROST_C:",
        "if cold is not None and cold < FROST_C - 9.0:",
        by(_MOW, "test_nobody_is_sent_out_in_rain_or_frost"),
    ),
    Planted(
        "half_is_kept_not_two_thirds",
        "The rule of a third lets a cut take more than it may.",
        "lawn/engine/mowing/cut.py",
        "KEPT_THIRDS = 2.0",
        "KEPT_THIRDS = 1.5",
        by(_MOW, "test_no_cut_on_the_way_down_takes_more_than_a_third"),
    ),
    Planted(
        "feeds_forgotten_in_the_forecast",
        "What was fed no longer reaches the growth of a zone.",
        "lawn/engine/mowing/inputs.py",
        "self._mean_c, self._sd_c, water, feeds)",
        "self._mean_c, self._sd_c, water, [])",
        by(_FORECAST, "test_a_feed_speeds_growth_and_is_named_with_what_it_adds"),
    ),
    Planted(
        "window_opens_before_winter",
        "In autumn the earliest day of a spring window is said to be next week.",
        "lawn/engine/warmth/coming.py",
        'earliest = _beyond(coming, turn, "high"',
        'earliest = _beyond(coming, 0, "high"',
        by(_CHART, "test_in_autumn_a_mark_just_above_is_not_said_to_be_passed_before_the_winter"),
    ),
    Planted(
        "air_felt_a_day_too_long",
        "A forecast that the soil no longer feels is still said to be what its warmth rests on.",
        "lawn/engine/warmth/chart.py",
        "day_text(now - whole_days(window) + 1)",
        "day_text(now - whole_days(window))",
        by(_CHART, "test_it_says_from_which_day_on_the_air_is_felt"),
    ),
)
