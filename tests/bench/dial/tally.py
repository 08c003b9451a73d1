"""Figures of a group of applications, all in percent."""

from collections.abc import Sequence
from dataclasses import dataclass

from tests.bench.dial.run import Row

FIRST_OF_OTHER = 6


@dataclass(frozen=True)
class Tally:
    """What a method did over a group of applications; shares of applications unless said otherwise."""

    count: int
    mean: float  # mean error
    p90: float  # nine in ten applications were no further off
    early: float  # load gone in a pass that was not the last
    short2: float  # last pass ran out short by more than 2, 5, 10 % of the ground
    short5: float
    short10: float
    bare: float  # of the ground: got nothing at all
    inside: float  # of clean passes: inside the 90 % interval; NaN where nothing is claimed
    inside_all: float  # the same, clogged and damp passes too


def tally(rows: Sequence[Row]) -> Tally:
    """Add a group up."""
    ends = [row.done for row in rows]
    claims = [claim for end in ends for claim in end.claims]
    clean = [claim for claim in claims if claim.clean]
    return Tally(
        len(ends),
        _mean([end.error for end in ends]),
        100 * percentile([end.error for end in ends], 0.9),
        _mean([end.empty_early for end in ends]),
        _mean([end.short_share > 0.02 for end in ends]),
        _mean([end.short_share > 0.05 for end in ends]),
        _mean([end.short_share > 0.10 for end in ends]),
        _mean([end.bare_share for end in ends]),
        _mean([claim.inside for claim in clean]),
        _mean([claim.inside for claim in claims]),
    )


def _mean(values: Sequence[float]) -> float:
    return 100 * sum(values) / len(values) if values else float("nan")


def percentile(values: Sequence[float], share: float) -> float:
    """The value that a share of all are no greater than."""
    ordered = sorted(values)
    return ordered[min(len(ordered) - 1, int(share * len(ordered)))]


def later(row: Row) -> bool:
    """Whether the pair of spreader and product was known: the second to the fifth application."""
    return 1 < row.application < FIRST_OF_OTHER
