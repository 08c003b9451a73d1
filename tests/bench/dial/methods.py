"""Four ways to set a dial, asked alike: the trade's rule of thumb, one fixed curve, an oracle, and ours.

A mind is what a method knows when a pass begins. It names a click for the pass, and once part of the pass has been
measured, for the rest of it. Amounts are per area of ground [kg/m2].
"""

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Protocol

from tests.bench.dial.households import Household
from tests.bench.dial.truths import Product

LEAST_KG_M2 = 1e-6
LEAST_SD = 0.01  # relative error of any weighing
THIS_PASS = Product("this pass", "medium", 1.6, 780.0, 0.0)
ONE_THIRD = 3  # the trade's first setting: one-third open (common practice; onethird)
FIXED_DEAD_ZONE, FIXED_EXPONENT, FIXED_LEAST_GAP = 0.075, 1.75, 0.02  # the middle of what real ports do (spreading.md)


@dataclass(frozen=True)
class Record:
    """A past pass, or part of one, as the household could measure it; amounts over the whole ground."""

    product: Product
    click: int
    used_kg_m2: float  # 0 where nothing came out
    ground: float  # share of the ground it covered
    left_kg_m2: float  # what was left after it
    relative_sd: float
    ran_out: bool = False

    @property
    def rate_kg_m2(self) -> float:
        """What it put down where it was walked."""
        return self.used_kg_m2 / self.ground


@dataclass(frozen=True)
class Part:
    """What the first part of a pass has shown; amounts over the whole ground."""

    click: int
    used_kg_m2: float
    ground: float
    now_kg_m2: float  # what there is now
    now_sd_kg_m2: float

    @property
    def rate_kg_m2(self) -> float:
        """What it put down where it was walked."""
        return self.used_kg_m2 / self.ground

    @property
    def relative_sd(self) -> float:
        """Likely error of that."""
        return max(LEAST_SD, self.now_sd_kg_m2 / max(self.used_kg_m2, LEAST_KG_M2))


@dataclass(frozen=True)
class Choice:
    """A click, 0 to leave it closed, and what the method says it will put down (90 %), if it says so."""

    click: int
    low_kg_m2: float | None = None
    high_kg_m2: float | None = None

    def holds(self, rate_kg_m2: float) -> bool | None:
        """Whether a rate is in the range given; None where none was."""
        if self.low_kg_m2 is None or self.high_kg_m2 is None:
            return None
        return self.low_kg_m2 <= rate_kg_m2 <= self.high_kg_m2


class Mind(Protocol):
    """A method about to walk a pass."""

    def choose(self, load_kg_m2: float, passes_to_go: int, *, first: bool) -> Choice:
        """What to walk with, for a load over the ground of a pass; `first` of the application."""

    def rest(self, part: Part, missing_kg_m2: float, passes_to_go: int) -> int:
        """The click for the rest of this pass, once its first part has been measured and the rest lacks so much."""


# Household, product, what was measured so far, the aim of all passes together [kg/m2].
Maker = Callable[[Household, Product, Sequence[Record], float], Mind]


@dataclass(frozen=True)
class Scaling:
    """By the nearest past pass of the same product: in proportion, or along the fixed curve."""

    clicks: int
    known: tuple[Record, ...]  # of this product, oldest first
    along_curve: bool

    def choose(self, load_kg_m2: float, passes_to_go: int, *, first: bool) -> Choice:
        """One-third open where nothing is known, else a past setting scaled to this pass's share of the load."""
        del first
        return Choice(self._click(load_kg_m2 / passes_to_go))

    def _click(self, wanted_kg_m2: float) -> int:
        if not self.known:
            return max(1, round(self.clicks / ONE_THIRD))
        flowing = [one for one in self.known if one.rate_kg_m2 > 0.0]
        if not flowing:
            return min(self.clicks, max(one.click for one in self.known) + 1)
        best = min(flowing, key=lambda one: abs(math.log(one.rate_kg_m2 / wanted_kg_m2)))
        opening = self._scaled(best.click / self.clicks, wanted_kg_m2 / best.rate_kg_m2)
        return max(1, min(self.clicks, round(opening * self.clicks)))

    def _scaled(self, opening: float, ratio: float) -> float:
        if not self.along_curve:
            return opening * ratio
        gap = max(opening - FIXED_DEAD_ZONE, FIXED_LEAST_GAP)
        return float(FIXED_DEAD_ZONE + gap * ratio ** (1.0 / FIXED_EXPONENT))

    def rest(self, part: Part, missing_kg_m2: float, passes_to_go: int) -> int:
        """The same scaling from this pass's own first part."""
        seen = Record(THIS_PASS, part.click, part.used_kg_m2, part.ground, part.now_kg_m2, part.relative_sd)
        load = min(missing_kg_m2, part.now_kg_m2 / (1.0 - part.ground))
        return Scaling(self.clicks, (seen,), self.along_curve)._click(load / passes_to_go)


def rule_of_thumb(household: Household, product: Product, history: Sequence[Record], target_kg_m2: float) -> Mind:
    """The trade's way: one-third open, then in proportion to what came out."""
    del target_kg_m2
    return Scaling(household.clicks, _of(product, history), along_curve=False)


def fixed_curve(household: Household, product: Product, history: Sequence[Record], target_kg_m2: float) -> Mind:
    """The same along one curve for every spreader."""
    del target_kg_m2
    return Scaling(household.clicks, _of(product, history), along_curve=True)


def _of(product: Product, history: Sequence[Record]) -> tuple[Record, ...]:
    return tuple(one for one in history if one.product.name == product.name)
