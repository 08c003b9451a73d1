"""fixtures/units.json is what Pint says, and Pint says what the standards print."""

import json

import pint
import pytest

from lawn.units import registry

FILE = json.loads(registry.UNITS_FILE.read_text(encoding="utf-8"))
FACTOR = {row["key"]: row["factor"] for row in FILE["units"]}

# NIST Special Publication 811 (2008), appendix B.8 and B.9, and NIST Handbook 44, appendix C: factors
# there in bold are exact. Printed to seven figures where they are not.
PRINTED = {
    "lb": 0.45359237,  # exact
    "oz": 2.834952e-02,
    "t": 1.0e03,  # exact
    "ft2": 9.290304e-02,  # exact
    "yd2": 8.361274e-01,
    "acre": 4046.856,  # 43,560 international ft2; SP 811's own row is for the survey foot, 4046.873
    "ha": 1.0e04,  # exact
    "ft": 3.048e-01,  # exact
    "in": 2.54e-02,  # exact
    "yd": 9.144e-01,  # exact
    "height_in": 25.4,  # exact, in mm
    "mph": 4.4704e-01,  # exact
    "ft_s": 3.048e-01,  # exact
    "km_h": 2.777778e-01,
    "lb_ft3": 1.601846e01,
    "kg_l": 1.0e03,  # exact
    "deg_f": 5 / 9,  # B.8, degree Fahrenheit: t/°C = (t/°F - 32)/1.8
}


def test_the_file_is_what_the_registry_writes() -> None:
    assert registry.UNITS_FILE.read_text(encoding="utf-8") == registry.as_file()


@pytest.mark.parametrize("key", PRINTED)
def test_a_factor_equals_the_published_one(key: str) -> None:
    assert FACTOR[key] == pytest.approx(PRINTED[key], rel=3e-7)


@pytest.fixture(scope="module")
def fresh() -> pint.UnitRegistry[float]:
    """Pint's own definitions with plain floats, not the project's registry; acre excepted (survey foot there)."""
    made: pint.UnitRegistry[float] = pint.UnitRegistry()
    made.define("lawn_acre = 43560 * foot ** 2")
    made.define("thousand_square_feet = 1000 * foot ** 2")
    made.define("hundred_square_metres = 100 * metre ** 2")
    return made


@pytest.mark.parametrize("row", FILE["units"], ids=lambda row: row["key"])
def test_a_factor_equals_a_fresh_pint_registry(row: dict[str, str | float], fresh: pint.UnitRegistry[float]) -> None:
    meaning = registry.BY_KEY[str(row["key"])].meaning
    stored = str(FILE["quantities"][row["quantity"]]["si"]).replace("m2", "m**2").replace("m3", "m**3")
    stored = "kelvin" if stored == "C" else stored  # degrees alone; where they are counted from is a test of its own
    assert row["factor"] == pytest.approx(fresh.parse_expression(meaning).to(stored).magnitude, rel=1e-12)


def test_degrees_fahrenheit_are_counted_from_32_below_freezing() -> None:
    fresh: pint.UnitRegistry[float] = pint.UnitRegistry()
    for amount in ("-40", "0", "32", "50", "98.6"):
        outside = fresh.Quantity(float(amount), "degF").to("degC").magnitude
        assert registry.convert(amount, "deg_f") == pytest.approx(outside, abs=1e-9)
        assert registry.back(registry.convert(amount, "deg_f"), "deg_f") == pytest.approx(float(amount), abs=1e-9)
    assert registry.convert("9", "degrees_f") == 5.0  # so many degrees, not a temperature


def test_no_factor_comes_from_the_survey_foot() -> None:
    survey_acre = 43560 * (1200 / 3937) ** 2
    assert abs(FACTOR["acre"] / survey_acre - 1) > 3e-6
    assert FACTOR["acre"] == pytest.approx(43560 * 0.3048**2, rel=1e-14)


def test_keys_are_unique_and_each_quantity_has_both_systems() -> None:
    assert len(FACTOR) == len(FILE["units"])
    offered = {(row["quantity"], row["system"]) for row in FILE["units"]}
    assert offered == {(q, s) for q in FILE["quantities"] for s in ("us", "metric")}


def test_no_word_means_two_units_of_one_quantity() -> None:
    said = [(row["quantity"], word) for row in FILE["units"] for word in row["words"]]
    assert len(said) == len(set(said))
