"""The engine reads typed amounts as the Pint registry does, and as Pint's own arithmetic says."""

import json
from itertools import pairwise
from typing import Any

import pint
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from lawn.engine.door import call
from lawn.units import registry

VECTORS = json.loads(registry.UNITS_FILE.with_name("units_vectors.json").read_text(encoding="utf-8"))
# A speed is so much per hour, and temperatures do not add up.
ADDABLE = [unit for unit in registry.UNITS if unit.words and "/" not in unit.words[0] and not unit.zero]
WITH_WORDS = [unit for unit in registry.UNITS if unit.words]

NUMBERS = st.one_of(
    st.integers(0, 10**7).map(str),
    st.integers(0, 10**7).map(lambda whole: f"{whole:,}"),
    st.integers(0, 10**7).map(lambda whole: f"{whole:,}".replace(",", " ")),
    st.decimals(min_value=0, max_value=10**5, places=3).map(str),
    st.decimals(min_value=0, max_value=10**5, places=2).map(lambda one: str(one).replace(".", ",")),
    st.tuples(st.integers(0, 99), st.integers(0, 9), st.integers(0, 9)).map(lambda n: f"{n[0]} {n[1]}/{n[2]}"),
    st.sampled_from(["½", "1¼", "2⅔", ".5", "7.", "0,5", "1.000", "5,0,0", "-3", "\u22123", "1-1/2", "1/0", ""]),
)
WORDS = st.sampled_from(sorted({word for unit in WITH_WORDS for word in unit.words}))
SPACES = st.sampled_from(["", " ", "  ", "\u202f", "\u00a0", "-"])
CASES = st.sampled_from([str, str.upper, str.title])
PIECES = st.builds(lambda n, gap, word, case: n + gap + case(word), NUMBERS, SPACES, WORDS, CASES)
AMOUNTS = st.one_of(PIECES, st.lists(PIECES, min_size=2, max_size=3).map(" ".join))
FRAMES = ["{}", "{}.", "NET WT {}", "Net wt. {}", "covers {}", "Coverage: up to {}", "{} bag", "{}-bag", "rate: {}"]
LABELED = st.builds(lambda frame, one: frame.format(one), st.sampled_from(FRAMES), AMOUNTS)
BRACKETED = st.builds("{} ({})".format, LABELED, AMOUNTS)
NITROGEN = st.sampled_from(["", " N", " n", " of nitrogen", " of N"])
PER = st.sampled_from([" per ", "/", " / "])
RATES = st.builds(lambda top, n, per, bottom: top + n + per + bottom, AMOUNTS, NITROGEN, PER, st.one_of(PIECES, WORDS))
SOUP = st.text(st.sampled_from([*"0123456789.,/-+ ()'\"²³^lbozkgftmsqper"]), max_size=14)
TEXTS = st.one_of(PIECES, LABELED, BRACKETED, RATES, SOUP)
QUANTITIES = st.sampled_from([None, *registry.STORED_IN])

FRESH: pint.UnitRegistry[float] = pint.UnitRegistry()
FRESH.define("lawn_acre = 43560 * foot ** 2")
FRESH.define("hundred_square_metres = 100 * metre ** 2")


def by_pint(text: str, quantity: str | None) -> dict[str, Any] | None:
    try:
        read = registry.parse(text, quantity)
    except registry.UnitsError:
        return None
    return {"quantity": read.quantity, **read.typed, "value": pytest.approx(read.si, rel=1e-12, abs=1e-300)}


def by_engine(text: str, quantity: str | None) -> dict[str, Any] | None:
    args = {"text": text} | ({"quantity": quantity} if quantity else {})
    value = call("units.read", args).get("value")
    return value and {key: value[key] for key in ("quantity", "amount", "unit", "value")}


def test_the_engine_s_table_is_what_the_registry_writes() -> None:
    assert registry.ENGINE_FILE.read_text(encoding="utf-8") == registry.as_engine()


@given(text=TEXTS, quantity=QUANTITIES)
def test_both_read_a_text_alike_or_both_refuse_it(text: str, quantity: str | None) -> None:
    assert by_engine(text, quantity) == by_pint(text, quantity)


@given(text=st.text(max_size=40), quantity=QUANTITIES)
def test_any_text_at_all_is_read_alike_or_refused_in_words(text: str, quantity: str | None) -> None:
    assert by_engine(text, quantity) == by_pint(text, quantity)
    answer = call("units.read", {"text": text})
    assert "value" in answer or answer["error"]["message"].endswith(".")


@given(text=st.one_of(NUMBERS, PIECES), unit=st.sampled_from(registry.UNITS))
def test_what_stands_in_a_box_is_a_bare_number_in_its_unit_or_has_a_unit_of_its_sort(
    text: str, unit: registry.Unit
) -> None:
    answer = call("units.read", {"text": text, "unit": unit.key})
    try:
        bare = registry.convert(text, unit.key)
    except registry.UnitsError:
        bare = None
    told = by_pint(text, unit.quantity)
    if bare is not None:
        assert (answer["value"]["value"], answer["value"]["unit"]) == (pytest.approx(bare, rel=1e-12), unit.key)
    elif told is not None:
        assert answer["value"]["value"] == told["value"]
    else:
        assert "error" in answer


@given(pieces=st.lists(st.tuples(st.integers(1, 999), st.sampled_from(ADDABLE)), min_size=1, max_size=3))
def test_a_sum_of_pieces_is_pint_s_own_sum(pieces: list[tuple[int, registry.Unit]]) -> None:
    """Pint's own addition of quantities, by a registry of plain floats that shares nothing with ours but names."""
    units = [unit for _, unit in pieces]
    assume(all(a.quantity == b.quantity and a.factor > b.factor for a, b in pairwise(units)))
    whole = sum(count * FRESH.parse_expression(unit.meaning) for count, unit in pieces)
    text = " ".join(f"{count} {unit.words[0]}" for count, unit in pieces)
    stored = registry.STORED_IN[units[0].quantity].meaning
    value = call("units.read", {"text": text, "quantity": units[0].quantity})["value"]
    assert value["value"] == pytest.approx((whole / FRESH.parse_expression(stored)).to("").magnitude, rel=1e-12)
    assert [(one["number"], one["unit"]) for one in value["parts"]] == [(count, unit.key) for count, unit in pieces]


@pytest.mark.parametrize("row", VECTORS["numbers"] + VECTORS["not_numbers"], ids=lambda row: repr(row["text"]))
def test_a_bare_number_is_read_as_the_phone_reads_it(row: dict[str, Any]) -> None:
    answer = call("units.read", {"text": row["text"], "unit": "kg" if row.get("comma") else "lb"})
    if "code" in row and any(one.isascii() and one.isalpha() for one in row["text"]):
        assert "error" in answer
    elif "code" in row:
        assert answer["error"]["code"] == row["code"]
    else:
        factor = 1.0 if row.get("comma") else 0.45359237
        assert answer["value"]["value"] == pytest.approx(row["value"] * factor, rel=1e-14)


@pytest.mark.parametrize("row", VECTORS["texts"], ids=lambda row: row["text"])
def test_a_text_with_its_unit_is_read_and_kept_as_typed(row: dict[str, Any]) -> None:
    value = call("units.read", {"text": row["text"], "quantity": row["quantity"]})["value"]
    assert value["value"] == pytest.approx(row["si"], rel=1e-14)
    assert {"amount": value["amount"], "unit": value["unit"]} == row["typed"]


@pytest.mark.parametrize("row", VECTORS["not_texts"], ids=lambda row: row["text"])
def test_a_text_of_another_sort_is_refused_with_what_is_allowed(row: dict[str, Any]) -> None:
    assert "Enter" in call("units.read", {"text": row["text"], "quantity": row["quantity"]})["error"]["message"]
