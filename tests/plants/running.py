"""Running named tests in a copy, and saying what became of a planted fault."""

import json
import os
import re
import signal
import subprocess
import sys
import time
from collections.abc import Iterable, Iterator, Sequence
from concurrent.futures import ThreadPoolExecutor
from contextlib import ExitStack
from dataclasses import dataclass
from pathlib import Path
from queue import SimpleQueue
from xml.etree import ElementTree

from lawn.tooling import nodejs
from tests.plants.fault import Named, Planted
from tests.plants.tree import Tree, copied

# For each test of a run: far more than any needs on a busy machine.
_LONGEST_S = 240
# A fault that does not even run is none: these are said by the languages, not by a test.
_NOT_RUN = re.compile(r"\b(SyntaxError|NameError|ImportError|ModuleNotFoundError|IndentationError|ReferenceError)\b")
_TOO_LONG = re.compile(r"Test timed out in \d+ms")
_OF_MIGRATED_TABLES = "tests/operations/"  # a backup names the migrations it was made under
_PLACE = re.compile(r"%[a-z]|\$\w+")


@dataclass(frozen=True)
class Run:
    """What a run of one or more named tests came to: "passed", "failed" or why it is neither."""

    how: str
    words: str = ""


@dataclass(frozen=True)
class Outcome:
    """What became of one planted fault."""

    plant: Planted
    runs: tuple[Run, ...]
    seconds: float

    @property
    def caught(self) -> bool:
        """Whether every named test failed, as tests fail."""
        return all(run.how == "failed" for run in self.runs)

    def __str__(self) -> str:
        """The line of the table."""
        how = "caught  " if self.caught else "SURVIVED"
        words = [f"{test}" if run.how == "failed" else f"{test}: {run.how}" for test, run in self._pairs()]
        return f"{how}  {self.plant.name:<38} {self.seconds:5.1f} s  {'; '.join(words)}"

    def _pairs(self) -> Iterator[tuple[Named, Run]]:
        return zip(self.plant.by, self.runs, strict=True)


def run(tree: Tree, tests: Sequence[Named]) -> Run:
    """Run tests of one language together in a copy."""
    return _pytest(tree, tests) if tests[0].is_python else _vitest(tree, tests)


def _pytest(tree: Tree, tests: Sequence[Named]) -> Run:
    report = tree.root / "plants-report.xml"
    report.unlink(missing_ok=True)
    names = [str(test) for test in tests]
    options = ["-q", "-x", "-p", "no:cacheprovider", "--tb=short", f"--junitxml={report}"]
    # Tables straight from the models where the tests allow it: migrating takes most of a short run.
    if not any(test.file.startswith(_OF_MIGRATED_TABLES) for test in tests):
        options.append("--no-migrations")
    ended = _ended([sys.executable, "-m", "pytest", *names, *options], tree.root, _LONGEST_S * len(tests))
    cases = list(ElementTree.parse(report).getroot().iter("testcase")) if report.is_file() else []
    failed = ["".join(found.itertext()) + found.get("message", "") for case in cases for found in case.iter("failure")]
    errors = [case for case in cases if case.find("error") is not None]
    return _said(ended, failed, 0 if errors else len(cases))


def _vitest(tree: Tree, tests: Sequence[Named]) -> Run:
    report = tree.root / "plants-report.json"
    report.unlink(missing_ok=True)
    files = sorted({test.file.removeprefix("frontend/") for test in tests})
    wanted = "|".join(".*".join(re.escape(part) for part in _PLACE.split(test.title)) for test in tests)
    options = ["-t", wanted, "--reporter=json", f"--outputFile={report}"]
    command = [nodejs.node(), "node_modules/vitest/vitest.mjs", "run", *files, *options]
    ended = _ended(command, tree.root / "frontend", _LONGEST_S * len(tests))
    said = json.loads(report.read_text(encoding="utf-8")) if report.is_file() else {"testResults": []}
    cases = [case for file in said["testResults"] for case in file["assertionResults"]]
    ran = [case for case in cases if case["status"] in ("passed", "failed")]
    failed = ["\n".join(case["failureMessages"]) for case in ran if case["status"] == "failed"]
    return _said(ended, failed, len(ran))


def _said(ended: tuple[int | None, str], failed: list[str], ran: int) -> Run:
    code, words = ended
    if code is None:
        return Run("did not end", words)
    if ran == 0:
        return Run("did not run", words)
    if code == 0 and not failed:
        return Run("passed", words)
    if code != 1 or not failed:
        return Run(f"ended with {code} and no failed test", words)
    if broken := next((found[0] for text in failed if (found := _NOT_RUN.search(text))), None):
        return Run(f"the fault does not run ({broken})", words)
    return Run("took too long", words) if all(map(_TOO_LONG.search, failed)) else Run("failed", words)


def _ended(command: list[str], folder: Path, longest_s: float) -> tuple[int | None, str]:
    """Run to the end; return the code, None where it had to be ended, and the last words."""
    surroundings = nodejs.environment()
    for name in ("DJANGO_SETTINGS_MODULE", "PYTHONPATH", "PYTEST_ADDOPTS", "PYTEST_CURRENT_TEST"):
        surroundings.pop(name, None)
    pipe = subprocess.PIPE
    with subprocess.Popen(
        command, cwd=folder, env=surroundings, stdout=pipe, stderr=subprocess.STDOUT, text=True, start_new_session=True
    ) as process:
        try:
            said, _ = process.communicate(timeout=longest_s)
        except subprocess.TimeoutExpired:
            os.killpg(process.pid, signal.SIGKILL)
            said, _ = process.communicate()
            return None, said[-4000:]
    return process.returncode, said[-4000:]


def planted(tree: Tree, plant: Planted) -> Outcome:
    """Plant one fault in a copy and run what must catch it."""
    began = time.monotonic()
    with tree.planted(plant):
        runs = tuple(run(tree, [test]) for test in plant.by)
    return Outcome(plant, runs, time.monotonic() - began)


def unplanted(tree: Tree, plants: Iterable[Planted]) -> list[Run]:
    """Run the named tests of many faults without any: a test that fails anyway catches nothing."""
    named = list(dict.fromkeys(test for plant in plants for test in plant.by))
    parts = [[test for test in named if test.is_python], [test for test in named if not test.is_python]]
    return [run(tree, part) for part in parts if part]


def outcomes(plants: Sequence[Planted], jobs: int) -> Iterator[Outcome]:
    """Plant one after the other, in as many copies as there are jobs; yield in the order given."""
    with ExitStack() as copies, ThreadPoolExecutor(jobs) as pool:
        free: SimpleQueue[Tree] = SimpleQueue()
        for _ in range(min(jobs, len(plants))):
            free.put(copies.enter_context(copied()))

        def one(plant: Planted) -> Outcome:
            tree = free.get()
            try:
                return planted(tree, plant)
            finally:
                free.put(tree)

        yield from pool.map(one, plants)


def without_faults(plants: Sequence[Planted]) -> list[Run]:
    """Run the named tests of these faults in a fresh copy without any."""
    with copied() as tree:
        return unplanted(tree, plants)
