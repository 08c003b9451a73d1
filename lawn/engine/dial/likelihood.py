"""What past passes say of a dial: for every grid point and every suspicion an exact likelihood.

    log rate = a + b_product + n * log((u - u0) / (0.5 - u0_reference)) + noise      rate in kg/m2

u is the opening as a share of full travel; u0 = edge + 1.4 * granule / travel is the dead zone, which moves with
the granules; u0_reference is that of 2 mm granules. n, edge and travel lie on a fixed grid; given them everything
is linear and Gaussian, so that a and every b are integrated out exactly. For one (edge, travel) the log likelihood
of a suspicion is an exact parabola in n and the mean level a straight line, so that some twenty small sums over
the passes serve all nine exponents and all suspicions. No random numbers, no clock; plain floats.
"""

import math
from collections import namedtuple

# A past pass: its place in the history, log of kg/m2 at today's swath and speed, relative error of the measurement.
Pass = namedtuple("Pass", ("index", "product", "opening", "log_rate", "sd", "density_kg_m3", "granule_mm", "nothing"))
Product = namedtuple("Product", ("id", "density_kg_m3", "granule_mm"))
# A product's offset before any pass; a pass made ready for the sums, its value less its product's mean offset.
Group = namedtuple("Group", ("mean", "var"))
Seen = namedtuple("Seen", ("group", "opening", "granule_mm", "value", "weight", "bad_weight"))

# The numbers below are those of the design's simulation (source: computed) unless a line says otherwise.
EXPONENTS = (1.0, 1.2, 1.4, 1.6, 1.8, 2.0, 2.2, 2.4, 2.6)
EXPONENT_STEP = 0.2
EDGES = (-0.08, -0.04, 0.0, 0.04, 0.08)
TRAVELS_MM = (14.0, 18.0, 24.0, 34.0)
REFERENCE_GRANULE_MM = 2.0
MARGIN_GRANULES = 1.4  # empty margin round a hole, in granules (hagen1852, madrid2017; the value from memory)
MOST_DEAD_ZONE = 0.30
LEAST_GAP = 0.004  # a pass that flowed at a closed opening counts as opened this far

LEVEL_MEAN = math.log(0.025)  # half open: 2.5 kg per 100 m2
LEVEL_VAR = 0.6**2
PASS_SD = 0.09  # one pass against the next, nothing changed
PASS_VAR = PASS_SD**2
BAD_CHANCE = 0.05  # of a pass being clogged, damp or shut late
BAD_SHIFT = -0.45
BAD_VAR = 0.35**2
FEWEST_FOR_BAD = 3  # a bad pass shows only against others: with fewer passes none is suspected
NEGLIGIBLE = 14.0  # a suspicion this far below the best, in logarithms, is left out


def dead_zone(edge: float, travel_mm: float, diameter_mm: float) -> float:
    """Opening below which nothing falls [share; 0 to 0.3]."""
    return min(max(edge + MARGIN_GRANULES * diameter_mm / travel_mm, 0.0), MOST_DEAD_ZONE)


def peak(c0: float, c1: float, c2: float) -> float:
    """Highest value of the parabola c0 + c1 n + c2 n^2 on the grid of exponents."""
    low, high = EXPONENTS[0], EXPONENTS[-1]
    n = high if c1 + c2 * (low + high) > 0.0 else low
    if c2 < 0.0:
        top = min(max(-0.5 * c1 / c2, low), high)
        n = EXPONENTS[math.floor((top - low) / EXPONENT_STEP + 0.5)]
    return c0 + n * (c1 + c2 * n)


class Sums:
    """Sums over the passes from which every hypothesis at every grid point follows in a few products.

    weight and value are kept by product; share = 1 / (1 + weight * var of b) is what is left of a product's weight
    for a once its own b is integrated out, gain = var of b * share; precision and pull are those of a.
    """

    def __init__(self, seen: list[Seen], groups: list[Group], own: int) -> None:
        """Add the passes up; own is the place of the product to be spread among the groups."""
        self.seen = seen
        self.own = own
        count = len(groups)
        self.vars = [group.var for group in groups]
        self.weight = [0.0] * count
        self.value = [0.0] * count
        self.square = 0.0
        for one in seen:
            self.weight[one.group] += one.weight
            self.value[one.group] += one.weight * one.value
            self.square += one.weight * one.value * one.value
        self.share = [1.0 / (1.0 + self.weight[q] * self.vars[q]) for q in range(count)]
        self.gain = [self.vars[q] * self.share[q] for q in range(count)]
        self.precision = 1.0 / LEVEL_VAR
        self.pull = LEVEL_MEAN / LEVEL_VAR
        self.value_gain = 0.0
        for q in range(count):
            self.precision += self.weight[q] * self.share[q]
            self.pull += self.share[q] * self.value[q]
            self.value_gain += self.gain[q] * self.value[q] * self.value[q]
        self.flips = [self._flip(one) for one in seen] if len(seen) >= FEWEST_FOR_BAD else []

    def _flip(self, one: Seen) -> tuple[int, tuple[float, ...]]:
        """What changes, whatever the grid point, when this pass is taken as bad; its product's place first."""
        q: int = one.group
        shifted = one.value - BAD_SHIFT
        d_weight = one.bad_weight - one.weight
        d_value = one.bad_weight * shifted - one.weight * one.value
        d_square = one.bad_weight * shifted * shifted - one.weight * one.value * one.value
        weight, value = self.weight[q] + d_weight, self.value[q] + d_value
        share = 1.0 / (1.0 + weight * self.vars[q])
        gain = self.vars[q] * share
        precision = self.precision - self.weight[q] * self.share[q] + weight * share
        pull = self.pull - self.share[q] * self.value[q] + share * value
        odds = math.log(BAD_CHANCE / (1.0 - BAD_CHANCE))
        size = math.log(one.bad_weight / one.weight * share / self.share[q] * self.precision / precision)
        fit_of_b = self.value_gain - self.gain[q] * self.value[q] ** 2 + gain * value * value
        c0 = odds + 0.5 * (size + fit_of_b + pull * pull / precision - self.square - d_square)
        own_share = share if q == self.own else self.share[self.own]
        own_gain = gain if q == self.own else self.gain[self.own]
        own_value = value if q == self.own else self.value[self.own]
        mean0 = pull / precision * own_share + own_gain * own_value
        var = own_share * own_share / precision + own_gain
        return q, (d_weight, d_value, share, gain, precision, value, pull, own_share, own_gain, c0, mean0, var)

    def rows(self, edge: float, travel_mm: float) -> list[tuple[float, ...]]:
        """Every hypothesis at one (edge, travel): edge, travel, bad pass or -1, c0 c1 c2, mean0 mean1, variance."""
        reaches = self._reaches(edge, travel_mm)
        reach = [0.0] * len(self.vars)
        cross = squares = 0.0
        for place, one in enumerate(self.seen):
            weighed = one.weight * reaches[place]
            reach[one.group] += weighed
            cross += weighed * one.value
            squares += weighed * reaches[place]
        reach_pull = reach_value = reach_gain = 0.0
        for q in range(len(reach)):
            reach_pull += self.share[q] * reach[q]
            reach_value += self.gain[q] * self.value[q] * reach[q]
            reach_gain += self.gain[q] * reach[q] * reach[q]
        own, pull, precision = self.own, self.pull, self.precision
        c0 = 0.5 * (self.value_gain + pull * pull / precision - self.square)
        c1 = cross - reach_value - pull * reach_pull / precision
        c2 = 0.5 * (reach_gain + reach_pull * reach_pull / precision - squares)
        mean0 = pull / precision * self.share[own] + self.gain[own] * self.value[own]
        mean1 = -(reach_pull / precision * self.share[own] + self.gain[own] * reach[own])
        var = self.share[own] ** 2 / precision + self.gain[own]
        rows: list[tuple[float, ...]] = [(edge, travel_mm, -1, c0, c1, c2, mean0, mean1, var)]
        self._add_bad(rows, reaches, reach, cross, squares, reach_pull, reach_value, reach_gain)
        return rows

    def _add_bad(
        self,
        rows: list[tuple[float, ...]],
        reaches: list[float],
        reach: list[float],
        cross: float,
        squares: float,
        reach_pull: float,
        reach_value: float,
        reach_gain: float,
    ) -> None:
        """Add "pass k was bad" for every k that is not far less likely than "none was" at its own best n."""
        edge, travel_mm, _, c0, c1, c2, _, _, _ = rows[0]
        floor = peak(c0, c1, c2) - NEGLIGIBLE
        own, shares, gains, values = self.own, self.share, self.gain, self.value
        for place, (q, change) in enumerate(self.flips):
            d_weight, d_value, share, gain, precision, value, pull, own_share, own_gain, c0, mean0, var = change
            length = reaches[place]
            old = reach[q]
            d_reach = d_weight * length
            new = old + d_reach
            new_pull = reach_pull - shares[q] * old + share * new
            c1 = cross + d_value * length - (reach_value - gains[q] * values[q] * old + gain * value * new)
            c1 -= pull * new_pull / precision
            c2 = reach_gain - gains[q] * old * old + gain * new * new + new_pull * new_pull / precision
            c2 = 0.5 * (c2 - squares - d_reach * length)
            if peak(c0, c1, c2) > floor:
                mean1 = -(new_pull / precision * own_share + own_gain * (new if q == own else reach[own]))
                rows.append((edge, travel_mm, place, c0, c1, c2, mean0, mean1, var))

    def _reaches(self, edge: float, travel_mm: float) -> list[float]:
        """log((u - u0) / (0.5 - u0_reference)) of every pass; equal openings are worked out once."""
        half = math.log(0.5 - dead_zone(edge, travel_mm, REFERENCE_GRANULE_MM))
        known: dict[object, float] = {}
        reaches: list[float] = []
        for one in self.seen:
            key = (one.opening, one.granule_mm)
            if key not in known:
                gap = one.opening - dead_zone(edge, travel_mm, one.granule_mm)
                known[key] = math.log(max(gap, LEAST_GAP)) - half
            reaches.append(known[key])
        return reaches
