"""What blocks a plan is told in words; every row reads as a sentence; the solver can be stopped, and hears a start."""

import copy
import re
from pathlib import Path
from typing import Any

import pytest

from lawn.engine.door import call
from lawn.planning.blocked import smallest_set, what_gives
from lawn.planning.solver import cost_of, keeps, solve
from tests.engine.cases import cases
from tests.properties.season.yards import EVEN, LB, TODAY, Json, random_yard, small

GOLDEN = Path(__file__).with_name("says.golden.txt")


def three_jobs(evenings: int) -> Json:
    """Three products locked in one week."""
    products: list[Json] = [
        {"id": name, "sort": "fertilizer", "net_kg": 10.0, "price": 20.0, "n_percent": 20.0, "rate_kg_m2": 0.02}
        for name in ("green", "gold", "grey")
    ]
    groups: list[Json] = [
        {"id": f"g{at}", "area_m2": 100.0, "turf": "cool", "need_n_kg_m2": [0.1 * LB] * 8} for at in range(3)
    ]
    locked = [
        {"date": TODAY, "group": of["id"], "product": one["id"]} for of, one in zip(groups, products, strict=True)
    ]
    wishes = {"weeks": 8, "evenings_week": evenings}
    return {"groups": groups, "products": products, "climate": EVEN, "rules": {}, "wishes": wishes, "done": [],
            "locked": locked, "today": TODAY}  # fmt: skip


def model(yard: Json) -> Json:
    found: Json = call("season.build", yard)["value"]["model"]
    return found


def test_three_evenings_hold_three_jobs() -> None:
    assert solve(model(three_jobs(3))).state == "best"


def test_what_gives_is_the_evening_that_is_missing() -> None:
    built = model(three_jobs(2))
    assert solve(built).state == "blocked"
    (gives,) = what_gives(built)
    assert gives.says in {
        "The evenings of the week of 2 March hold all that is to be done in them.",
        *(
            f"The feed of {name} on g{at} is locked in the week of 2 March."
            for at, name in enumerate(("green", "gold", "grey"))
        ),
    }
    assert gives.gives == pytest.approx(1.0)


def test_the_smallest_set_is_the_evenings_and_the_three_locks_and_none_can_be_left_out() -> None:
    built = model(three_jobs(2))
    found = smallest_set(built)
    assert sorted(one.says for one in found) == [
        "The evenings of the week of 2 March hold all that is to be done in them.",
        "The feed of gold on g1 is locked in the week of 2 March.",
        "The feed of green on g0 is locked in the week of 2 March.",
        "The feed of grey on g2 is locked in the week of 2 March.",
    ]
    for left_out in found:
        rows = [row for row in built["rows"] if row["name"] != left_out.name]
        assert solve({**built, "rows": rows}).state == "best"


def test_what_can_be_done_has_no_blocking_set() -> None:
    assert smallest_set(model(three_jobs(3))) == []


def golden_yards() -> list[Json]:
    """The yard in which everything is said, the same with lime and sowing in the way, and others: every kind of row."""
    told = next(case.row["args"] for case in cases() if case.row["it"] == "takes everything that may be said")
    near = copy.deepcopy(told)
    near["products"][1]["wait_days"] = 300
    near["done"].append({"date": "2026-02-20", "group": "front", "product": "pre", "n_kg_m2": 0.0})
    near["climate"]["jobs"][-1]["opens"] = {"measure": "month", "month": 9}
    near["locked"], near["wishes"]["present"] = [], []
    near["products"][0] |= {"p2o5_percent": 0, "rate_kg_m2": 0.03}
    near["groups"][0] |= {"phosphate": False}
    return [told, near, three_jobs(2), small(3), random_yard(1), random_yard(6), random_yard(11)]


def sentences() -> list[str]:
    """One sentence of each kind of row: what stands for any group, product or week is put in its place."""
    found = set()
    for yard in golden_yards():
        for row in model(yard)["rows"]:
            says = re.sub(r"week of \d+ [A-Z][a-z]+", "week of 4 May", row["says"])
            for names, one in ((yard["groups"], "front"), (yard["products"], "green")):
                for name in names:
                    says = re.sub(rf"(?<![\w-]){name['id']}(?![\w-])", one, says)
            found.add(f"{row['name'].split('|')[0]}: {says}")
    return sorted(found)


def test_every_row_reads_as_the_sentence_kept_for_it() -> None:
    """Written anew where sentences are meant to change: what differs is to be read."""
    told = sentences()
    assert told == GOLDEN.read_text(encoding="utf-8").splitlines()
    kinds = {"path", "room", "locked", "once", "evenings", "minutes", "link", "bags", "spend", "sowing", "aerated"}
    kinds |= {"young", "pre", "quick", "all", "year", "interval", "lime", "worn"}
    assert {one.split(":")[0] for one in told} == kinds
    for one in told:
        assert one.endswith(".")
        assert len(one.split()) >= 7


def test_the_search_stops_when_told_to_and_keeps_what_it_has() -> None:
    yard = random_yard(7)
    built = call("season.build", yard)["value"]
    heard: list[tuple[float, float, float]] = []

    def told(seconds: float, cost: float, bound: float) -> bool:
        heard.append((seconds, cost, bound))
        return False

    found = solve(built["model"], built["start"], gap_share=0.0, told=told)
    assert found.state in ("best", "stopped")
    assert keeps(built["model"], found.values)


@pytest.mark.parametrize("yard", [random_yard(58), *(small(seed) for seed in range(12))])
def test_a_start_changes_no_best_plan(yard: Json) -> None:
    """HiGHS 1.16 takes the start of the first of these for a cheaper plan than it is, and looks for no better one."""
    built = call("season.build", yard)["value"]
    with_start = solve(built["model"], built["start"], gap_share=0.0)
    without = solve(built["model"], gap_share=0.0)
    assert with_start.cost == pytest.approx(without.cost, rel=1e-6, abs=1e-6)
    assert cost_of(built["model"], with_start.values) == pytest.approx(with_start.cost, rel=1e-6, abs=1e-6)


def test_a_model_of_nothing_is_solved() -> None:
    nothing: dict[str, Any] = {"columns": [], "rows": []}
    assert solve(nothing).cost == 0.0
