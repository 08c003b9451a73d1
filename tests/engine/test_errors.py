"""Errors carry four facts and a plain sentence, and every one of them can be written as JSON."""

import json
from typing import Any

import pytest

from lawn.engine.core.errors import EngineError, sayable
from lawn.engine.core.numeric import at_least, total, whole_down, whole_up
from lawn.engine.door import call, call_json, calls
from tests.engine.cases import Case, cases
from tests.parity.drawing import draw

REFUSED = [case for case in cases() if "error.code" in case.row["expect"]]
FACTS = {"code", "name", "value", "low", "high", "message"}
ODD: list[Any] = [None, True, "", "x", -1, 0, 1e308, -1e308, float("nan"), float("inf"), 10**400, [], {}, [[]], {"": 0}]


@pytest.mark.parametrize("case", REFUSED, ids=[case.name for case in REFUSED])
def test_a_refusal_is_a_sentence_with_four_facts(case: Case) -> None:
    error = call(case.row["call"], case.row["args"])["error"]
    assert set(error) == FACTS
    assert error["message"][0].isupper()
    assert error["message"].endswith(".")
    if error["code"] in ("out_of_range", "missing_argument", "wrong_type"):  # words of a person, no name of code
        assert "_" not in error["message"]


def spoilt(args: Any, odd: Any) -> list[Any]:
    """The arguments with each value at any depth, one at a time, made odd."""
    if isinstance(args, dict):
        return [odd] + [{**args, key: bad} for key, item in args.items() for bad in spoilt(item, odd)]
    if isinstance(args, list) and args:
        return [odd] + [[bad, *args[1:]] for bad in spoilt(args[0], odd)]
    return [odd]


@pytest.mark.parametrize("name", sorted(calls()))
def test_no_odd_value_anywhere_makes_the_engine_fall_over(name: str) -> None:
    """Each argument in turn becomes something odd: an answer or a proper refusal, both of them JSON."""
    for args in draw(name, 2):
        for odd in ODD:
            for bad in spoilt(args, odd):
                answer = call(name, bad)
                assert set(answer) in ({"value", "working", "engine"}, {"error", "engine"})
                assert set(answer.get("error", FACTS)) == FACTS
                json.dumps(answer, allow_nan=False)


@pytest.mark.parametrize("value", [float("nan"), float("inf"), 10**400, object(), [1], {"a": 1}, "x", None, True, 1.5])
def test_any_value_can_be_named_in_json(value: object) -> None:
    json.dumps(sayable(value), allow_nan=False)


def test_a_fault_of_ours_is_an_error_on_the_phone_and_a_traceback_here(monkeypatch: pytest.MonkeyPatch) -> None:
    def broken(**_: Any) -> None:
        raise ZeroDivisionError("moss")

    monkeypatch.setitem(calls(), "label.rate", (broken, (), ()))
    with pytest.raises(ZeroDivisionError):
        call("label.rate", {})
    error = json.loads(call_json("label.rate", "{}"))["error"]
    assert (error["code"], error["name"]) == ("fault", "label.rate")
    assert "ZeroDivisionError" in error["message"]


def test_an_error_remembers_what_it_was_told() -> None:
    error = EngineError(code="c", name="n", value=1, low=2, high=3, message="M.")
    assert error.facts() == {"code": "c", "name": "n", "value": 1, "low": 2, "high": 3, "message": "M."}
    assert str(error) == "M."


def test_a_total_does_not_depend_on_the_order_of_large_and_small() -> None:
    values = [1e16, 1.0, -1e16, 1e-3]
    assert total(values) == total(values[::-1]) == pytest.approx(1.001, rel=1e-15)
    assert sum(values) != pytest.approx(1.001, rel=1e-15)  # what plain adding makes of it


def test_the_last_bits_decide_nothing() -> None:
    assert at_least(0.1 + 0.2, 0.3)
    assert at_least(0.3, 0.1 + 0.2)
    assert not at_least(0.3 - 1e-6, 0.3)
    assert (whole_up(2.0000000000001), whole_up(2.001), whole_up(0.0)) == (2, 3, 0)
    assert (whole_down(7.9999999999999), whole_down(7.99), whole_down(8.0)) == (8, 7, 8)
