"""Examples that no single call prints: their figures follow from one or a few calls, each beside its source."""

import math
from typing import Any

import pytest
from scipy import constants

from lawn.engine.door import call

FEET2 = constants.foot**2
LB_KFT2 = constants.pound / (1000 * FEET2)
INCH_MM = 25.4
TWO_INCHES = 2 * constants.inch


def value(name: str, **args: Any) -> dict[str, Any]:
    answer = call(name, args)
    assert "value" in answer, answer
    found: dict[str, Any] = answer["value"]
    return found


def rate_for(n_lb_kft2: float, n_percent: float) -> float:
    """Product in lb per 1,000 square feet that brings so much nitrogen."""
    found = value("label.rate_for_nitrogen", n_kg_m2=n_lb_kft2 * LB_KFT2, n_percent=n_percent)
    return float(found["rate_kg_m2"] / LB_KFT2)


def needed(area_ft2: float, rate_lb_kft2: float, bag_lb: float) -> dict[str, Any]:
    sizes = {"area_m2": area_ft2 * FEET2, "net_kg": bag_lb * constants.pound}
    return value("label.needed", rate_kg_m2=rate_lb_kft2 * LB_KFT2, **sizes)


def test_thirty_pounds_of_24_2_8_feed_seven_thousand_square_feet() -> None:
    """CCE-SUFFOLK, label-bag-coverage-24-2-8: 7.2 lb of nitrogen at 1 lb per 1,000, printed down to the thousand."""
    rate = rate_for(1, 24)
    assert needed(7000, rate, 30)["bags"] == 1
    assert needed(8000, rate, 30)["bags"] == 2


@pytest.mark.parametrize(("slow", "total", "source"), [(15, 30, "SUFFOLK-CO"), (5, 10, "TBEP")])
def test_half_of_the_nitrogen_is_slow_where_the_label_says_so(slow: float, total: float, source: str) -> None:
    """Printed: 15 of 30 % and 5 of 10 % are 50 % of the nitrogen; a pound of product then holds 0.15 and 0.05 lb."""
    found = value("label.nutrients", rate_kg_m2=1, n_percent=total, slow_n_share=0.5)
    assert found["slow_n_kg_m2"] == pytest.approx(slow / 100), source


def test_a_spreader_calibrated_five_per_cent_low_puts_down_4_75_for_5() -> None:
    """UMASS-SPREAD: for 5 lb per 1,000, within 4.75 and 5.25 counts as calibrated; the label refuses the upper end."""
    bag = {"area_m2": 1000 * FEET2, "coverage_m2": 1000 * FEET2, "net_kg": 5 * constants.pound}
    low = value("label.aim", aim={"kind": "bag", "bags": 0.95}, **bag)
    assert low["target_kg_m2"] / LB_KFT2 == pytest.approx(4.75)
    assert low["label_share"] == pytest.approx(0.95)
    high = call("label.aim", {"aim": {"kind": "bag", "bags": 1.05}, **bag})["error"]
    assert (high["code"], high["high"]) == ("over_label", pytest.approx(1))


def test_nine_tenths_of_a_pound_of_nitrogen_go_down_as_two_passes_of_0_45() -> None:
    """RUTGERS-SPREAD, spreader-nj-two-pass: 0.9 lb of nitrogen per 1,000 in two passes is 0.45 lb in each."""
    target = value("label.rate_for_nitrogen", n_kg_m2=0.9 * LB_KFT2, n_percent=20)["rate_kg_m2"]
    dial = {"lowest": 0, "highest": 24, "step": 1}
    asked = {"dial": dial, "product": {"id": "any"}, "area_m2": 100, "history": [], "passes": 2}
    each = value("spreading.start", target_kg_m2=target, **asked)["aim_kg_m2"]
    n_each = value("label.nutrients", rate_kg_m2=each, n_percent=20)["n_kg_m2"]
    assert n_each / LB_KFT2 == pytest.approx(0.45)


def test_six_thousand_square_feet_take_two_bags_for_21_43_pounds() -> None:
    """bags-round-up (computed): 28 %, 1 lb per 1,000; UNL-BYF prints 21.42 from a rounded rate."""
    found = needed(6000, rate_for(1, 28), 20)
    assert found["mass_kg"] / constants.pound == pytest.approx(21.4286, abs=0.00005)
    assert found["bags"] == 2


# nitrogen in lb per 1,000 square feet, label in percent, product: der-product-rate, n-product-20pct, -6pct (computed)
PRODUCTS = [
    (1, 46, 2.174),
    (1, 29, 3.448),
    (0.75, 24, 3.125),
    (0.5, 16, 3.125),
    (1, 10, 10.0),
    (1, 20, 5),
    (1, 6, 16.667),
]


@pytest.mark.parametrize(("nitrogen", "label", "product"), PRODUCTS)
def test_product_is_nitrogen_over_the_labels_share(nitrogen: float, label: float, product: float) -> None:
    assert rate_for(nitrogen, label) == pytest.approx(product, abs=0.0005)


def test_the_two_labels_of_the_exercise_differ_five_times() -> None:
    """label-n-rate-5pct-vs-25pct: 20 lb of a 5 % product against 4 lb of a 25 % one."""
    assert rate_for(1, 5) / rate_for(1, 25) == pytest.approx(5)


# height wanted and the tallest grass that may be cut to it, inches: der-third-grid, by the third (cornell_13a)
THIRDS = [
    (1, 1.5),
    (1.25, 1.875),
    (1.5, 2.25),
    (1.75, 2.625),
    (2, 3.0),
    (2.25, 3.375),
    (2.5, 3.75),
    (2.75, 4.125),
    (3, 4.5),
    (3.25, 4.875),
    (3.5, 5.25),
    (3.75, 5.625),
    (4, 6.0),
]


@pytest.mark.parametrize(("target", "tallest"), THIRDS)
def test_grass_half_as_tall_again_may_just_be_cut_to_the_height_wanted(target: float, tallest: float) -> None:
    found = value("mowing.cut", height_mm=tallest * INCH_MM, target_mm=target * INCH_MM)
    assert found["allowed"]
    assert found["mow_at_mm"] == pytest.approx(tallest * INCH_MM)
    assert not value("mowing.cut", height_mm=tallest * INCH_MM * 1.01, target_mm=target * INCH_MM)["allowed"]


def test_the_taller_lawn_may_grow_twice_as_much_between_cuts() -> None:
    """cornell_13b, mow-growth-allowed-cornell: 0.75 in for a lawn of 1.5 in, 1.5 in for one of 3 in."""
    for target, grown in ((1.5, 0.75), (3, 1.5)):
        due = value("mowing.cut", height_mm=target * INCH_MM, target_mm=target * INCH_MM)["mow_at_mm"]
        assert due / INCH_MM - target == pytest.approx(grown)


# start, target, heights after each cut, inches: der-step-down, the rule of uc_ipm_mowamt carried out (computed)
LADDERS = [
    (4.5, 3, [3.0]),
    (5, 2.5, [3.3333, 2.5]),
    (6, 3, [4.0, 3]),
    (8, 3, [5.3333, 3.5556, 3]),
    (9, 3, [6.0, 4.0, 3]),
    (10, 3, [6.6667, 4.4444, 3]),
    (6, 2, [4.0, 2.6667, 2]),
    (4, 2, [2.6667, 2]),
]


@pytest.mark.parametrize(("start", "target", "heights"), LADDERS)
def test_an_overgrown_lawn_comes_down_by_thirds(start: float, target: float, heights: list[float]) -> None:
    height, cuts = start * INCH_MM, []
    while height > target * INCH_MM * (1 + 1e-9):
        height = value("mowing.cut", height_mm=height, target_mm=target * INCH_MM)["cut_to_mm"]
        cuts.append(height / INCH_MM)
    assert cuts == pytest.approx(heights, abs=0.00005)


@pytest.mark.parametrize(
    ("name", "args", "number", "wanted"),
    [
        ("area.offsets", {"spacing_m": 3, "offsets_m": [0, 15, 10, 15, 25, 20, 0]}, "sum_m", 85),
        ("area.offsets", {"spacing_m": 3, "offsets_m": [32, 50, 45, 17], "method": "sum"}, "sum_m", 144),
        ("area.radii", {"radii_m": [12.0, 12.5] * 8}, "mean_m", 12.25),
    ],
)
def test_sums_and_means_that_handbooks_print_stand_in_the_working(
    name: str, args: dict[str, Any], number: str, wanted: float
) -> None:
    """SANTAANA-49 and GM-AREAS add 85 and 144 ft of offsets; SANTAANA-49's sixteen radii have a mean of 12.25 ft."""
    step = call(name, args)["working"][0]
    assert step["numbers"][number] == pytest.approx(wanted)


def test_a_drop_spreader_steered_by_its_wheel_tracks_leaves_a_gap() -> None:
    """AZ-KOPEC-499: hopper edge to hopper edge; wheel track over wheel track leaves 4 to 5 in bare.

    Trays of an inch under a hopper of 30 in, and past it: what falls is even there and nothing beside it. The engine is
    told twice the size, since it takes no tray under 5 cm.
    """
    catches = [0] * 20 + [10] * 30 + [0] * 20
    found = value("swath.tray_test", catches_g=catches, tray_spacing_m=TWO_INCHES, pattern="back_and_forth")
    rows = {round(row["spacing_m"] / TWO_INCHES): row for row in found["by_spacing"]}
    assert rows[30]["cv_share"] == pytest.approx(0, abs=1e-9)
    for gap in (4, 5):
        bare = gap / (30 + gap)
        assert rows[30 + gap]["cv_share"] == pytest.approx(math.sqrt(bare / (1 - bare)))
        assert rows[30 + gap]["mean_g"] == pytest.approx(10 * (1 - bare))
    assert found["widest_m"] <= 30 * TWO_INCHES * (1 + 1e-9)
