"""Phone and server find plans of the same cost: npm's HiGHS in WebAssembly as the phone asks it, PyPI's natively."""

import json
import subprocess
from pathlib import Path

import pytest

from lawn.engine.door import call
from lawn.planning.solver import solve
from lawn.tooling import nodejs
from lawn.tooling.build import ROOT
from tests.properties.season.yards import Json, random_yard, small

SMALL, LARGER = range(0, 80, 2), range(0, 30, 3)
GAP = 0.01


def models() -> list[Json]:
    """Fifty yards: forty solved to the end, ten as well as one percent."""
    yards = [(small(seed), 0.0) for seed in SMALL] + [(random_yard(seed), GAP) for seed in LARGER]
    built = [(call("season.build", yard)["value"], gap) for yard, gap in yards]
    return [{"model": one["model"], "start": one["start"], "gap": gap} for one, gap in built]


def on_the_phone(asked: list[Json]) -> list[Json]:
    lines = "\n".join(json.dumps(one) for one in asked)
    command = [nodejs.node(), "tools/solver/costs.mjs"]
    done = subprocess.run(
        command,
        cwd=ROOT / "frontend",
        input=lines,
        env=nodejs.environment(),
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 0, done.stderr[-3000:]
    return [json.loads(line) for line in done.stdout.splitlines()]


def test_a_season_costs_the_same_planned_on_the_phone_and_on_the_server(node_modules: Path) -> None:
    asked = models()
    assert len(asked) == 50
    found = on_the_phone(asked)
    for one, mine in zip(asked, found, strict=True):
        theirs = solve(one["model"], one["start"], gap_share=one["gap"])
        assert mine["status"] == "solved"
        assert theirs.state == "best"
        # No plan of the one costs less than the other says that any could.
        assert theirs.cost is not None
        assert theirs.bound is not None
        for cost, bound in ((mine["cost"], theirs.bound), (theirs.cost, mine["bound"])):
            assert cost >= bound - 1e-6 * max(1.0, abs(bound))
        assert mine["cost"] == pytest.approx(theirs.cost, rel=one["gap"] + 1e-6, abs=1e-6)
