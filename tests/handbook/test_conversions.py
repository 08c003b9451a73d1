"""Printed conversions and published examples that turn one unit into another, by lawn.units and the engine.

Keys name publications (fixtures/published/sources.json and the page of sources). Half a unit in the last
place printed is allowed. A printed figure that cannot be matched is listed at the end, not dropped.
"""

import pytest
from scipy import constants

from lawn.engine.door import call
from lawn.units import registry
from tests.units.printed import DENSITIES


def turned(amount: float, have: str, want: str) -> float:
    return registry.back(registry.convert(str(amount), have), want)


# amount, unit, printed amount, unit, half of the last place printed, source: both figures stand on its page
PRINTED = [
    (1, "lb_kft2", 5, "g_m2", 0.5, "ORST-TF-FERT"),
    (1, "n_lb_kft2", 5, "n_g_m2", 0.5, "gs_n"),
    (1, "acre", 43560, "ft2", 0.5, "KSU-WOLF"),
    (1 / 128, "acre", 340, "ft2", 0.5, "KSU-WOLF"),
]


@pytest.mark.parametrize(("amount", "have", "printed", "want", "half_a_place", "source"), PRINTED)
def test_a_printed_conversion_is_met(
    amount: float, have: str, printed: float, want: str, half_a_place: float, source: str
) -> None:
    assert abs(turned(amount, have, want) - printed) <= half_a_place, source


# The same by another library's constants (scipy.constants, CODATA and the international foot and pound): a pound is
# SciPy's, never Pint's, from which lawn.units takes its factors. What the amounts are is said beside them.
KFT2 = 1000 * constants.foot**2
OUTSIDE = [
    (1, "lb_kft2", constants.pound / KFT2 * 1000, "g_m2", "a label's rate"),
    (1, "lb_kft2", constants.pound / KFT2 * constants.hectare, "kg_ha", "a label's rate"),
    (1, "lb_kft2", constants.acre / KFT2, "lb_acre", "printed as 43.56 in many places"),
    (1 / 128, "acre", constants.acre / 128 / constants.foot**2, "ft2", "the sprayer's test area"),
    (4700, "kg_ha", 4700 / constants.hectare * KFT2 / constants.pound, "lb_kft2", "a year's clippings, umn_clip"),
    (98, "kg_ha", 98 / constants.hectare * KFT2 / constants.pound, "lb_kft2", "nitrogen that clippings save, umn_clip"),
    (171, "kg_ha", 171 / constants.hectare * KFT2 / constants.pound, "lb_kft2", "enough for zoysiagrass, zoysia_study"),
    (50, "lb_kft2", 50 * constants.pound / KFT2 * 1000, "g_m2", "ORST-TF-LIME, whose figure is a misprint"),
    (3, "mph", 3 * constants.mph, "m_s", "walking speed, UGA-WALTZ"),
    (44, "lb_ft3", 44 * constants.pound / constants.foot**3, "kg_m3", "urea, bulk_sheet"),
]


@pytest.mark.parametrize(("amount", "have", "wanted", "want", "what"), OUTSIDE)
def test_a_conversion_agrees_with_another_librarys_constants(
    amount: float, have: str, wanted: float, want: str, what: str
) -> None:
    assert turned(amount, have, want) == pytest.approx(wanted, rel=1e-12), what


def test_a_walk_of_three_miles_an_hour_is_the_comfortable_speed_of_forty_adults() -> None:
    """Key gait measured 1.34 m/s; UGA-WALTZ tells the walker of a spreader to go about 3 mph."""
    assert turned(3, "mph", "m_s") == pytest.approx(1.34, abs=0.005)


def test_a_gallon_is_128_fluid_ounces() -> None:
    """KSU-WOLF prints 128. Sprayers come later; the registry already knows US liquid measure."""
    gallon = registry.registry.Quantity(1, "gallon")
    assert gallon.to("fluid_ounce").magnitude == 128


# lb/ft3 low and high, kg/m3 low and high: both columns as the sheet prints them (key bulk_sheet).
BULK = {row[0]: row[1:] for row in DENSITIES}


@pytest.mark.parametrize("product", BULK)
def test_the_density_sheet_prints_the_same_in_both_columns(product: str) -> None:
    low, high, low_kg_m3, high_kg_m3 = BULK[product]
    assert turned(low, "lb_ft3", "kg_m3") == pytest.approx(low_kg_m3, abs=0.5)
    assert turned(high, "lb_ft3", "kg_m3") == pytest.approx(high_kg_m3, abs=0.5)


@pytest.mark.parametrize(("oxide", "element", "factor"), [("p2o5", "p", 0.4364), ("k2o", "k", 0.8302)])
def test_oxides_hold_the_printed_share_of_the_element(oxide: str, element: str, factor: float) -> None:
    """0.4364 and 0.8302 from atomic masses P 30.974, K 39.098, O 15.999; UMN-SULIS-F1 prints 0.44 and 0.83."""
    args = {"rate_kg_m2": 0.02, "n_percent": 10, "p2o5_percent": 10, "k2o_percent": 10}
    value = call("label.nutrients", args)["value"]
    share = value[f"{element}_kg_m2"] / value[f"{oxide}_kg_m2"]
    assert share == pytest.approx(factor, abs=0.00005)


# A published bag, its label typed as printed, its nutrients as printed (lb).
BAGS = [
    ("60 lb", "30-4-4", (18.0, 2.4, 2.4), "UMN-SULIS-F1"),
    ("30 lb", "24-2-8", (7.2, 0.6, 2.4), "CCE-SUFFOLK"),
    ("50 lb", "16-2-8", (8.0, 1.0, 4.0), "uf_n"),
    ("50 lb", "46-0-0", (23.0, 0.0, 0.0), "USGA-GSR60"),
]


@pytest.mark.parametrize(("bag", "analysis", "printed", "source"), BAGS)
def test_a_label_as_typed_holds_what_the_handbook_says(
    bag: str, analysis: str, printed: tuple[float, float, float], source: str
) -> None:
    net = registry.parse(bag, "mass")
    read = registry.parse_analysis(analysis)
    for percent, pounds in zip((read.n_percent, read.p2o5_percent, read.k2o_percent), printed, strict=True):
        assert registry.back(net.si * percent / 100, "lb") == pytest.approx(pounds, rel=1e-12), source


def test_a_fifty_pound_bag_over_five_thousand_square_feet_is_ten_pounds_a_thousand() -> None:
    """50 / 5 = 10 lb per 1,000 square feet, at 10 % nitrogen 1 lb of it (rutgers_org: 50 lb of it cover 5,000)."""
    net, coverage = registry.parse("50 lb"), registry.parse("covers 5,000 sq ft")
    rate = call("label.rate", {"net_kg": net.si, "coverage_m2": coverage.si})["value"]["rate_kg_m2"]
    assert registry.back(rate, "lb_kft2") == pytest.approx(10, rel=1e-12)
    nitrogen = call("label.nutrients", {"rate_kg_m2": rate, "n_percent": 10})["value"]["n_kg_m2"]
    assert registry.back(nitrogen, "n_lb_kft2") == pytest.approx(1, rel=1e-12)


# Printed figures that no right conversion meets.
UNMATCHED = [
    (50, "lb_kft2", 2.44, "g_m2", "ORST-TF-LIME prints 50 lb/1000 ft2 as 2.44 g/m2: a misprint for 244"),
]


@pytest.mark.parametrize(("amount", "have", "printed", "want", "why"), UNMATCHED)
def test_a_misprint_stays_listed_as_one(amount: float, have: str, printed: float, want: str, why: str) -> None:
    assert turned(amount, have, want) != pytest.approx(printed, rel=0.01), why
