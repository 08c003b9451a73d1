"""The engine from the command line. No test here may touch the database, so neither does the command."""

import io
import json
import subprocess
import sys
from pathlib import Path

import pytest
from django.core.management import CommandError, call_command

from lawn.engine.door import MOST_DEPTH, call_json, calls
from lawn.tooling import phone_engine
from lawn.tooling.build import ROOT
from tests.engine.cases import differs

BAG = {"net_kg": 21.7724, "coverage_m2": 445.935}


def printed(*words: str) -> str:
    """What the command prints."""
    out = io.StringIO()
    call_command("engine", *words, stdout=out, no_color=True)
    return out.getvalue()


def test_a_call_prints_its_answer() -> None:
    answer = json.loads(printed("label.rate", json.dumps(BAG)))
    assert answer["value"]["rate_kg_m2"] == pytest.approx(21.7724 / 445.935, rel=1e-15)
    assert answer["working"][0]["numbers"] == BAG
    assert answer["engine"]


def test_micropython_gives_the_same_answer(node_modules: Path) -> None:
    here = json.loads(printed("label.rate", json.dumps(BAG)))
    there = json.loads(printed("label.rate", json.dumps(BAG), "--runtime", "micropython"))
    assert differs(here, there) == ""


@pytest.mark.parametrize("runtime", ["python", "micropython"])
def test_a_refusal_prints_the_four_facts_and_ends_with_status_1(runtime: str, node_modules: Path) -> None:
    words = ["engine", "label.rate", '{"net_kg": -5, "coverage_m2": 445.935}', "--runtime", runtime]
    done = subprocess.run([sys.executable, "manage.py", *words], cwd=ROOT, capture_output=True, text=True, check=False)
    assert done.returncode == 1
    error = json.loads(done.stdout)["error"]
    assert (error["code"], error["name"], error["value"]) == ("out_of_range", "net_kg", -5)
    assert (error["low"], error["high"]) == (0.01, 2000.0)


def test_the_list_names_every_call_with_units_and_ranges() -> None:
    text = printed("--list")
    for name in calls():
        assert f"\n{name}  " in f"\n{text}"
    assert "    net_kg [kg, 0.01 to 2000]: net weight of the bag\n" in text
    assert "    price? [money, 0 to 100000]: price of one bag\n" in text
    assert "  > rate_kg_m2 [kg/m2]: product per area\n" in text


def test_naming_no_call_is_explained() -> None:
    with pytest.raises(CommandError, match="--list"):
        printed()


def test_a_missing_micropython_says_what_to_run(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.setattr(phone_engine, "MICROPYTHON", tmp_path / "none")
    with pytest.raises(CommandError, match="npm ci"):
        printed("label.rate", "{}", "--runtime", "micropython")


def test_a_runner_that_breaks_shows_its_own_words(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    broken = tmp_path / "broken.mjs"
    broken.write_text("throw new Error('the moss won');\n")
    monkeypatch.setattr(phone_engine, "MICROPYTHON", tmp_path)
    monkeypatch.setattr(phone_engine, "RUNNER", broken)
    with pytest.raises(CommandError, match="the moss won"):
        printed("label.rate", "{}", "--runtime", "micropython")


DEEP = '{"net_kg": ' + "[" * 15_000 + "]" * 15_000 + "}"
TINY = "[[0, 0], [10, 0], [10, 1e-308], [0, 5e-324]]"
HOSTILE = {
    "deep lists": ("label.rate", DEEP, "wrong_type"),
    "deep groups": ("label.rate", '{"a":' * 15_000 + "1" + "}" * 15_000, "wrong_type"),
    "deep and never closed": ("label.rate", "[" * 100_000, "wrong_type"),
    "an endless number": ("label.rate", '{"net_kg": 1e999, "coverage_m2": 465}', None),
    "corners at 1e-308": ("area.outline", '{"points_m": ' + TINY + "}", "impossible"),
    "a spreading job over them": ("swath.walk_plan", '{"outline_m": ' + TINY + ', "swath_m": 1}', "impossible"),
    "a speck": ("area.outline", '{"points_m": [[0, 0], [1e-160, 0], [1e-160, 1e-160], [0, 1e-160]]}', "impossible"),
}


@pytest.mark.parametrize("runtime", ["python", "micropython"])
@pytest.mark.parametrize("how", list(HOSTILE))
def test_what_no_arithmetic_can_go_on_with_is_refused_in_a_sentence(how: str, runtime: str, node_modules: Path) -> None:
    call, arguments, code = HOSTILE[how]
    ask = phone_engine.answer if runtime == "micropython" else call_json
    error = json.loads(ask(call, arguments), parse_constant=pytest.fail)["error"]
    assert error["code"] == (code or error["code"]) != "fault"
    assert error["message"].endswith(".")


def test_brackets_within_a_text_are_no_nesting() -> None:
    answer = json.loads(call_json("label.rate", json.dumps({**BAG, "note": '"[' * 300})))
    assert answer["error"]["code"] == "unknown_argument"
    inner: object = 1
    for _ in range(MOST_DEPTH - 1):
        inner = [inner]
    assert json.loads(call_json("label.rate", json.dumps({"net_kg": inner})))["error"]["code"] != "fault"


def test_a_result_that_is_no_number_is_refused_not_printed(monkeypatch: pytest.MonkeyPatch) -> None:
    for value in (float("nan"), float("inf"), [{"area_m2": -float("inf")}]):
        monkeypatch.setitem(calls(), "label.rate", (lambda value=value: (value, []), (), ()))
        assert json.loads(call_json("label.rate", "{}"), parse_constant=pytest.fail)["error"]["code"] == "not_finite"
