"""Simulated households: some hundreds of seeds in every run of the suite, and those that failed once for ever."""

from collections.abc import Iterator

import pytest

from tests.simulation.batch import Sum, twice
from tests.simulation.phones import Phones
from tests.simulation.pinned import PINNED

SEEDS = range(150)


@pytest.fixture(scope="module")
def phones(node_modules: object) -> Iterator[Phones]:
    """The phones' half, started once."""
    with Phones() as started:
        yield started


def test_p1_p2_p4_seeds_lose_nothing_double_nothing_and_converge(phones: Phones) -> None:
    total, faults = Sum(), []
    for seed in SEEDS:
        outcome = twice(seed, phones)
        total.add(outcome)
        faults += [f"seed {seed}: {fault}" for fault in outcome.faults]
    assert faults == []
    assert (total.lost, total.doubled, total.converged) == (0, 0, len(SEEDS))
    # The lives were worth living: writes met, were set aside, and some storage was lost with what was in it.
    assert min(total.conflicts, total.parked, total.gone) > 0


@pytest.mark.parametrize("seed", PINNED)
def test_a_seed_that_failed_once_does_not_fail_again(seed: int, phones: Phones) -> None:
    outcome = twice(seed, phones)
    assert (outcome.faults, outcome.lost, outcome.doubled, outcome.converged) == ([], 0, 0, True)
