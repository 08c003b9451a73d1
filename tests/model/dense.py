"""The dial model worked out the long way: dense covariance matrices, exact mixtures, numerical integration.

Written from the design's description of the model and sharing no code with the engine, so that both can be held
against each other. Rates are in kg/m2. Every number below is the design's own (key computed) and so the engine's: that
the two agree proves the arithmetic, not that a spreader behaves so. What is held against the outside stands in
tests/handbook/test_dial.py and in the bench, whose households know nothing of the model.
"""

import math
from collections.abc import Sequence
from typing import NamedTuple

import numpy as np
from scipy import integrate, optimize, stats

EXPONENTS = [1.0, 1.2, 1.4, 1.6, 1.8, 2.0, 2.2, 2.4, 2.6]
EDGES = [-0.08, -0.04, 0.0, 0.04, 0.08]
TRAVELS_MM = [14.0, 18.0, 24.0, 34.0]
LEVEL_SD = 0.6
BAD_ODDS = 0.05 / 0.95
LEAST_GAP = 0.004


class Past(NamedTuple):
    """A past pass: its rate is 0 where nothing came."""

    product: str
    opening: float
    rate: float
    sd: float
    density: float | None = None
    granule_mm: float | None = None


class Piece(NamedTuple):
    """One grid point under one suspicion: its weight and the normal distribution of the level half open."""

    weight: float
    exponent: float
    dead: float
    half: float
    mean: float
    var: float
    bad: int


def dead_zone(edge: float, travel_mm: float, granule_mm: float) -> float:
    """Where flow begins: 1.4 granules beyond the edge, between 0 and 0.3 of the travel."""
    return min(0.3, max(0.0, edge + 1.4 * granule_mm / travel_mm))


def offset(density: float | None, granule_mm: float | None) -> tuple[float, float]:
    """Mean and variance of a product's offset before any pass."""
    unsure = 0.0 if granule_mm is not None else 0.25**2
    if density is None:
        return 0.0, 0.25**2 + unsure
    return math.log(density / 780.0), 0.15**2 + unsure


def posterior(passes: Sequence[Past], own: Past, pass_sd: float = 0.09) -> list[Piece]:
    """Every grid point under every suspicion; `own` says which product is asked about (its rate is not used)."""
    flowing = [one for one in passes if one.rate > 0]
    suspects = [-1, *range(len(flowing))] if len(flowing) >= 3 else [-1]
    pieces: list[Piece] = []
    heights: list[float] = []
    for edge in EDGES:
        for travel in TRAVELS_MM:
            for n in EXPONENTS:
                for bad in suspects:
                    height, piece = _piece(flowing, own, pass_sd, (edge, travel, n, bad))
                    closed = piece.dead
                    for one in passes:
                        wider = (one.granule_mm or 1.6) - (own.granule_mm or 1.6)
                        if one.rate <= 0 and one.opening > closed + 1.4 * wider / 21.0:
                            height += math.log(0.03)
                    heights.append(height)
                    pieces.append(piece)
    weights = np.exp(np.array(heights) - max(heights))
    weights /= weights.sum()
    return [piece._replace(weight=float(weight)) for piece, weight in zip(pieces, weights, strict=True)]


def _piece(flowing: list[Past], own: Past, pass_sd: float, at: tuple[float, float, float, int]) -> tuple[float, Piece]:
    """The log likelihood of one hypothesis and what it says of the level, by conditioning one joint normal."""
    edge, travel, n, bad = at
    half = 0.5 - dead_zone(edge, travel, 2.0)
    own_mean, own_var = offset(own.density, own.granule_mm)
    size = len(flowing)
    mean, cov = np.zeros(size), np.full((size, size), LEVEL_SD**2)
    reach = np.full(size, LEVEL_SD**2)
    for i, one in enumerate(flowing):
        gap = max(one.opening - dead_zone(edge, travel, one.granule_mm or 1.6), LEAST_GAP)
        shift, var = offset(one.density, one.granule_mm)
        mean[i] = math.log(0.025) + shift + n * math.log(gap / half) + (-0.45 if i == bad else 0.0)
        cov[i, i] += pass_sd**2 + one.sd**2 + (0.35**2 if i == bad else 0.0)
        for j, other in enumerate(flowing):
            cov[i, j] += var if one.product == other.product else 0.0
        reach[i] += var if one.product == own.product else 0.0
    level, level_var = math.log(0.025) + own_mean, LEVEL_SD**2 + own_var
    height = math.log(BAD_ODDS) if bad >= 0 else 0.0
    if size:
        seen = np.array([math.log(one.rate) for one in flowing])
        height += float(stats.multivariate_normal(mean, cov).logpdf(seen))
        gain = np.linalg.solve(cov, reach)
        level += float(gain @ (seen - mean))
        level_var -= float(gain @ reach)
    dead = dead_zone(edge, travel, own.granule_mm or 1.6)
    return height, Piece(0.0, n, dead, half, level, level_var, bad)


class Falls:
    """What one opening puts down in a pass: an exact mixture of lognormal rates and of nothing at all."""

    def __init__(self, pieces: Sequence[Piece], opening: float, pass_sd: float = 0.09) -> None:
        """Keep weight, mean and sd of log rate of every piece that flows."""
        rows = [
            (p.weight, p.mean + p.exponent * math.log((opening - p.dead) / p.half), math.sqrt(p.var + pass_sd**2))
            for p in pieces
            if opening > p.dead
        ]
        table = np.array(rows).reshape(-1, 3)
        self.weight, self.mean, self.sd = table[:, 0], table[:, 1], table[:, 2]
        self.closed = 1.0 - float(self.weight.sum())

    def below(self, rate: float) -> float:
        """Chance of at most this rate."""
        return self.closed + float(self.weight @ stats.norm.cdf((math.log(rate) - self.mean) / self.sd))

    def quantile(self, chance: float) -> float:
        """Rate not exceeded with this chance."""
        if self.below(1e-30) >= chance:
            return 0.0
        found = optimize.brentq(lambda log: self.below(math.exp(log)) - chance, -40.0, 10.0, xtol=1e-13)
        return math.exp(float(found))

    def loss(self, left: float) -> float:
        """Expected loss of a last pass by numerical integration: short costs what is missing, empty the bare stripe."""

        def density(log: float) -> float:
            return float(self.weight @ stats.norm.pdf(log, self.mean, self.sd))

        end = math.log(left)
        short = integrate.quad(lambda x: (left - math.exp(x)) * density(x), end - 12.0, end, limit=400, epsabs=1e-12)[0]
        over = integrate.quad(
            lambda x: 2.0 * left * (1.0 - left * math.exp(-x)) * density(x), end, end + 6.0, limit=400, epsabs=1e-12
        )[0]
        return self.closed * left + float(short) + float(over)


def bad_chances(pieces: Sequence[Piece], count: int) -> list[float]:
    """Chance of each flowing pass of having been bad, of hypotheses before what never flowed is weighed."""
    found = [0.0] * count
    for piece in pieces:
        if piece.bad >= 0:
            found[piece.bad] += piece.weight
    return found
