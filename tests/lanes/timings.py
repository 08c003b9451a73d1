"""Where a run's time goes: minutes a folder, the slowest tests, and whether a folder outgrew its share.

Shares, not seconds: a crowded machine is slow in every folder alike. The seconds of all workers are added up, so the
minutes of three workers come to about three times what the clock says.
"""

import math
import time
from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass, field

import pytest

SLOWEST = 30
# The largest share of five whole runs, in percent (30 Nov 2026: one on CI's machine, 49 minutes of two workers, and
# four beside other work, 46 to 163 minutes, in the longest of which what waits for processes grew most).
MEASURED = {
    "api": 10.1,
    "bench": 1.8,
    "domain": 0.3,
    "engine": 2.1,
    "handbook": 0.1,
    "journeys": 49.7,
    "live": 30.7,
    "model": 6.9,
    "operations": 4.9,
    "parity": 3.1,
    "properties": 7.8,
    "quality": 11.7,
    "simulation": 0.8,
    "sync": 4.2,
    "units": 0.6,
}
# The most that each may take: half as much again and two points, at most a fifth more for what takes half of all. They
# add up to more than 100 on purpose: only one that really grew is named.
MOST_PERCENT = {folder: math.ceil(min(1.5 * share + 2, max(1.2 * share, 48.1))) for folder, share in MEASURED.items()}


def folder_of(test: str) -> str:
    """The folder of tests/ that a test stands in."""
    return test.split("/")[1]


@dataclass(eq=False)  # pytest keeps its plugins in sets
class Timings:
    """Seconds that each test took, with what was set up and put away around it."""

    whole: bool  # was the whole tree asked for?
    began: float = field(default_factory=time.monotonic)
    seconds: dict[str, float] = field(default_factory=lambda: defaultdict(float))

    def pytest_runtest_logreport(self, report: pytest.TestReport) -> None:
        """Add what one phase of a test took; the workers' reports come here too."""
        self.seconds[report.nodeid] += report.duration

    def folders(self) -> dict[str, float]:
        """Seconds by folder, the longest first."""
        total: dict[str, float] = defaultdict(float)
        for test, took in self.seconds.items():
            total[folder_of(test)] += took
        return dict(sorted(total.items(), key=lambda row: -row[1]))

    def outgrown(self) -> list[str]:
        """Folders of a whole run that took more than their share, each with its slowest tests."""
        total = sum(self.seconds.values()) or 1.0
        shares = {folder: 100 * took / total for folder, took in self.folders().items()}
        return [self._said(folder, share) for folder, share in shares.items() if share > MOST_PERCENT[folder]]

    def _said(self, folder: str, share: float) -> str:
        mine = [test for test in self.slowest() if folder_of(test) == folder][:5]
        rows = "".join(f"\n    {self.seconds[test]:7.1f} s  {test}" for test in mine)
        return (
            f"tests/{folder} took {share:.0f}% of the run; its budget is {MOST_PERCENT[folder]}% "
            f"(tests/lanes/timings.py). Its slowest:{rows}"
        )

    def slowest(self) -> list[str]:
        """Tests, the longest first."""
        return sorted(self.seconds, key=lambda test: -self.seconds[test])

    def pytest_sessionfinish(self, session: pytest.Session) -> None:
        """Fail a whole run in which a folder outgrew its share."""
        if self.whole and session.exitstatus == pytest.ExitCode.OK and self.outgrown():
            session.exitstatus = pytest.ExitCode.TESTS_FAILED

    def pytest_terminal_summary(self, terminalreporter: pytest.TerminalReporter) -> None:
        """Print the tables."""
        terminalreporter.section("where the time went")
        for line in self.lines():
            terminalreporter.write_line(line)

    def lines(self) -> Iterator[str]:
        """The tables, line by line."""
        total = sum(self.seconds.values()) or 1.0
        for folder, took in self.folders().items():
            yield f"{took / 60:7.1f} min {100 * took / total:5.1f}% (at most {MOST_PERCENT[folder]}%)  tests/{folder}"
        yield f"{total / 60:7.1f} min of all workers, {(time.monotonic() - self.began) / 60:.1f} min by the clock"
        yield f"The {SLOWEST} slowest:"
        for test in self.slowest()[:SLOWEST]:
            yield f"{self.seconds[test]:7.1f} s  {test}"
        if self.whole:
            yield from self.outgrown()
