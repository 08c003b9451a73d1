"""Rules of thumb of the trade, common practice every one: no source prints them, people go by them.

What the present calls and screens can express is checked; what waits says for what. `RULES` holds every rule with its
check value, so that none gets lost.
"""

import json
from itertools import pairwise
from pathlib import Path
from typing import Any, NamedTuple

import pytest
from scipy import constants

from lawn.engine.door import call

ROOT = Path(__file__).resolve().parents[2]
FEET2 = constants.foot**2
LB_KFT2 = constants.pound / (1000 * FEET2)
BAG = {"net_kg": 30 * constants.pound, "coverage_m2": 2500 * FEET2}
DIAL = {"lowest": 0, "highest": 30, "step": 1}


class Rule(NamedTuple):
    """A rule of thumb: its check value, the tests that hold it, and what the rest of it waits for."""

    value: str
    tests: tuple[str, ...]
    waits: str = ""


RULES = {
    "rate of a label": Rule(
        "30 lb for 2,500 ft²: 12 lb per 1,000 ft²",
        ("test_thirty_pounds_for_2500_square_feet_are_twelve_a_thousand",),
    ),
    "nitrogen of that label at 6-4-0": Rule(
        "0.72 lb N per 1,000 ft²", ("test_twelve_pounds_of_6_4_0_hold_three_quarters_of_a_pound_of_nitrogen",)
    ),
    "a bag and a piece of ground": Rule(
        "a bag for 2,500 ft² suits a zone measured at 2,480 ft² (0.8 % off); 0.24 lb stays in the bag, "
        "and the app says so",
        (
            "test_a_bag_for_2500_square_feet_is_offered_for_2480_and_says_what_stays_in_it",
            "test_by_the_letter_of_the_label_a_quarter_of_a_pound_stays_in_the_bag",
        ),
        "label.match stands on no screen yet: the aim by the label says the product and bags of the ground",
    ),
    "natural against mineral": Rule(
        "a natural bag for 2,500 ft² is heavier than a mineral one for 5,000 ft²: more product for the same nitrogen, "
        "and it does not burn",
        (
            "test_a_natural_product_takes_more_for_the_same_nitrogen",
            "test_a_natural_product_does_not_burn_where_a_mineral_one_of_the_same_nitrogen_can",
        ),
    ),
    "first opening of a spreader nobody knows": Rule(
        "a third of its travel: 10 on a dial of 30; a first suggestion lies between a quarter and a half of the "
        "travel, with its chance of running out said",
        (
            "test_the_first_opening_lies_between_a_quarter_and_a_half_of_the_travel",
            "test_light_rates_begin_below_a_quarter_and_never_above_a_half",
        ),
    ),
    "filling": Rule(
        "as much as is easy to push, about three quarters; the rest of the bag after the first pass",
        ("test_three_quarters_by_level_is_more_than_three_quarters_of_the_room_left_empty",),
        "that the screen advises it: spread.pour",
    ),
    "path": Rule(
        "once along the edge, then strip by strip, each thrown back to the wheel marks of the one before",
        (
            "test_the_walk_goes_once_along_the_edge_and_then_strip_by_strip",
            "test_a_throw_that_reaches_the_last_wheel_marks_is_the_effective_swath",
        ),
    ),
    "good enough": Rule(
        "two handfuls over after the second pass; they are walked out over the same ground",
        ("test_two_handfuls_left_are_a_hundredth_of_the_bag",),
        "that they are walked out without another dial: spread.finish",
    ),
    "settings": Rule(
        "a number on a dial is not transferable: walker, pace, product and damp differ; the weight left over is the "
        "measure, and the next job begins from it",
        (
            "test_what_one_product_taught_says_less_of_another",
            "test_the_next_job_begins_from_what_the_last_one_weighed",
        ),
    ),
    "mowing": Rule(
        "twice a week, one weeknight and one weekend day; at that rhythm a cut does not take a third of the blade in "
        "normal growth; more than a third at once is never taken",
        (
            "test_grass_is_due_twice_a_week_where_nothing_else_is_said",
            "test_at_that_rhythm_a_cut_takes_less_than_a_third_in_normal_growth",
            "test_more_than_a_third_at_once_is_never_advised",
        ),
    ),
    "weeds": Rule(
        "regular cutting alone thickens grass against weeds; a ready-to-use bottle is the least step, for spots only; "
        "one weed in twenty gone counts as a start",
        (),
        "weeds and spraying: no call and no screen counts weeds or speaks of a bottle",
    ),
    "green-up of a natural feed": Rule(
        "7 to 12 days once the soil is above 55 °F (12.8 °C), sooner the warmer; below that, wait; the range shown "
        "contains 7 to 12 days at 64 °F and reaches later at 55 °F",
        ("test_a_natural_feed_greens_in_7_to_12_days_at_64_f_later_at_55_and_waits_below",),
        "that Today asks to look again then",
    ),
    "the best patch": Rule(
        "one spot of every yard is good already; the rest is measured against it",
        ("test_a_zone_can_be_the_best_patch_of_the_yard",),
        "that the rest is measured against it: photo_colour.read",
    ),
}


def value(name: str, **args: Any) -> dict[str, Any]:
    answer = call(name, args)
    assert "value" in answer, answer
    found: dict[str, Any] = answer["value"]
    return found


def test_no_rule_is_dropped_and_each_is_checked_or_waits() -> None:
    """Common practice: the page of rules has thirteen rows."""
    assert len(RULES) == 13
    for name, rule in RULES.items():
        assert rule.value, name
        assert rule.tests or rule.waits, name
        for test in rule.tests:
            assert (globals()[test].__doc__ or "").startswith("Common practice"), test


def test_no_test_stands_here_without_its_rule() -> None:
    """Common practice: every test but the two of the list belongs to a rule."""
    named = {test for rule in RULES.values() for test in rule.tests}
    here = {name for name in globals() if name.startswith("test_")}
    assert {name for name in here if "_rule" not in name} == named


def test_thirty_pounds_for_2500_square_feet_are_twelve_a_thousand() -> None:
    """Common practice."""
    assert value("label.rate", **BAG)["rate_kg_m2"] / LB_KFT2 == pytest.approx(12)


def test_twelve_pounds_of_6_4_0_hold_three_quarters_of_a_pound_of_nitrogen() -> None:
    """Common practice: 0.72 lb per 1,000 square feet."""
    found = value("label.nutrients", rate_kg_m2=12 * LB_KFT2, n_percent=6, p2o5_percent=4, k2o_percent=0)
    assert found["n_kg_m2"] / LB_KFT2 == pytest.approx(0.72)


def test_a_bag_for_2500_square_feet_is_offered_for_2480_and_says_what_stays_in_it() -> None:
    """Common practice: 0.8 % off is a match, at the label's rate and no more."""
    (found,) = value("label.match", zones=[{"id": "lawn", "area_m2": 2480 * FEET2}], **BAG)["choices"]
    assert (found["ids"], found["rate_share"]) == (["lawn"], 1)
    assert found["left_share"] == pytest.approx(0.008)
    assert found["left_kg"] / constants.pound == pytest.approx(0.24)


def test_by_the_letter_of_the_label_a_quarter_of_a_pound_stays_in_the_bag() -> None:
    """Common practice: 29.76 of 30 lb are put down."""
    aim = value("label.aim", aim={"kind": "label"}, area_m2=2480 * FEET2, **BAG)
    assert aim["mass_kg"] / constants.pound == pytest.approx(29.76)
    needed = value("label.needed", area_m2=2480 * FEET2, rate_kg_m2=aim["target_kg_m2"], net_kg=BAG["net_kg"])
    assert (needed["bags"], needed["left_over_kg"] / constants.pound) == (1, pytest.approx(0.24))


def test_a_natural_product_takes_more_for_the_same_nitrogen() -> None:
    """Common practice: three times the product of 18 % at 6 %, a heavier bag for half the ground."""
    natural, mineral = (
        value("label.rate_for_nitrogen", n_kg_m2=0.72 * LB_KFT2, n_percent=percent)["rate_kg_m2"] for percent in (6, 18)
    )
    assert natural == pytest.approx(3 * mineral)
    assert natural * 2500 > mineral * 5000


@pytest.mark.parametrize("lb_kft2", [5, 8, 12])
def test_the_first_opening_lies_between_a_quarter_and_a_half_of_the_travel(lb_kft2: float) -> None:
    """Common practice: a third, 10 on a dial of 30; its chance of running out stands beside it."""
    found = value(
        "spreading.start",
        dial=DIAL,
        product={"id": "any"},
        target_kg_m2=lb_kft2 * LB_KFT2,
        area_m2=2480 * FEET2,
        history=[],
    )
    assert 30 / 4 <= found["dial"] <= 30 / 2
    assert 0 < found["chance_of_running_out"] <= 0.05


@pytest.mark.parametrize("lb_kft2", [2, 3, 4])
def test_light_rates_begin_below_a_quarter_and_never_above_a_half(lb_kft2: float) -> None:
    """Common practice not met to the letter: it says a quarter at least; here too little is better than too much."""
    asked = {"product": {"id": "any"}, "target_kg_m2": lb_kft2 * LB_KFT2, "area_m2": 230, "history": []}
    assert 0 < value("spreading.start", dial=DIAL, **asked)["dial"] < 30 / 4


def test_three_quarters_by_level_is_more_than_three_quarters_of_the_room_left_empty() -> None:
    """Common practice: three quarters of a load is the level to fill to; a hopper is narrower below."""
    hopper = {"top_length_m": 0.4, "top_width_m": 0.3, "bottom_length_m": 0.1, "bottom_width_m": 0.08, "height_m": 0.25}
    full = value("hopper.mass", level_share=1, bulk_density_kg_m3=780, **hopper)["mass_kg"]
    level = value("hopper.level", mass_kg=0.75 * full, bulk_density_kg_m3=780, **hopper)["level_share"]
    assert 0.75 < level < 1


def test_the_walk_goes_once_along_the_edge_and_then_strip_by_strip() -> None:
    """Common practice."""
    found = value("swath.walk_plan", outline_m=[[0, 0], [20, 0], [20, 12], [0, 12]], swath_m=1.5)
    assert len(found["headers"]) == 1
    across = sorted({round(strip["y1"], 6) for strip in found["strips"]})
    assert len(across) > 3
    assert max(b - a for a, b in pairwise(across)) == pytest.approx(1.5)


def test_a_throw_that_reaches_the_last_wheel_marks_is_the_effective_swath() -> None:
    """Common practice: tracks half a throw apart; an even, peaked throw then lies without any unevenness."""
    throw = [*range(0, 13), *range(11, -1, -1)]  # 24 trays' distance from edge to edge
    found = value("swath.tray_test", catches_g=throw, tray_spacing_m=0.125, pattern="back_and_forth")
    assert found["half_catch_m"] == pytest.approx(12 * 0.125)
    assert found["widest_m"] == pytest.approx(12 * 0.125)
    assert found["cv_at_widest"] == pytest.approx(0, abs=1e-9)


def test_two_handfuls_left_are_a_hundredth_of_the_bag() -> None:
    """Common practice: about 1 % of 30 lb, counted by handfuls and not by a scale."""
    left = value("spreading.used", start_kg=30 * constants.pound, handfuls=2, handful_kg=0.07, measured="handfuls")
    assert 0.005 < left["left_kg"] / (30 * constants.pound) < 0.02


def taught(product: str) -> list[dict[str, Any]]:
    """Three weighed passes of a product, 1 kg over 100 m2 at 10."""
    return [
        {"product": product, "dial": dial, "area_m2": 100, "used_kg": used, "measured": "scale"}
        for dial, used in ((8, 0.6), (10, 1.0), (12, 1.5))
    ]


def test_what_one_product_taught_says_less_of_another() -> None:
    """Common practice: a number on a dial is not transferable."""
    own, other = (
        value("spreading.curve", dial=DIAL, product={"id": product}, history=taught("p"))["points"][9]["rate_kg_m2"]
        for product in ("p", "q")
    )
    assert other["high"] / other["low"] > 1.2 * own["high"] / own["low"]


def test_the_next_job_begins_from_what_the_last_one_weighed() -> None:
    """Common practice: the weight left over is the measure."""
    asked = {"dial": DIAL, "product": {"id": "p"}, "target_kg_m2": 0.02, "area_m2": 100}
    new = value("spreading.start", history=[], **asked)
    known = value("spreading.start", history=taught("p"), **asked)
    assert (new["basis"], known["basis"]) == ("nothing_known", "same_product")
    assert abs(known["dial"] - 10) <= 1


def test_grass_is_due_twice_a_week_where_nothing_else_is_said() -> None:
    """Common practice: a cut every 3.5 days, so a weeknight and a weekend day both come due."""
    states = {
        day: value("record.due", zones=[{"id": "z", "last_mow": "2026-05-02"}], today=f"2026-05-{day:02d}")["zones"][
            "z"
        ]
        for day in (4, 5, 6, 7)
    }
    assert [states[day]["state"] for day in (4, 5, 6, 7)][1:3] == ["due", "due"]
    assert states[4]["state"] not in ("due", "overdue")
    assert states[7]["state"] == "overdue"


@pytest.mark.parametrize("target_in", [2.5, 3.0, 3.5])
def test_at_that_rhythm_a_cut_takes_less_than_a_third_in_normal_growth(target_in: float) -> None:
    """Common practice; normal growth is Nebraska's 1.5 in a week (unl_growth), so 0.75 in from cut to cut."""
    found = value("mowing.cut", height_mm=(target_in + 0.75) * 25.4, target_mm=target_in * 25.4)
    assert found["allowed"]
    assert found["removed_share"] < 1 / 3


def test_more_than_a_third_at_once_is_never_advised() -> None:
    """Common practice."""
    for height_mm in (60, 90, 91, 150, 400):
        found = value("mowing.cut", height_mm=height_mm, target_mm=60)
        assert found["removed_share"] <= 1 / 3 + 1e-9


def test_a_zone_can_be_the_best_patch_of_the_yard() -> None:
    """Common practice."""
    zone = json.loads((ROOT / "fixtures" / "kinds" / "zone.json").read_text(encoding="utf-8"))
    assert zone["groups"]["show"]["show_patch"]["type"] == "flag"


def _green_up(fahrenheit: float) -> dict[str, Any]:
    soil_c = float(constants.convert_temperature(fahrenheit, "Fahrenheit", "Celsius"))
    days = [{"date": f"2026-{month:02d}-{day:02d}", "soil_c": soil_c} for month in (4, 6) for day in range(1, 31)]
    days[30:30] = [{"date": f"2026-05-{day:02d}", "soil_c": soil_c} for day in range(1, 32)]
    return value("feeding.green_up", source="natural", slow_n_share=0.9, applied="2026-04-01", days=days)


def test_a_natural_feed_greens_in_7_to_12_days_at_64_f_later_at_55_and_waits_below() -> None:
    """Common practice: and published release is slow until the 60s °F, so the range is wide at 55 °F."""
    at_64, at_55, at_75 = _green_up(64.1), _green_up(55.05), _green_up(75)
    assert at_64["least_days"] <= 7
    assert at_64["most_days"] >= 12
    assert at_55["most_days"] > at_64["most_days"]
    assert at_75["most_days"] < at_64["most_days"]
    assert _green_up(54)["why"] == "waits"


def test_a_natural_product_does_not_burn_where_a_mineral_one_of_the_same_nitrogen_can() -> None:
    """Common practice: a natural product does not burn."""
    rules = [{"kind": "quick_once", "most_kg_m2": 0.5 * LB_KFT2}]
    jobs = [{"zone": "z", "n_kg_m2": 0.72 * LB_KFT2, "source": source} for source in ("natural", "soluble")]
    asked = {"zones": [{"id": "z"}], "rules": rules, "today": "2026-05-01"}
    natural, mineral = (value("feeding.burn", job=job, **asked) for job in jobs)
    assert (natural["can_burn"], mineral["can_burn"]) == ("no", "yes")
