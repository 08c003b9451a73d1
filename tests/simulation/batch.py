"""Many seeds, each lived twice and compared, on some processes at once."""

import gc
import logging
import os
import random
import tempfile
import time
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from multiprocessing import current_process, get_context
from pathlib import Path

from tests.simulation.desk import Moment, Store, serving
from tests.simulation.life import Life
from tests.simulation.memory.shelf import Shelf
from tests.simulation.phones import Phones, bundle
from tests.simulation.verdict import Outcome

LINE_EVERY = 1000
# Python looks for rubbish in circles too often for lives this short; of what is old nothing becomes rubbish.
GARBAGE_EVERY = 25
_phones: Phones | None = None


def live(seed: int, phones: Phones, store: Store, watched: bool = True) -> Outcome:
    """Live one seed once; its outcome's `trace` is a hash of everything said between driver and phones.

    With `watched` False nothing is judged: only the trace is wanted.
    """
    phones.begin()
    if seed % GARBAGE_EVERY == 0:
        gc.collect(0)
    with serving(store, Moment(0, random.Random(seed))) as desk:
        life = Life(seed, phones, desk, watched)
        outcome = life.live()
        life.forget()
    outcome.trace = phones.trace.hexdigest()
    return outcome


def twice(seed: int, phones: Phones) -> Outcome:
    """Live one seed twice; a difference between the two is a fault of its own."""
    one, other = live(seed, phones, Shelf()), live(seed, phones, Shelf(), watched=False)
    if one.trace != other.trace:
        one.faults.append("R1 the same seed did not live the same life twice")
    return one


@dataclass
class Sum:
    """What all seeds so far came to."""

    seeds: int = 0
    failed: list[int] = field(default_factory=list)
    lost: int = 0
    doubled: int = 0
    converged: int = 0
    gone: int = 0
    ops: int = 0
    requests: int = 0
    conflicts: int = 0
    parked: int = 0
    seconds: float = 0.0

    def add(self, outcome: Outcome) -> None:
        """Take one more seed in."""
        self.seeds += 1
        self.lost += outcome.lost
        self.doubled += outcome.doubled
        self.converged += outcome.converged
        self.gone += outcome.gone
        self.ops += outcome.ops
        self.requests += outcome.requests
        self.conflicts += outcome.conflicts
        self.parked += outcome.parked
        if outcome.failed:
            self.failed.append(outcome.seed)

    def line(self) -> str:
        """Return the sum in one line."""
        share = 100 * self.converged / max(self.seeds, 1)
        return (
            f"{self.seeds} seeds: {self.lost} lost, {self.doubled} duplicated, {share:.4g} % converged, "
            f"{len(self.failed)} failed; {self.ops} ops in {self.requests} requests, {self.conflicts} conflicts, "
            f"{self.parked} parked, {self.gone} gone with their phone's storage; {self.seconds:.0f} s"
        )


def _begin(script: Path) -> None:
    global _phones
    _share_one_core()
    logging.disable(logging.CRITICAL)
    gc.freeze()
    gc.disable()
    _phones = Phones(script)


def _share_one_core() -> None:
    """Keep this process and its Node on one core: only ever one of the two has something to do."""
    if hasattr(os, "sched_setaffinity"):
        cores = sorted(os.sched_getaffinity(0))
        number = current_process()._identity[0] - 1
        os.sched_setaffinity(0, {cores[number % len(cores)]})


def _one(seed: int) -> Outcome:
    assert _phones is not None
    return twice(seed, _phones)


def outcomes(seeds: range, jobs: int) -> Iterator[Outcome]:
    """Live seeds on some processes; give their outcomes as they end."""
    with tempfile.TemporaryDirectory(prefix="evenfall-phones-") as folder:
        script = bundle(folder)

        with get_context("fork").Pool(jobs, _begin, (script,)) as pool:
            yield from pool.imap_unordered(_one, seeds, chunksize=20)


def run(seeds: range, jobs: int, say: Callable[[str], None]) -> Sum:
    """Live all seeds, saying a line for each thousand and for each failure; return the sum."""
    total, began = Sum(), time.monotonic()
    for outcome in outcomes(seeds, jobs):
        total.add(outcome)
        total.seconds = time.monotonic() - began
        if outcome.failed:
            say(f"seed {outcome.seed} failed: " + "; ".join(outcome.faults[:4]))
        if total.seeds % LINE_EVERY == 0 and total.seeds < len(seeds):
            say(total.line())
    return total
