"""The engine's docstrings are data, and what they say of names, units, ranges and sources is true."""

import copy
import importlib
import inspect
import json
import re
from collections.abc import Callable
from pathlib import Path
from typing import Any, NamedTuple

import pytest

from lawn.engine.core.docstrings import read
from lawn.engine.door import call, calls, describe
from tests.engine import shapes
from tests.engine.cases import Case, cases
from tests.handbook.worked import PUBLISHED

ENGINE = Path(__file__).resolve().parents[2] / "lawn" / "engine"
RECORDS = set(json.loads((PUBLISHED / "engine_sources.json").read_text())["sources"])  # what phones can show
SOURCES = RECORDS | {"definition", "common practice", "entered by you"}
# What a name ends in says the unit its docstring must state.
ENDINGS = {
    "_kg_m2": "kg/m2",
    "_kg_m3": "kg/m3",
    "_per_kg_n": "money/kg",
    "_percent": "%",
    "_share": "share",
    "_days": "day",
    "_kg": "kg",
    "_mg_kg": "mg/kg",
    "_m2": "m2",
    "_m3": "m3",
    "_mm": "mm",
    "_m": "m",
    "_m_s": "m/s",
    "_s": "s",
    "_mj_m2": "MJ/m2",
    "_mm_m": "mm/m",
    # how far apart two temperatures are: no zero of °F comes in
    "_error_c": "K",
    "_sd_c": "K",
    "_offset_c": "K",
}
LISTS = {"offsets_m", "radii_m", "points_m", "holes_m", "circles_m", "outline_m", "here_m"}
# What an answer says by a word; sentences are texts.
CODES = {"advice", "basis", "ceiling", "kind", "left_out", "per", "says", "state", "why"}
# These answer whole sentences, in plain words.
SENTENCES = {
    ("feeding.burn", "says"),
    ("feeding.green_up", "says"),
    ("feeding.release", "says"),
    ("limits.check", "breaches.says"),
    ("season.moved", "breaches.says"),
    ("limits.rules", "says"),
    ("season.blocked", "gives.says"),
    ("season.build", "model.rows.says"),
}
# only whether it is 0 is read
UNRANGED = {("record.clashes", "entries.zones.used_kg")}
FORMULA = re.compile(r"(_kg_m2|_m2|_m3|_mm|_per_kg)$")


def public_functions() -> dict[str, Callable[..., Any]]:
    """Every function of the engine that others may call, by module and name, in whichever folder it lies."""
    found: dict[str, Callable[..., Any]] = {}
    for path in sorted(ENGINE.rglob("*.py")):
        inside = path.relative_to(ENGINE).with_suffix("").parts
        module = importlib.import_module(".".join(("lawn.engine", *inside)))
        for name, function in inspect.getmembers(module, inspect.isfunction):
            if function.__module__ == module.__name__ and not name.startswith("_"):
                found[".".join((*inside, name))] = function
    return found


FUNCTIONS = public_functions()
FORMULAS = {name: function for name, function in FUNCTIONS.items() if FORMULA.search(name) and "signed" not in name}
DOORS = {name: row[0] for name, row in calls().items()}


def keyword_only(function: Callable[..., Any]) -> dict[str, inspect.Parameter]:
    """The parameters of a function, all of which must be keyword-only."""
    parameters = inspect.signature(function).parameters
    assert all(one.kind is inspect.Parameter.KEYWORD_ONLY for one in parameters.values()), function
    return dict(parameters)


def test_the_scan_finds_the_engine() -> None:
    names = {name.rsplit(".", 1)[1] for name in FORMULAS}
    assert names >= {"product_rate_kg_m2", "circle_m2", "mow_at_mm", "volume_m3", "nutrient_rate_kg_m2"}
    assert {function.__module__ for function in DOORS.values()} <= {
        function.__module__ for function in FUNCTIONS.values()
    }


@pytest.mark.parametrize("name", sorted(FORMULAS | DOORS))
def test_a_docstring_names_every_argument_and_no_other(name: str) -> None:
    function = (FORMULAS | DOORS)[name]
    stated = read(function.__doc__ or "")
    top = [row for row in stated["args"] if "." not in row["name"]]
    parameters = keyword_only(function)
    assert [row["name"] for row in top] == list(parameters) or {row["name"] for row in top} == set(parameters)
    for row in top:
        has_default = parameters[row["name"]].default is not inspect.Parameter.empty
        assert row["optional"] == has_default, row["name"]
    assert stated["summary"].endswith(".")
    assert stated["returns"]
    assert stated["raises"]


@pytest.mark.parametrize("name", sorted(FORMULAS | DOORS))
def test_a_docstring_states_the_unit_its_names_end_in(name: str) -> None:
    stated = read((FORMULAS | DOORS)[name].__doc__ or "")
    for row in stated["args"] + stated["returns"]:
        last = row["name"].split(".")[-1]
        assert row["unit"], f"{name}: {last} has no unit or kind"
        endings = [end for end in ENDINGS if f"_{last}".endswith(end)]
        if endings and last not in LISTS and not row["unit"].startswith("list"):
            assert row["unit"] == ENDINGS[max(endings, key=len)], f"{name}: {last}"
            ranged = row["low"] is not None or row in stated["returns"] or (name, row["name"]) in UNRANGED
            assert ranged, f"{name}: {last} has no range"


@pytest.mark.parametrize("name", sorted(FORMULAS | DOORS))
def test_a_docstring_names_a_source_that_is_kept_and_a_value_checked(name: str) -> None:
    stated = read((FORMULAS | DOORS)[name].__doc__ or "")
    assert stated["source"] in SOURCES, f"{name}: {stated['source']!r}"
    if name in FORMULAS or stated["source"] in RECORDS:
        key = re.search(r"\(([^()]+)\)$", stated["checked"])
        assert key is not None, f"{name}: {stated['checked']!r}"
        assert key[1] in SOURCES


@pytest.mark.parametrize("name", sorted(FUNCTIONS))
def test_any_source_a_docstring_names_is_kept(name: str) -> None:
    source = read(FUNCTIONS[name].__doc__ or "")["source"]
    assert source == "" or source in SOURCES


def test_the_registry_and_the_functions_agree() -> None:
    for name, (function, needed, optional) in calls().items():
        parameters = keyword_only(function)
        required = {key for key, one in parameters.items() if one.default is inspect.Parameter.empty}
        assert required == set(needed), name
        assert set(parameters) - required == set(optional), name


def test_the_list_tells_every_call_with_units_and_ranges() -> None:
    rows = {row["call"]: row for row in describe()}
    assert set(rows) == set(calls())
    net = next(row for row in rows["label.rate"]["args"] if row["name"] == "net_kg")
    assert (net["unit"], net["low"], net["high"]) == ("kg", 0.01, 2000.0)
    corners = next(row for row in rows["area.outline"]["args"] if row["name"] == "points_m")
    assert corners["says"].startswith("corners [x, y] in order")
    assert corners["unit"] == "list of corners"


class Edge(NamedTuple):
    """One numeric argument of a call with its documented range, in a case that holds it."""

    case: Case
    path: str
    low: float
    high: float


def holder(args: Any, path: str) -> tuple[Any, str] | None:
    """The group or list item that holds the last part of a documented path, as far as the case has it."""
    if isinstance(args, list):
        return next((found for item in args if (found := holder(item, path))), None)
    first, _, rest = path.partition(".")
    if not isinstance(args, dict) or first not in args:
        return None
    return holder(args[first], rest) if rest else (args, first)


def edges() -> list[Edge]:
    """Every documented range, each with an answering case to try it in."""
    found = []
    for row in describe():
        own = [c for c in cases() if c.row["call"] == row["call"] and "error.code" not in c.row["expect"]]
        for one in row["args"]:
            case = next((c for c in own if holder(c.row["args"], one["name"])), None)
            if one["low"] is not None:
                assert case is not None, f"no case of {row['call']} gives {one['name']}"
                found.append(Edge(case, one["name"], one["low"], one["high"]))
    return found


EDGES = edges()


def refusal(edge: Edge, answer: dict[str, Any]) -> dict[str, Any] | None:
    """What is wrong: the call's own error, or where it is a past pass, what that pass was left out for."""
    if not edge.path.startswith("history."):
        return answer.get("error")
    left_out = answer["value"]["left_out"]
    return next((one["error"] for one in left_out if one["why"] == "unreadable"), None)


@pytest.mark.parametrize("edge", EDGES, ids=[f"{edge.case.row['call']}:{edge.path}" for edge in EDGES])
def test_outside_its_documented_range_a_number_is_refused_with_that_range(edge: Edge) -> None:
    beyond = {"low": edge.low - max(abs(edge.low), 1.0) * 1e-6, "high": edge.high * (1 + 1e-6) + 1e-9}
    for side, value in beyond.items():
        args = copy.deepcopy(edge.case.row["args"])
        found = holder(args, edge.path)
        assert found is not None
        found[0][found[1]] = value
        error = refusal(edge, call(edge.case.row["call"], args))
        assert error is not None, f"{side}: {value} was taken"
        assert error["code"] == "out_of_range", error
        assert (error["low"], error["high"], error["value"]) == (edge.low, edge.high, value)
        assert error["name"].split(".")[-1] == edge.path.split(".")[-1]
        assert error["message"].endswith(".")


@pytest.mark.parametrize("case", [c for c in cases() if "error.code" not in c.row["expect"]], ids=lambda c: c.name)
def test_an_answer_holds_what_its_docstring_promises_and_no_more(case: Case) -> None:
    answer = call(case.row["call"], case.row["args"])
    assert shapes.faults_of(case.row["call"], "returns", answer["value"]) == []


def test_every_word_that_a_phone_says_in_its_own_words_is_one_of_a_list() -> None:
    """Phones have a table for each of them; where one is new, tsc names the table that has no words for it."""
    answered = [(call["call"], row) for call in describe() for row in call["returns"]]
    coded = [(name, row) for name, row in answered if row["name"].split(".")[-1] in CODES and row["unit"] == "text"]
    coded = [(name, row) for name, row in coded if (name, row["name"]) not in SENTENCES]
    assert [f"{name} {row['name']}" for name, row in coded if not row["choices"]] == []
    assert len(coded) > 15


@pytest.mark.parametrize("case", [c for c in cases() if "error.code" not in c.row["expect"]], ids=lambda c: c.name)
def test_what_a_call_takes_is_of_the_kind_its_docstring_states(case: Case) -> None:
    """Other fields may stand among those of a log entry; what reads a past pass leaves out one it cannot read."""
    faults = shapes.faults_of(case.row["call"], "args", case.row["args"])
    assert [one for one in faults if not one.endswith("not stated") and not one.startswith("history.")] == []


@pytest.mark.parametrize("case", [c for c in cases() if "error.code" not in c.row["expect"]], ids=lambda c: c.name)
def test_every_answer_shows_its_working_with_known_sources(case: Case) -> None:
    working = call(case.row["call"], case.row["args"])["working"]
    assert working
    for row in working:
        assert set(row) - {"of"} == {"what", "formula", "numbers", "result", "unit", "source"}
        assert row["what"]
        assert row["formula"]
        assert row["unit"]
        assert row["numbers"]
        assert row["source"] in SOURCES, row["source"]


def test_no_source_is_kept_that_nothing_names() -> None:
    # rows that come with a call name their sources themselves
    handed_in = [PUBLISHED / "limits.json", PUBLISHED / "places.json", *PUBLISHED.glob("season_?.json")]
    written = "".join(path.read_text(encoding="utf-8") for path in [*ENGINE.rglob("*.py"), *handed_in])
    assert [key for key in sorted(RECORDS) if key not in written] == []
