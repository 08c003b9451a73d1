"""CPython and MicroPython agree to 1e-12 on the whole answer: cases, worked examples and drawn arguments."""

from pathlib import Path
from typing import Any

import pytest

from lawn.engine.door import call, calls
from lawn.tooling import phone_engine
from tests.engine.cases import cases, differs
from tests.handbook import worked
from tests.parity.drawing import draw

DRAWN_EACH = 60
Json = dict[str, Any]


def pool() -> list[Json]:
    """Everything both runtimes are asked: call, args, and a name for the report."""
    rows = [{"call": c.row["call"], "args": c.row["args"], "name": c.name} for c in cases()]
    for check in worked.checks():
        if not any(word in repr(check.rule["args"]) for word in ("'@", "'!")):
            args = worked.arguments(check, {})
            rows.append({"call": check.rule["call"], "args": args, "name": check.name})
    for name in sorted(calls()):
        drawn = draw(name, DRAWN_EACH)
        rows += [{"call": name, "args": args, "name": f"{name} drawn {at}"} for at, args in enumerate(drawn)]
    return rows


ROWS = pool()


@pytest.fixture(scope="module")
def pairs(node_modules: Path) -> list[tuple[Json, Json, Json]]:
    """Each row with CPython's and MicroPython's answer."""
    phones = phone_engine.answers(ROWS)
    return [(row, call(row["call"], row["args"]), phone) for row, phone in zip(ROWS, phones, strict=True)]


def test_both_runtimes_answer_alike(pairs: list[tuple[Json, Json, Json]]) -> None:
    found = [f"{row['name']} {d}" for row, here, there in pairs if (d := differs(here, there))]
    assert found == []


@pytest.mark.parametrize("name", sorted(calls()))
def test_most_drawn_arguments_are_answered_and_some_refused(name: str, pairs: list[tuple[Json, Json, Json]]) -> None:
    answers = [here for row, here, _ in pairs if row["name"].startswith(f"{name} drawn")]
    good = [one for one in answers if "value" in one]
    assert len(answers) == DRAWN_EACH
    assert len(good) >= DRAWN_EACH // 3
    assert len(good) < DRAWN_EACH


def test_a_wrong_answer_of_the_phone_would_be_seen(pairs: list[tuple[Json, Json, Json]]) -> None:
    row, here, there = next(pair for pair in pairs if pair[0]["call"] == "label.rate" and "value" in pair[1])
    bent = {**there, "value": {"rate_kg_m2": there["value"]["rate_kg_m2"] * (1 + 1e-11)}}
    assert differs(here, there) == "", row["name"]
    assert "rate_kg_m2" in differs(here, bent)
