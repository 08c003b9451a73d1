"""The engine answers its cases as worked out by hand, under CPython and under MicroPython alike."""

import json
from pathlib import Path
from typing import Any

import pytest

from lawn.engine.door import call, call_json, calls
from lawn.tooling import phone_engine
from tests.engine.cases import Case, at, broken_promises, cases, differs

CASES = cases()
NAMES = [case.name for case in CASES]


@pytest.fixture(scope="module")
def from_micropython(node_modules: Path) -> dict[str, Any]:
    """The phone's answers to every case, by the case's name."""
    found = phone_engine.answers([case.row for case in CASES])
    return dict(zip(NAMES, found, strict=True))


@pytest.mark.parametrize("case", CASES, ids=NAMES)
def test_python(case: Case) -> None:
    assert broken_promises(case, call(case.row["call"], case.row["args"])) == []


@pytest.mark.parametrize("case", CASES, ids=NAMES)
def test_micropython(case: Case, from_micropython: dict[str, Any]) -> None:
    assert broken_promises(case, from_micropython[case.name]) == []


def test_no_two_cases_share_a_name() -> None:
    assert len(set(NAMES)) == len(NAMES)


def test_every_call_has_a_case_that_answers() -> None:
    answered = {case.row["call"] for case in CASES if any(path.startswith("value") for path in case.row["expect"])}
    assert answered == set(calls())


@pytest.mark.parametrize("case", CASES, ids=NAMES)
def test_the_text_door_gives_the_same_answer(case: Case) -> None:
    spoken = json.loads(call_json(case.row["call"], json.dumps(case.row["args"])))
    assert differs(spoken, call(case.row["call"], case.row["args"])) == ""


@pytest.mark.parametrize("text", ["", "{", "[1,", "nonsense", '{"net_kg": }'])
def test_text_that_is_no_json_is_refused_with_four_facts(text: str) -> None:
    answer = json.loads(call_json("label.rate", text))
    assert answer["error"]["code"] == "wrong_type"
    assert set(answer["error"]) == {"code", "name", "value", "low", "high", "message"}


def test_the_comparison_sees_a_difference_of_the_twelfth_digit() -> None:
    assert differs({"a": [1.0, None]}, {"a": [1.0 + 2e-12, None]}) == ".a.0: 1.0 and 1.000000000002"
    assert differs({"a": True}, {"a": 1})
    assert differs({"a": 0}, {"a": None})
    assert differs({"a": 1}, {"b": 1})
    assert differs([1, 2], [1])
    assert differs("x", "y")
    assert not differs({"a": 1}, {"a": 1.0})


def test_a_missing_place_is_no_value() -> None:
    assert at({"value": {"list": [1]}}, "value.list.3") == {}
    assert at({"error": {}}, "value.dial") == {}
