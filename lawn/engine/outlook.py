"""What each click of a dial may put down: mixtures of normal distributions of log rate (kg/m2), made from a belief.

Click 0 is closed. All amounts are per area (kg/m2).
"""

import math

from lawn.engine.belief import Belief

SQRT_HALF = math.sqrt(0.5)
SQRT_TAU = math.sqrt(2.0 * math.pi)
FEW_ROWS = 12
MERGE_WIDTH = 0.4  # normals this share of their own width apart are joined
MOST_FOR_COVARIANCE = 30
CLOSED = -1e9
LEAST_VAR = 1e-9


def normal_cdf(z: float) -> float:
    """Chance that a standard normal number lies below z."""
    if z < -7.0:
        return 0.0
    if z > 7.0:
        return 1.0
    chance: float = 0.5 * (1.0 + math.erf(z * SQRT_HALF))
    return chance


class Outlook:
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
        self._rows: dict[int, tuple[float, list[tuple[float, float, float]]]] = {}
        self._moments: dict[int, tuple[float, float]] = {}
        self._offsets: dict[int, list[float]] = {}

    def rows(self, click: int) -> tuple[float, list[tuple[float, float, float]]]:
        """Chance that nothing flows at all; weight, mean and sd of log rate of the curves that flow."""
        found = self._rows.get(click)
        if found is None:
            opening = self.openings[click]
            dead = 0.0
            rows: list[tuple[float, float, float]] = []
            for weight, base, exponent, dead_zone, sd in self.parts:
                gap = opening - dead_zone
                if gap > 0.0:
                    rows.append((weight, base + exponent * math.log(gap), sd))
                else:
                    dead += weight
            found = (dead, _merged(rows))
            self._rows[click] = found
        return found

    def moments(self, click: int) -> tuple[float, float]:
        """Mean and variance of a click's log rate where it flows, the pass's own noise included."""
        found = self._moments.get(click)
        if found is None:
            whole = first = second = 0.0
            for weight, mean, sd in self.rows(click)[1]:
                whole += weight
                first += weight * mean
                second += weight * (mean * mean + sd * sd)
            if whole <= 0.0:
                return -100.0, 1.0
            mean = first / whole
            found = (mean, max(second / whole - mean * mean, 1e-9))
            self._moments[click] = found
        return found

    def covariance(self, click: int, other: int) -> float:
        """How two clicks' log rates vary together over the curves, one pass's own noise left out."""
        here, there = self._about_mean(click), self._about_mean(other)
        whole = together = 0.0
        for place in range(len(here)):
            if here[place] > CLOSED and there[place] > CLOSED:
                weight, _, _, _, sd = self.parts[place]
                whole += weight
                together += weight * (here[place] * there[place] + sd * sd - self.pass_var)
        return together / whole if whole > 0.0 else 0.0

    def _about_mean(self, click: int) -> list[float]:
        """Log rate of the heaviest curves at a click less the click's mean; CLOSED where nothing flows."""
        found = self._offsets.get(click)
        if found is None:
            mean, opening = self.moments(click)[0], self.openings[click]
            found = []
            for _, base, exponent, dead_zone, _ in self.parts[:MOST_FOR_COVARIANCE]:
                gap = opening - dead_zone
                found.append(base + exponent * math.log(gap) - mean if gap > 0.0 else CLOSED)
            self._offsets[click] = found
        return found


def outlook_of(*, belief: Belief, openings: list[float], load_relative_sd: float = 0.0) -> Outlook:
    """What the clicks may put down in a whole pass.

    Args:
        belief: the curves of the product [Belief]
        openings: share of travel of every click from 0, closed, upwards [share; 0 to 1]
        load_relative_sd: likely error of what is in the hopper, over what is there [share; 0 to 1]
    Returns:
        outlook: the mixtures by click [Outlook]
    Source: computed
    """
    more = belief.pass_var + load_relative_sd**2
    parts = [
        (one.weight, one.base, one.exponent, one.dead_zone, math.sqrt(one.level_var + more)) for one in belief.curves
    ]
    return Outlook(parts=parts, openings=openings, pass_var=belief.pass_var)


def _merged(rows: list[tuple[float, float, float]]) -> list[tuple[float, float, float]]:
    """Join neighbouring normals far closer than they are wide; weight, mean and variance are kept exactly."""
    if len(rows) <= FEW_ROWS:
        return rows
    width = MERGE_WIDTH * min([sd for _, _, sd in rows])
    middle = rows[0][1]
    bins: dict[int, list[float]] = {}
    for weight, mean, sd in rows:
        place = math.floor((mean - middle) / width + 0.5)
        found = bins.get(place)
        if found is None:
            found = [0.0, 0.0, 0.0]
            bins[place] = found
        found[0] += weight
        found[1] += weight * mean
        found[2] += weight * (mean * mean + sd * sd)
    return [_joined(bins[place]) for place in sorted(bins)]


def _joined(sums: list[float]) -> tuple[float, float, float]:
    mean = sums[1] / sums[0]
    return sums[0], mean, math.sqrt(max(sums[2] / sums[0] - mean * mean, 1e-12))


def chance_over(*, outlook: Outlook, click: int, rate_kg_m2: float, noise: bool = True) -> float:
    """Chance that a click puts down more than a rate; without noise, that its mean does [share; 0 to 1]."""
    if rate_kg_m2 <= 0.0:
        return 1.0
    log_rate = math.log(rate_kg_m2)
    less = 0.0 if noise else outlook.pass_var
    chance = 0.0
    for weight, mean, sd in outlook.rows(click)[1]:
        spread = sd if noise else math.sqrt(max(sd * sd - less, LEAST_VAR))
        chance += weight * normal_cdf((mean - log_rate) / spread)
    return chance


def quantile(*, outlook: Outlook, click: int, chance: float) -> float:
    """Rate below which a click stays with a given chance; 0 where it is as likely not to flow [kg/m2]."""
    dead, rows = outlook.rows(click)
    if not rows or dead >= chance:
        return 0.0
    low = min([mean - 6.0 * sd for _, mean, sd in rows])
    high = max([mean + 6.0 * sd for _, mean, sd in rows])
    mean, var = outlook.moments(click)
    at = mean + 4.91 * (chance**0.14 - (1.0 - chance) ** 0.14) * math.sqrt(var)  # near enough to begin with
    for _ in range(60):
        below, slope = dead, 0.0
        for weight, mean, sd in rows:
            z = (at - mean) / sd
            below += weight * normal_cdf(z)
            slope += weight * math.exp(-0.5 * min(z * z, 80.0)) / (sd * SQRT_TAU)
        if below < chance:
            low = at
        else:
            high = at
        if abs(below - chance) < 1e-13 or high - low < 1e-13:
            break
        at = at + (chance - below) / slope if slope > 1e-9 else low
        if not low < at < high:
            at = 0.5 * (low + high)
    return math.exp(at)


def last_click_within(*, outlook: Outlook, rate_kg_m2: float, chance: float, noise: bool = True) -> int:
    """Highest click whose chance of putting down more than a rate is no greater than given; 0 if none."""
    low, high = 0, outlook.clicks
    while low < high:
        middle = (low + high + 1) // 2
        if chance_over(outlook=outlook, click=middle, rate_kg_m2=rate_kg_m2, noise=noise) <= chance:
            low = middle
        else:
            high = middle - 1
    return low


def nearest_click(*, outlook: Outlook, rate_kg_m2: float) -> int:
    """Click whose median is nearest to a rate; of two equally near the lower."""
    low = last_click_within(outlook=outlook, rate_kg_m2=rate_kg_m2, chance=0.5)
    if low >= outlook.clicks:
        return outlook.clicks
    below = quantile(outlook=outlook, click=low, chance=0.5)
    above = quantile(outlook=outlook, click=low + 1, chance=0.5)
    return low + 1 if above - rate_kg_m2 < rate_kg_m2 - below - 1e-9 * rate_kg_m2 else low


def first_flowing_click(*, outlook: Outlook, chance: float = 0.5) -> int:
    """Lowest click at which something is likelier to flow than a chance; one beyond the dial's last if none."""
    low, high = 1, outlook.clicks + 1
    while low < high:
        middle = (low + high) // 2
        flows = 0.0
        for part in outlook.parts:
            if outlook.openings[middle] > part[3]:
                flows += part[0]
        if flows > chance:
            high = middle
        else:
            low = middle + 1
    return low
