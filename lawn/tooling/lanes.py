"""The quick lane: what reads the code and what proves its parts, without browsers and without a running server.

Each part is a program of its own that takes about one core, so that as many run at once as there are cores.
"""

import os
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from concurrent.futures import ThreadPoolExecutor, as_completed
from dataclasses import dataclass
from pathlib import Path

from lawn.tooling import nodejs
from lawn.tooling.build import FRONTEND, ROOT

FOLDERS = ("engine", "handbook", "units", "domain", "parity")
FILES = ("api/test_schema.py", "quality/test_lanes.py", "quality/test_tree.py")
# What tsc found of each file, told by the file's content; mypy and ruff keep theirs in .mypy_cache and .ruff_cache.
TYPES = "node_modules/.cache/types.tsbuildinfo"


@dataclass(frozen=True)
class Part:
    """One program of the lane."""

    name: str
    command: tuple[str, ...]
    folder: Path = ROOT


@dataclass(frozen=True)
class Outcome:
    """How a part ended."""

    part: Part
    passed: bool
    seconds: float
    words: str


def python(name: str, *arguments: str) -> Part:
    """A module of this Python's."""
    return Part(name, (sys.executable, "-m", *arguments))


def node(name: str, program: str, *arguments: str) -> Part:
    """A program the front end depends on."""
    return Part(name, (nodejs.node(), f"node_modules/{program}", *arguments), FRONTEND)


def linters() -> list[Part]:
    """What reads the code and runs none of it."""
    return [
        python("mypy", "mypy"),
        node("tsc", "typescript/bin/tsc", "--noEmit", "--incremental", "--tsBuildInfoFile", TYPES),
        node("biome", "@biomejs/biome/bin/biome", "check", "--error-on-warnings"),
        python("ruff", "ruff", "check", "."),
        python("ruff format", "ruff", "format", "--check", "."),
    ]


def quick() -> list[Part]:
    """Every part of the quick lane, the longest first."""
    tests = [f"tests/{name}" for name in (*FOLDERS, *FILES)]
    return [_vitest("1/2"), _vitest("2/2"), python("pytest", "pytest", "-q", "-n", "0", *tests), *linters()]


def _vitest(half: str) -> Part:
    options = ("--reporter=dot", "--maxWorkers=1", f"--shard={half}")
    return node(f"vitest {half}", "vitest/vitest.mjs", "run", *options)


def run(part: Part) -> Outcome:
    """Run one part to its end."""
    began = time.monotonic()
    done = subprocess.run(
        part.command,
        cwd=part.folder,
        env=_environment(),
        stdin=subprocess.DEVNULL,
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        text=True,
        check=False,
    )
    return Outcome(part, done.returncode == 0, time.monotonic() - began, done.stdout)


def _environment() -> dict[str, str]:
    """No settings of this process's own: pytest and mypy choose theirs."""
    kept = {name: value for name, value in nodejs.environment().items() if not name.startswith("PYTEST_")}
    kept.pop("DJANGO_SETTINGS_MODULE", None)
    return kept


def outcomes(parts: list[Part], jobs: int | None = None) -> Iterator[Outcome]:
    """Run them, as many at once as there are cores; each as it ends."""
    pool = ThreadPoolExecutor(jobs or os.cpu_count() or 1)
    try:
        for ended in as_completed([pool.submit(run, part) for part in parts]):
            yield ended.result()
    finally:
        pool.shutdown(cancel_futures=True)  # Ctrl+C reaches the programs that run; no other begins


def tell(parts: list[Part], say: Callable[[str], None], jobs: int | None = None) -> list[str]:
    """Run the parts and say how each ended, with its own words where it failed; the names of those that did."""
    failed = []
    for outcome in outcomes(parts, jobs):
        say(f"{'passed' if outcome.passed else 'FAILED'} {outcome.seconds:6.1f} s  {outcome.part.name}")
        if not outcome.passed:
            failed.append(outcome.part.name)
            say(outcome.words)
    return failed
