"""Laws of the learned dial: a rising curve, no effect of scale, a bad mark like leaving out, one answer a question."""

import copy
import itertools
import math
from typing import Any

from hypothesis import given
from hypothesis import strategies as st

from tests.properties.asking import value
from tests.properties.dial.test_spreading_properties import questions

Json = dict[str, Any]
NEAR = 1e-9


def asked(question: Json, **more: Any) -> Json:
    """The arguments that spreading.curve takes of a question, and more."""
    return {name: question[name] for name in ("dial", "product", "history")} | more


@given(questions())
def test_a_wider_opening_never_puts_down_less(question: Json) -> None:
    points = value("spreading.curve", **asked(question))["points"]
    for name in ("low", "mid", "high"):
        rates = [point["rate_kg_m2"][name] for point in points]
        assert all(one <= other * (1 + NEAR) for one, other in itertools.pairwise(rates)), name
    assert all(p["rate_kg_m2"]["low"] <= p["rate_kg_m2"]["mid"] <= p["rate_kg_m2"]["high"] for p in points)


@given(questions(), st.floats(0.2, 5), st.floats(0.1, 20), st.integers(1, 3))
def test_a_yard_so_many_times_as_large_is_set_alike(question: Json, times: float, left: float, to_go: int) -> None:
    """Mass and ground of every pass, and of this job, times the same number: the same setting and share left."""
    larger = copy.deepcopy(question) | {"area_m2": question["area_m2"] * times}
    for row in larger["history"]:
        row["area_m2"] *= times
        row["used_kg"] *= times
    one = value("spreading.next", **question, left_kg=left, passes_to_go=to_go)
    other = value("spreading.next", **larger, left_kg=left * times, passes_to_go=to_go)
    assert one["advice"] == other["advice"]
    assert one["dial"] == other["dial"]
    assert math.isclose(one["left_kg"]["mid"] * times, other["left_kg"]["mid"], rel_tol=1e-6, abs_tol=1e-9)


@given(questions(), st.integers(-20, 20), st.sampled_from([0.5, 2.0, 4.0]), st.integers(1, 3))
def test_a_dial_numbered_otherwise_opens_as_far(question: Json, first: int, times: float, passes: int) -> None:
    dial = question["dial"]
    lowest, step = dial["lowest"], dial["step"]

    def renumbered(setting: float) -> float:
        return float(first + (setting - lowest) * times)

    other = copy.deepcopy(question)
    other["dial"] = {"lowest": first, "highest": renumbered(dial["highest"]), "step": step * times}
    for row in other["history"]:
        row["dial"] = renumbered(row["dial"])
    got = value("spreading.start", **question, passes=passes)
    same = value("spreading.start", **other, passes=passes)
    assert math.isclose(renumbered(got["dial"]), same["dial"], rel_tol=1e-9, abs_tol=1e-9)


@given(questions(least=1), st.data(), st.sampled_from(["bad", "damp"]))
def test_a_marked_pass_weighs_as_much_as_none(question: Json, data: st.DataObject, mark: str) -> None:
    at = data.draw(st.integers(0, len(question["history"]) - 1))
    marked, without = copy.deepcopy(question), copy.deepcopy(question)
    marked["history"][at][mark] = True
    del without["history"][at]
    one, other = value("spreading.curve", **asked(marked)), value("spreading.curve", **asked(without))
    assert one["points"] == other["points"]
    assert one["past"][at]["left_out"] is not None


@given(questions(), st.floats(0.1, 0.9), st.floats(0, 1), st.integers(1, 3))
def test_a_check_never_sets_the_rest_beyond_its_load(question: Json, done: float, now: float, to_go: int) -> None:
    dial, ground = question["dial"], question["area_m2"]
    part = {"area_done_m2": max(0.5, ground * done), "area_to_go_m2": max(0.5, ground * (1 - done))}
    load = question["target_kg_m2"] * ground
    got = value("spreading.check", **question, **part, now_kg=load * now, dial_now=dial["highest"], passes_to_go=to_go)
    assert dial["lowest"] <= got["dial"] <= dial["highest"] + NEAR
    assert (got["advice"] == "close") == (got["dial"] == dial["lowest"])
    assert 0 <= got["likely_end_kg"]["low"] <= got["likely_end_kg"]["mid"] <= got["likely_end_kg"]["high"]
    if to_go > 1:
        assert got["advice"] == "close" or got["chance_of_running_out"] <= 0.5 + NEAR


@given(questions(), st.integers(1, 3))
def test_the_same_question_gets_the_same_answer(question: Json, passes: int) -> None:
    before = copy.deepcopy(question)
    one = value("spreading.start", **question, passes=passes)
    assert one == value("spreading.start", **question, passes=passes)
    assert question == before


@given(questions(), st.integers(1, 3))
def test_no_pass_is_expected_to_put_down_more_than_the_aim(question: Json, passes: int) -> None:
    got = value("spreading.start", **question, passes=passes)
    assert got["rate_kg_m2"]["mid"] <= question["target_kg_m2"] * (1 + 1e-6)
    left = value("spreading.next", **question, left_kg=5000.0, passes_to_go=1)
    assert left["rate_kg_m2"]["mid"] <= question["target_kg_m2"] * (1 + 1e-6)
