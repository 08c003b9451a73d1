"""Each tool that reads the code finds nothing: linters, type checkers, the front end's own tests."""

import subprocess
import sys
from pathlib import Path

from lawn.tooling import build, nodejs


def run(command: list[str], folder: Path) -> None:
    """Run a tool; when it finds something, show its own words."""
    done = subprocess.run(command, cwd=folder, env=nodejs.environment(), capture_output=True, text=True, check=False)
    assert done.returncode == 0, f"{' '.join(command)}\n{done.stdout[-6000:]}\n{done.stderr[-3000:]}"


def node_tool(name: str) -> list[str]:
    """The command of a Node program that the front end depends on."""
    return [nodejs.node(), f"node_modules/{name}"]


def test_ruff_finds_nothing_to_mend() -> None:
    run([sys.executable, "-m", "ruff", "check", "."], build.ROOT)


def test_ruff_would_format_nothing_anew() -> None:
    run([sys.executable, "-m", "ruff", "format", "--check", "."], build.ROOT)


def test_mypy_strict_finds_no_error() -> None:
    run([sys.executable, "-m", "mypy"], build.ROOT)


def test_typescript_strict_finds_no_error(node_modules: Path) -> None:
    run([*node_tool("typescript/bin/tsc"), "--noEmit"], node_modules)


def test_biome_finds_nothing_to_mend(node_modules: Path) -> None:
    run([*node_tool("@biomejs/biome/bin/biome"), "check", "--error-on-warnings"], node_modules)


def test_the_front_ends_own_tests_pass(node_modules: Path) -> None:
    run([*node_tool("vitest/vitest.mjs"), "run"], node_modules)
