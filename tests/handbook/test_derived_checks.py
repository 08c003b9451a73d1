"""Which of the reference's worked-out checks are used, and what the others wait for: none may get lost."""

from pathlib import Path

HERE = Path(__file__).parent
STEPS, CONVERSIONS, TRAYS = "test_examples_in_steps.py", "test_conversions.py", "test_tray_tests.py"
WEATHER = "test_weather_derived.py"

USED = {
    "der-third-grid": (STEPS, "THIRDS"),
    "der-step-down": (STEPS, "LADDERS"),
    "der-product-rate": (STEPS, "PRODUCTS"),
    "n-product-20pct": (STEPS, "(1, 20, 5)"),
    "n-product-6pct": (STEPS, "(1, 6, 16.667)"),
    "bags-round-up": (STEPS, "21.4286"),
    "der-clippings-units": (CONVERSIONS, "4700"),
    "der-units-nitrogen": (CONVERSIONS, "lb_acre"),
    "n-kbg-range-units": (CONVERSIONS, "98 / constants.hectare"),
    "p2o5-to-p": (CONVERSIONS, "0.4364"),
    "k2o-to-k": (CONVERSIONS, "0.8302"),
    "der-mow-interval": (WEATHER, "INTERVALS"),
    "der-gp-fahrenheit": (WEATHER, "GP_F_COOL"),
    "der-gp-celsius": (WEATHER, "GP_C_COOL"),
    "der-gp-c-versus-f": (WEATHER, "TWO_SETS"),
    "gp-c4-plateau": (WEATHER, "[31, 34, 38]"),
    "der-monthly-n-seattle-2014": (WEATHER, "SEATTLE_2014_N"),
    "der-gdd-methods": (WEATHER, "SIX_BY"),
    "der-gdd-seattle-2012": (WEATHER, "2012: ("),
    "der-gdd-seattle-2013": (WEATHER, "2013: ("),
    "der-gdd-seattle-2014": (WEATHER, "2014: ("),
    "der-gdd-seattle-2015": (WEATHER, "2015: ("),
    "der-gdd0-seattle": (WEATHER, "SEATTLE_BASE_0"),
    "der-soil-weighted-mean-step": (WEATHER, "STEP_MEANS"),
    "der-soil-weighted-mean-seattle-2012": (WEATHER, "SEATTLE_SOIL"),
    "der-soil-trigger-seattle-2012": (WEATHER, "TRIGGERS"),
    "der-soil-sine-damping": (WEATHER, "2.2403"),
    "der-hargreaves-seattle-2014": (WEATHER, "SEATTLE_ET"),
    "der-monthly-rain-seattle-2014": (WEATHER, "SEATTLE_RAIN"),
    "der-weekly-turf-water": (WEATHER, "WEEK_ET"),
    "der-available-water-6in": (WEATHER, "HOLDS_LOW_HIGH"),
    "der-p-adjust": (WEATHER, "(3, 0.48, 0.58)"),
    "der-fallon-year": ("test_weather_examples.py", "FALLON_GAP_MM"),
} | {
    f"cv-{shape}-{feet}ft-{way}": (TRAYS, f'({shape.upper()}, {feet}, "{pattern}"')
    for shape, widths in (("triangle", (9, 12, 15)), ("flat", (9, 12, 15)), ("skewed", (9, 12)))
    for feet in widths
    for way, pattern in (("racetrack", "circuit"), ("back-and-forth", "back_and_forth"))
}

WAITS = {
    "feeding.release": ["n-late-uptake-madison"],
    "a soil model of ours by another rule: warmth.soil takes the weighted mean": [
        "der-soil-swat-one-day",
        "der-soil-first-order",
    ],
    "weeds.pre_emergent_window": ["weed-fidanza-base"],
    "weeds.seeding_wait": ["weed-seeding-interval-broadcast"],
    "watering": [
        "der-uc-kc-means",
        "der-run-time",
        "der-run-time-multiplier",
        "der-cycle-soak",
        "der-can-depth",
        "der-uc-zone2-depth",
        "der-units-water",
        "rate-15-minute-times-4",
        "uc-zone2-summer-split",
    ],
    "spraying": ["tank-partial-last", "constant-5940", "constant-495"],
}
IN_THE_REFERENCE = 44 + 22  # of growing and of applications


def test_every_derived_check_is_used_or_says_what_it_waits_for() -> None:
    waiting = [name for names in WAITS.values() for name in names]
    assert not USED.keys() & set(waiting)
    assert len(USED) + len(set(waiting)) == IN_THE_REFERENCE


def test_a_used_check_stands_where_it_is_said_to() -> None:
    for name, (file, mark) in USED.items():
        assert mark in (HERE / file).read_text(encoding="utf-8"), name
