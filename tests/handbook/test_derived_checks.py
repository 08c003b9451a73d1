"""Which of the reference's worked-out checks are used, and what the others wait for: none may get lost."""

from pathlib import Path

HERE = Path(__file__).parent
STEPS, CONVERSIONS, TRAYS = "test_examples_in_steps.py", "test_conversions.py", "test_tray_tests.py"

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
} | {
    f"cv-{shape}-{feet}ft-{way}": (TRAYS, f'({shape.upper()}, {feet}, "{pattern}"')
    for shape, widths in (("triangle", (9, 12, 15)), ("flat", (9, 12, 15)), ("skewed", (9, 12)))
    for feet in widths
    for way, pattern in (("racetrack", "circuit"), ("back-and-forth", "back_and_forth"))
}

WAITS = {
    "mowing.next": ["der-mow-interval"],
    "feeding.growth_potential and feeding.month_needs": [
        "der-gp-fahrenheit",
        "der-gp-celsius",
        "der-gp-c-versus-f",
        "der-monthly-n-seattle-2014",
        "gp-c4-plateau",
    ],
    "feeding.release": ["n-late-uptake-madison"],
    "warmth.degree_days": [
        "der-gdd-methods",
        "der-gdd-seattle-2012",
        "der-gdd-seattle-2013",
        "der-gdd-seattle-2014",
        "der-gdd-seattle-2015",
        "der-gdd0-seattle",
        "weed-fidanza-base",
    ],
    "warmth.soil": [
        "der-soil-weighted-mean-step",
        "der-soil-weighted-mean-seattle-2012",
        "der-soil-trigger-seattle-2012",
        "der-soil-swat-one-day",
        "der-soil-first-order",
        "der-soil-sine-damping",
    ],
    "weeds.seeding_wait": ["weed-seeding-interval-broadcast"],
    "watering": [
        "der-hargreaves-seattle-2014",
        "der-monthly-rain-seattle-2014",
        "der-fallon-year",
        "der-weekly-turf-water",
        "der-uc-kc-means",
        "der-available-water-6in",
        "der-p-adjust",
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
