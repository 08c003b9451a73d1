"""Each tool that reads the code finds nothing: linters, type checkers, the front end's own tests."""

import subprocess
from pathlib import Path

import pytest

from lawn.tooling import lanes, nodejs


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
