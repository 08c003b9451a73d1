"""The plain model that the bench of the season lays beside ours is a fair one: it keeps its rows, it serves needs."""

import pytest

from lawn.planning.solver import cost_of, keeps, solve
from tests.bench.season import big_m
from tests.bench.season.yards import SIZES, gap_of, yard


def test_the_plain_model_finds_a_plan_that_keeps_its_rows_and_beats_doing_nothing() -> None:
    of = yard(1, 2, 8, "weekly")
    model = big_m.model(of)
    found = solve(model, None, seconds=20.0, gap_share=1e-6)
    assert found.state == "best"
    assert keeps(model, found.values)
    missed = [float(one["high"]) if one["name"].startswith("m|") else 0.0 for one in model["columns"]]
    assert keeps(model, missed)
    assert found.cost is not None
    assert found.cost < cost_of(model, missed)


def test_where_nothing_is_needed_nothing_is_bought() -> None:
    of = yard(1, 2, 8, "weekly")
    of["groups"][0]["need_n_kg_m2"] = [0.0] * 8
    assert solve(big_m.model(of), None, seconds=20.0).cost == pytest.approx(0.0, abs=1e-9)


def test_a_gap_is_of_the_cost_and_all_of_it_where_nothing_is_known() -> None:
    assert gap_of(50.0, 47.0) == pytest.approx(0.06)
    assert gap_of(None, 47.0) == gap_of(50.0, None) == 1.0
    assert [size[:3] for size in SIZES][-1] == (8, 12, 40)
