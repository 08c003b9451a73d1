"""Each tool that reads the code finds nothing: linters, type checkers, the front end's own tests."""

import json
import re
import subprocess
from pathlib import Path

import pytest

from lawn.tooling import lanes, nodejs
from lawn.tooling.build import FRONTEND


def run(command: list[str], folder: Path) -> None:
    """Run a tool; when it finds something, show its own words."""
    done = subprocess.run(command, cwd=folder, env=nodejs.environment(), capture_output=True, text=True, check=False)
    assert done.returncode == 0, f"{' '.join(command)}\n{done.stdout[-6000:]}\n{done.stderr[-3000:]}"


def node_tool(name: str) -> list[str]:
    """The command of a Node program that the front end depends on."""
    return [nodejs.node(), f"node_modules/{name}"]


TOOLS = {part.name: part for part in lanes.linters()}


@pytest.mark.parametrize("name", TOOLS)
def test_a_tool_that_reads_the_code_finds_nothing(name: str, node_modules: Path) -> None:
    outcome = lanes.run(TOOLS[name])
    assert outcome.passed, f"{' '.join(outcome.part.command)}\n{outcome.words[-9000:]}"


def test_the_front_ends_own_tests_pass(node_modules: Path) -> None:
    run([*node_tool("vitest/vitest.mjs"), "run"], node_modules)


def test_any_is_refused_but_in_the_files_that_still_hold_one() -> None:
    """No new file joins them (biome refuses it), and one that holds none any more leaves the list."""
    rules = json.loads((FRONTEND / "biome.json").read_text())
    (left,) = rules["overrides"]
    assert rules["linter"]["rules"]["suspicious"]["noExplicitAny"] == "error"
    assert len(left["includes"]) <= 44
    assert [name for name in left["includes"] if not re.search(r"\bany\b", (FRONTEND / name).read_text())] == []
    assert not re.search(r"[:<|] ?any\b", (FRONTEND / "src/platform/api.d.ts").read_text())
