"""What each click of a dial may put down: mixtures of normal distributions of log rate (kg/m2), made from a posterior.

Click 0 is closed. All amounts are per area (kg/m2).
"""

import math
from collections import namedtuple

from lawn.engine.dial.posterior import Posterior

SQRT_HALF = math.sqrt(0.5)
SQRT_TAU = math.sqrt(2.0 * math.pi)
MERGE_WIDTH = 0.8  # normals less than this share of the narrowest one's sd apart are joined
LEAST_VAR = 1e-9
LEAST_OPEN = 1e-9  # beyond the dead zone, so that the last bit of an opening decides nothing
ALIKE = 0.5  # normals whose variances differ by more than about this, in logarithms, are not joined
SORT_APART = 1000000  # sorts of width are kept apart by more steps than any two curves lie apart
FAR = 7.0  # sds beyond which a normal's tail is nothing
NEWTON_ENDS = 1e-8  # the step after this small one would be some 1e-15


def normal_cdf(z: float) -> float:
    """Chance that a standard normal number lies below z."""
    if z < -FAR:
        return 0.0
    if z > FAR:
        return 1.0
    chance: float = 0.5 * (1.0 + math.erf(z * SQRT_HALF))
    return chance


# Curves that share a dead zone: weight, base, exponent and variance of each, in steps; and of all together the sums of
# weight, base, exponent, base squared, base x exponent, exponent squared, and variance, each times weight.
Group = namedtuple("Group", ("dead_zone", "curves", "sums"))


class Predictive:
    """What each click of a dial may put down: mixtures of log rate, worked out once a click."""

    def __init__(
        self, *, parts: list[tuple[float, float, float, float, float]], openings: list[float], pass_var: float
    ) -> None:
        """Keep weight, base, exponent, dead zone and sd of every curve; openings[c] is click c's share of travel."""
        self.clicks = len(openings) - 1
        self.openings = openings
        self.parts = parts
        self.pass_var = pass_var  # in the sds of these parts
        self.next_var = pass_var  # of a pass after this one
        self.width = MERGE_WIDTH * min([part[4] for part in parts])
        self.groups = _grouped(parts, self.width)
        self._rows: dict[int, tuple[float, list[tuple[float, float, float]]]] = {}
        self._moments: dict[int, tuple[float, float]] = {}
        self._reaches: dict[int, list[float]] = {}
        self.guesses: dict[float, float] = {}  # where a quantile last lay, in sds from the mean

    def dead(self, click: int) -> float:
        """Chance that nothing flows at all."""
        closed = 0.0
        for group in self.groups:
            if self.openings[click] <= group.dead_zone + LEAST_OPEN:
                closed += group.sums[0]
        return closed

    def rows(self, click: int) -> tuple[float, list[tuple[float, float, float]]]:
        """Chance that nothing flows at all; weight, mean and sd of log rate of the curves that flow."""
        found = self._rows.get(click)
        if found is None:
            found = (self.dead(click), self._merged(click))
            self._rows[click] = found
        return found

    def moments(self, click: int) -> tuple[float, float]:
        """Mean and variance of a click's log rate where it flows, the pass's own noise included."""
        found = self._moments.get(click)
        if found is None:
            whole = first = second = 0.0
            reaches = self._reach(click)
            for place, reach in enumerate(reaches):
                weight, base, exponent, base2, both, exponent2, var = self.groups[place].sums
                whole += weight
                first += base + exponent * reach
                second += base2 + (2.0 * both + exponent2 * reach) * reach + var
            if whole <= 0.0:
                return -100.0, 1.0
            mean = first / whole
            found = (mean, max(second / whole - mean * mean, LEAST_VAR))
            self._moments[click] = found
        return found

    def covariance(self, click: int, other: int) -> float:
        """How two clicks' log rates vary together over the curves, one pass's own noise left out."""
        here, there = self._reach(click), self._reach(other)
        whole = first = second = together = 0.0
        for place in range(min(len(here), len(there))):
            weight, base, exponent, base2, both, exponent2, var = self.groups[place].sums
            one, two = here[place], there[place]
            whole += weight
            first += base + exponent * one
            second += base + exponent * two
            together += base2 + both * (one + two) + exponent2 * one * two + var
        if whole <= 0.0:
            return 0.0
        mean, mean_other = self.moments(click)[0], self.moments(other)[0]
        together += mean * mean_other * whole - mean_other * first - mean * second
        return together / whole - self.pass_var

    def _reach(self, click: int) -> list[float]:
        """Logarithm of the opening beyond the dead zone, for the groups that flow: those of the lowest dead zones."""
        found = self._reaches.get(click)
        if found is None:
            opening = self.openings[click]
            found = [
                math.log(opening - group.dead_zone) for group in self.groups if opening > group.dead_zone + LEAST_OPEN
            ]
            self._reaches[click] = found
        return found

    def _merged(self, click: int) -> list[tuple[float, float, float]]:
        """Join normals far closer than they are wide and about as wide; weight, mean and variance are kept exactly.

        Log rates are counted in steps of the width here; the curves are kept so already.
        """
        floor = math.floor
        bins: dict[int, list[float]] = {}
        for place, reach in enumerate(self._reach(click)):
            for weight, base, slope, var, sort in self.groups[place].curves:
                mean = base + slope * reach
                at = floor(mean)
                beyond = mean - at
                found = bins.get(at + sort)
                if found is None:
                    bins[at + sort] = [weight, weight * beyond, weight * (beyond * beyond + var), at]
                else:
                    found[0] += weight
                    found[1] += weight * beyond
                    found[2] += weight * (beyond * beyond + var)
        return [self._joined(bins[at]) for at in sorted(bins)]

    def _joined(self, sums: list[float]) -> tuple[float, float, float]:
        mean = sums[1] / sums[0]
        return sums[0], (sums[3] + mean) * self.width, math.sqrt(sums[2] / sums[0] - mean * mean) * self.width


def _grouped(parts: list[tuple[float, float, float, float, float]], width: float) -> list[Group]:
    """The curves by dead zone, the narrowest first; those kept one by one are counted in steps of a width."""
    found: dict[float, list[tuple[float, float, float, float]]] = {}
    for weight, base, exponent, dead_zone, sd in parts:
        if dead_zone not in found:
            found[dead_zone] = []
        found[dead_zone].append((weight, base, exponent, sd * sd))
    return [_group(dead_zone, found[dead_zone], width) for dead_zone in sorted(found)]


def _group(dead_zone: float, curves: list[tuple[float, float, float, float]], width: float) -> Group:
    steps: list[tuple[float, float, float, float, int]] = []
    for weight, base, exponent, var in curves:
        wide = var / (width * width)
        sort = SORT_APART * math.floor(math.log(wide * MERGE_WIDTH * MERGE_WIDTH) / ALIKE + 0.5)
        steps.append((weight, base / width, exponent / width, wide, sort))
    return Group(dead_zone, steps, _summed(curves))


def _summed(curves: list[tuple[float, float, float, float]]) -> tuple[float, ...]:
    whole = first = slope = square = cross = slopes = spread = 0.0
    for weight, base, exponent, var in curves:
        whole += weight
        first += weight * base
        slope += weight * exponent
        square += weight * base * base
        cross += weight * base * exponent
        slopes += weight * exponent * exponent
        spread += weight * var
    return whole, first, slope, square, cross, slopes, spread


def predictive_of(*, posterior: Posterior, openings: list[float], load_relative_sd: float = 0.0) -> Predictive:
    """What the clicks may put down in a whole pass.

    Args:
        posterior: the curves of the product [Posterior]
        openings: share of travel of every click from 0, closed, upwards [share; 0 to 1]
        load_relative_sd: likely error of what is in the hopper, over what is there [share; 0 to 1]
    Returns:
        predictive: the mixtures by click [Predictive]
    Source: computed
    """
    more = posterior.pass_var + load_relative_sd**2
    parts = [
        (one.weight, one.base, one.exponent, one.dead_zone, math.sqrt(one.level_var + more)) for one in posterior.curves
    ]
    return Predictive(parts=parts, openings=openings, pass_var=posterior.pass_var)


def chance_over(*, predictive: Predictive, click: int, rate_kg_m2: float, noise: bool = True) -> float:
    """Chance that a click puts down more than a rate; without noise, that its mean does [share; 0 to 1]."""
    if rate_kg_m2 <= 0.0:
        return 1.0
    log_rate = math.log(rate_kg_m2)
    less = 0.0 if noise else predictive.pass_var
    chance = 0.0
    for weight, mean, sd in predictive.rows(click)[1]:
        spread = sd if noise else math.sqrt(max(sd * sd - less, LEAST_VAR))
        chance += weight * normal_cdf((mean - log_rate) / spread)
    return chance


def quantile(*, predictive: Predictive, click: int, chance: float) -> float:
    """Rate below which a click stays with a given chance; 0 where it is as likely not to flow [kg/m2]."""
    dead, rows = predictive.rows(click)
    if not rows or dead >= chance:
        return 0.0
    mean, var = predictive.moments(click)
    spread = math.sqrt(var)
    low = min([row[1] - FAR * row[2] for row in rows])
    high = max([row[1] + FAR * row[2] for row in rows])
    guess = predictive.guesses.get(chance)
    if guess is None:
        guess = 4.91 * (chance**0.14 - (1.0 - chance) ** 0.14)  # near enough to begin with
    at = mean + guess * spread
    for _ in range(60):
        below, slope = _below(rows, at)
        short = chance - dead - below
        if short > 0.0:
            low = at
        else:
            high = at
        change = short / slope if slope > 1e-9 else high - low
        if low <= at + change <= high:
            at += change
        else:
            change = 0.5 * (low + high) - at
            at = 0.5 * (low + high)
        if -NEWTON_ENDS < change < NEWTON_ENDS:
            break
    predictive.guesses[chance] = (at - mean) / spread
    return math.exp(at)


def _below(rows: list[tuple[float, float, float]], at: float) -> tuple[float, float]:
    """Chance of flowing and staying below a log rate, and how fast it rises there."""
    below = slope = 0.0
    for weight, mean, sd in rows:
        z = (at - mean) / sd
        if z > FAR:
            below += weight
        elif z > -FAR:
            below += weight * (0.5 + 0.5 * math.erf(z * SQRT_HALF))
            slope += weight * math.exp(-0.5 * z * z) / sd
    return below, slope / SQRT_TAU


def last_click_within(*, predictive: Predictive, rate_kg_m2: float, chance: float, noise: bool = True) -> int:
    """Highest click whose chance of putting down more than a rate is no greater than given; 0 if none."""
    click = _guess(predictive, rate_kg_m2, chance)
    while click > 0 and chance_over(predictive=predictive, click=click, rate_kg_m2=rate_kg_m2, noise=noise) > chance:
        click -= 1
    while click < predictive.clicks:
        if chance_over(predictive=predictive, click=click + 1, rate_kg_m2=rate_kg_m2, noise=noise) > chance:
            break
        click += 1
    return click


def _guess(predictive: Predictive, rate_kg_m2: float, chance: float) -> int:
    """The same with the mixture taken as one normal: only where the search begins."""
    if rate_kg_m2 <= 0.0:
        return 0
    log_rate = math.log(rate_kg_m2)
    low, high = 0, predictive.clicks
    while low < high:
        middle = (low + high + 1) // 2
        mean, var = predictive.moments(middle)
        if (1.0 - predictive.dead(middle)) * normal_cdf((mean - log_rate) / math.sqrt(var)) <= chance:
            low = middle
        else:
            high = middle - 1
    return low


def nearest_click(*, predictive: Predictive, rate_kg_m2: float) -> int:
    """Click whose median is nearest to a rate; of two equally near the lower."""
    low = last_click_within(predictive=predictive, rate_kg_m2=rate_kg_m2, chance=0.5)
    if low >= predictive.clicks:
        return predictive.clicks
    below = quantile(predictive=predictive, click=low, chance=0.5)
    above = quantile(predictive=predictive, click=low + 1, chance=0.5)
    return low + 1 if above - rate_kg_m2 < rate_kg_m2 - below - 1e-9 * rate_kg_m2 else low


def first_flowing_click(*, predictive: Predictive, chance: float = 0.5) -> int:
    """Lowest click at which something is likelier to flow than a chance; one beyond the dial's last if none."""
    low, high = 1, predictive.clicks + 1
    while low < high:
        middle = (low + high) // 2
        flows = 0.0
        for part in predictive.parts:
            if predictive.openings[middle] > part[3] + LEAST_OPEN:
                flows += part[0]
        if flows > chance:
            high = middle
        else:
            low = middle + 1
    return low
