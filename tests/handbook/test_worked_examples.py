"""The engine gives the figures that published worked examples print; each stands beside its source."""

import pytest

from lawn.engine.door import call
from tests.handbook import worked
from tests.handbook.worked import Check

CHECKS = worked.checks()
FEWEST_EXAMPLES = 138  # 55 of handling products, 68 of growing, 15 of spreading: none may get lost


def answer(check: Check) -> float:
    """Ask the engine for one figure, earlier figures of the same example first."""
    earlier: dict[str, float] = {}
    got = float("nan")
    for rule in check.example["checks"]:
        step = Check(check.example, rule)
        given = call(rule["call"], worked.arguments(step, earlier))
        assert "value" in given, given
        got = float(given["value"][rule["read"]])
        earlier[rule["figure"]] = got
        if rule is check.rule:
            return got
    raise AssertionError("the rule is not one of its example's")


@pytest.mark.parametrize("check", CHECKS, ids=[check.name for check in CHECKS])
def test_the_engine_gives_the_printed_figure(check: Check) -> None:
    if "equals_input" in check.rule:
        fact = check.example["inputs"][check.rule["equals_input"]] | {"rounding": "exact"}
        value = float(fact["value"])
    else:
        value, fact = worked.printed(check)
    got = worked.in_printed_unit(check, answer(check), fact["unit"])
    matches = worked.agrees(got, value, fact, check.rule.get("last_click_below"))
    if fact.get("agrees", True):
        assert matches, f"{check.example['source']} prints {value}, the engine gives {got}"
    else:
        assert not matches, f"{check.example['source']} was thought to disagree with itself, yet {got} matches"
        assert got == pytest.approx(fact["computed"], rel=1e-6)


def test_every_example_is_checked_or_listed_figure_by_figure() -> None:
    for example in worked.examples():
        checked = {rule["figure"] for rule in example["checks"] if not rule["figure"].startswith("_")}
        listed = set(example["listed"])
        assert checked | listed == set(example["expected"]), example["id"]
        assert not checked & listed, example["id"]
        assert all(reason.strip() for reason in example["listed"].values()), example["id"]


def test_no_example_of_the_reference_got_lost() -> None:
    names = [example["id"] for example in worked.examples()]
    assert len(set(names)) == len(names) >= FEWEST_EXAMPLES


def test_every_example_names_a_source_whose_record_is_kept() -> None:
    records = worked.sources()
    for example in worked.examples():
        keys = example["source"] if isinstance(example["source"], list) else [example["source"]]
        for key in keys:
            assert records[key]["title"], f"{example['id']}: {key}"


def test_figures_that_disagree_with_their_own_inputs_are_kept_and_explained() -> None:
    for example in worked.examples():
        for figure, fact in example["expected"].items():
            if isinstance(fact, dict) and not fact.get("agrees", True):
                assert any(figure in line for line in example["disagreement"]), example["id"]
