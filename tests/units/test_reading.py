"""Labels and imports as people write them become SI, or an error that says what is allowed."""

import json
from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lawn.units import registry
from lawn.units.numbers_as_written import WrittenError, read_number

VECTORS = json.loads(registry.UNITS_FILE.with_name("units_vectors.json").read_text(encoding="utf-8"))


@pytest.mark.parametrize("row", VECTORS["numbers"], ids=lambda row: repr(row["text"]))
def test_a_written_number_is_read(row: dict[str, Any]) -> None:
    assert float(read_number(row["text"], comma=row.get("comma", False))) == row["value"]


@pytest.mark.parametrize("row", VECTORS["not_numbers"], ids=lambda row: repr(row["text"]))
def test_what_is_no_number_is_refused_with_what_is_allowed(row: dict[str, Any]) -> None:
    with pytest.raises(WrittenError) as bad:
        read_number(row["text"], comma=row.get("comma", False))
    assert bad.value.code == row["code"]
    assert "Enter" in bad.value.message


@pytest.mark.parametrize("row", VECTORS["amounts"], ids=lambda row: f"{row['amount']} {row['unit']}")
def test_an_amount_in_a_unit_becomes_si(row: dict[str, Any]) -> None:
    assert registry.convert(row["amount"], row["unit"]) == pytest.approx(row["si"], rel=1e-14)


@pytest.mark.parametrize("row", VECTORS["texts"], ids=lambda row: row["text"])
def test_a_text_with_its_unit_is_read_and_kept_as_typed(row: dict[str, Any]) -> None:
    read = registry.parse(row["text"], row["quantity"])
    assert read.si == pytest.approx(row["si"], rel=1e-14)
    assert read.typed == row["typed"]


@pytest.mark.parametrize("row", VECTORS["not_texts"], ids=lambda row: row["text"])
def test_a_text_of_another_quantity_or_unit_is_refused(row: dict[str, Any]) -> None:
    with pytest.raises(registry.UnitsError) as bad:
        registry.parse(row["text"], row["quantity"])
    assert "Enter" in bad.value.message


# Exact definitions again (NIST SP 811): 1 lb/1000 ft2 = 0.45359237 / 92.90304 kg/m2.
LB_KFT2 = 0.45359237 / 92.90304
READ_WITHOUT_BEING_TOLD = [
    ("covers 4,800 sq ft", "area", 445.934592),
    ("Coverage: up to 4,800 square feet", "area", 445.934592),
    ("NET WT 48 LB (21.7 kg)", "mass", 21.77243376),
    ("48-lb bag", "mass", 21.77243376),
    ("½ acre", "area", 2023.4282112),
    ("3 lb/1000 ft²", "rate", 3 * LB_KFT2),
    ("3 lb per 1,000 sq ft", "rate", 3 * LB_KFT2),
    ("Apply at 3 lb per 1,000 sq. ft.", "rate", 3 * LB_KFT2),
    ("2 lb 8 oz per 500 ft2", "rate", 5 * LB_KFT2),
    ("43.56 lb/acre", "rate", LB_KFT2),
    ("1.5 kg/100 m2", "rate", 0.015),
    ("30 g per m²", "rate", 0.03),
    ("0.9 lb N per 1,000 sq ft", "nitrogen", 0.9 * LB_KFT2),
    ("1 lb of nitrogen per 1,000 sq ft", "nitrogen", LB_KFT2),
    ("48 lb/ft³", "density", 48 * 0.45359237 / 0.3048**3),
    ("3 km/h", "speed", 3000 / 3600),
]


@pytest.mark.parametrize(("text", "quantity", "si"), READ_WITHOUT_BEING_TOLD)
def test_the_quantity_is_taken_from_the_unit(text: str, quantity: str, si: float) -> None:
    read = registry.parse(text)
    assert (read.quantity, read.text) == (quantity, text)
    assert read.si == pytest.approx(si, rel=1e-12)


def test_two_figures_that_disagree_are_not_chosen_between() -> None:
    with pytest.raises(registry.UnitsError, match=r"differ by more than 2 %"):
        registry.parse("48 lb (20 kg)")


def test_a_rate_over_no_area_is_refused() -> None:
    with pytest.raises(registry.UnitsError, match="more than 0"):
        registry.parse("3 lb / 0 ft2")


def test_nitrogen_is_not_taken_for_product() -> None:
    with pytest.raises(registry.UnitsError):
        registry.parse("1 lb N per 1,000 sq ft", "rate")


@pytest.mark.parametrize("text", ["23-0-9", "23 - 0 - 9", "23–0–9", "Analysis: 23-0-9", "n-p-k 23-0-9"])
def test_an_analysis_is_read(text: str) -> None:
    assert registry.parse_analysis(text) == registry.Analysis(23, 0, 9)


def test_an_analysis_may_fill_the_bag_but_not_more() -> None:
    assert registry.parse_analysis("33.3-33.3-33.4") == registry.Analysis(33.3, 33.3, 33.4)


@pytest.mark.parametrize("text", ["23-0", "23-0-9-1", "60-30-20", "60-30-10.1", "a-b-c", "-23-0-9", ""])
def test_what_is_no_analysis_is_refused(text: str) -> None:
    with pytest.raises(registry.UnitsError) as bad:
        registry.parse_analysis(text)
    assert bad.value.code == "analysis"


KEYS = st.sampled_from(sorted(registry.BY_KEY))
AMOUNTS = st.decimals(min_value=0, max_value=1_000_000, places=4, allow_nan=False)


@given(key=KEYS, amount=AMOUNTS)
def test_to_si_and_back_gives_what_was_typed(key: str, amount: Any) -> None:
    # What is counted from a zero of its own is as near as the last bits of that zero allow.
    near = 1e-14 * registry.BY_KEY[key].zero or 1e-300
    assert registry.back(registry.convert(str(amount), key), key) == pytest.approx(float(amount), rel=1e-15, abs=near)


@given(whole=st.integers(1, 10**9), grouped=st.sampled_from([",", " ", "\u202f"]))
def test_grouping_never_changes_a_number(whole: int, grouped: str) -> None:
    assert read_number(f"{whole:,}".replace(",", grouped)) == whole


@given(whole=st.integers(0, 500), top=st.integers(0, 99), bottom=st.integers(1, 99))
def test_a_mixed_fraction_is_exact(whole: int, top: int, bottom: int) -> None:
    assert read_number(f"{whole} {top}/{bottom}") == whole + Fraction(top, bottom)


@given(text=st.text(max_size=40))
def test_any_text_is_read_or_refused_in_words(text: str) -> None:
    try:
        read = registry.parse(text)
    except registry.UnitsError as refused:
        read = None
        said = refused.message
    assert (read.quantity in registry.STORED_IN) if read else len(said) > 20


@given(key=KEYS.filter(lambda key: registry.BY_KEY[key].words != ()), amount=st.integers(0, 99999))
def test_every_word_of_a_unit_reads_as_that_unit(key: str, amount: int) -> None:
    unit = registry.BY_KEY[key]
    for word in unit.words:
        read = registry.parse(f"{amount} {word}", unit.quantity)
        assert read.typed == {"amount": str(amount), "unit": key}
