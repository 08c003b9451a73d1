"""An oracle: it knows the true curve and how noisy its passes are, but not what chance will do.

It is held to the same shape of application as everybody else (spreading.md): passes of about equal shares, at most 5 %
chance of an early empty hopper, one click ahead where the clicks are coarse. An oracle free to put nearly everything
down in its first pass would end closer to the target in total (4.4 % instead of 6.1 %) by giving up the evenness for
which there are two passes at all. Ours may lean a first pass of two by a third; an oracle free to do so as well ends at
5.4 % instead of 5.9 % (240 households from seed 70,000), and ours at 1.23 times that. It shares no code with the
engine, so that a fault there cannot harm both alike.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from statistics import NormalDist

from tests.bench.dial.households import Household
from tests.bench.dial.methods import Choice, Part, Record
from tests.bench.dial.truths import Product

MOST_CHANCE_EMPTY = 0.05
CLOSED = -math.inf
_NORMAL = NormalDist()
_Z_95 = _NORMAL.inv_cdf(1.0 - MOST_CHANCE_EMPTY)
COARSE_STEP = 1.35  # from one click to the next, in rate
_REACH, _REACH_AFTER_CHECK = 1, 3  # clicks to either side of the plain choice that are looked at
_WIDTH = 4.0  # clicks whose rate is further off than this many sds are not tried
# Nine equal parts of a normal number, each by its middle: what the next pass may do.
_NINTHS = tuple(_NORMAL.inv_cdf((place + 0.5) / 9) for place in range(9))


@dataclass(frozen=True)
class Oracle:
    """Logarithms of the true rates by click, the sd of a pass about them, and of passes after this one."""

    log_rates: tuple[float, ...]
    sd: float
    later: "Oracle | None" = None
    own_part_sd: tuple[float, float] = (0.0, 0.0)  # what is shared over a pass, and each part's own at share 1

    def choose(self, load_kg_m2: float, passes_to_go: int, *, first: bool) -> Choice:
        """The least expected error of a last pass, else the click nearest to this pass's share; it claims nothing."""
        return Choice(self._click(load_kg_m2, passes_to_go, first=first))

    def _click(self, load_kg_m2: float, passes_to_go: int, *, first: bool) -> int:
        if passes_to_go == 1:
            return self._last(load_kg_m2)
        plain = self._plain(load_kg_m2, passes_to_go)
        looks = first and passes_to_go == 2 and self._is_coarse(plain)
        return self._ahead(load_kg_m2, plain, _REACH) if looks else plain

    def _is_coarse(self, click: int) -> bool:
        other = click + 1 if click + 1 < len(self.log_rates) else click - 1
        return not abs(self.log_rates[other] - self.log_rates[click]) <= math.log(COARSE_STEP)

    def _plain(self, load_kg_m2: float, passes_to_go: int) -> int:
        wanted = load_kg_m2 / passes_to_go
        best = min(range(1, len(self.log_rates)), key=lambda click: abs(self._rate(click) - wanted))
        while best > 1 and self._likely_empties(best, load_kg_m2):
            best -= 1
        return best

    def _rate(self, click: int) -> float:
        return math.exp(self.log_rates[click])

    def _likely_empties(self, click: int, load_kg_m2: float) -> bool:
        return self.log_rates[click] + _Z_95 * self.sd > math.log(load_kg_m2)

    def _last(self, left_kg_m2: float) -> int:
        """The click whose expected error is least, the lowest of equals."""
        losses = [(self.loss(click, left_kg_m2), click) for click in range(1, len(self.log_rates))]
        return min(losses)[1]

    def loss(self, click: int, left_kg_m2: float) -> float:
        """Expected mean difference from the aim over the ground, as a share of what is left."""
        return _loss(self.log_rates[click] - math.log(left_kg_m2), self.sd)

    def _ahead(self, load_kg_m2: float, plain: int, reach: int) -> int:
        """Near the plain choice, the click from which the last pass is expected to end best."""
        near = range(max(1, plain - reach), min(plain + reach, len(self.log_rates) - 1) + 1)
        safe = [click for click in near if click <= plain or not self._likely_empties(click, load_kg_m2)]
        return min((self._loss_after(click, load_kg_m2), click) for click in safe)[1]

    def _loss_after(self, click: int, load_kg_m2: float) -> float:
        return sum(self._loss_given(math.exp(self.log_rates[click] + z * self.sd), load_kg_m2) for z in _NINTHS)

    def _loss_given(self, used_kg_m2: float, load_kg_m2: float) -> float:
        """What the last pass is expected to miss once this one has put down so much [kg/m2]."""
        if used_kg_m2 >= load_kg_m2:
            return 2.0 * load_kg_m2 * (1.0 - load_kg_m2 / used_kg_m2)
        left = load_kg_m2 - used_kg_m2
        nearest = self.later or self
        return left * min(nearest._nearest_losses(left))

    def _nearest_losses(self, left_kg_m2: float) -> list[float]:
        """Losses of the clicks about what is left; of the open dial where even that is less."""
        level = math.log(left_kg_m2)
        reach = _WIDTH * self.sd + 0.2
        near = [rate - level for rate in self.log_rates[1:] if abs(rate - level) < reach]
        near += [max((rate - level for rate in self.log_rates[1:] if rate - level <= -reach), default=CLOSED)]
        near += [min((rate - level for rate in self.log_rates[1:] if rate - level >= reach), default=CLOSED)]
        return [_loss(ratio, self.sd) for ratio in near]

    def rest(self, part: Part, missing_kg_m2: float, passes_to_go: int) -> int:
        """As for a pass, over the rest of the ground, knowing how this pass runs."""
        load = min(missing_kg_m2, part.now_kg_m2 / (1.0 - part.ground))
        rest = self.after(part)
        if passes_to_go != 2:
            return rest._click(load, passes_to_go, first=False)
        return rest._ahead(load, rest._plain(load, 2), _REACH_AFTER_CHECK)

    def after(self, part: Part) -> "Oracle":
        """What the parts of this pass share, guessed from the first of them."""
        shared, own = self.own_part_sd
        rest_own_var = own**2 / (1.0 - part.ground)
        if part.used_kg_m2 <= 0.0 or self.log_rates[part.click] == CLOSED:
            return Oracle(self.log_rates, math.sqrt(shared**2 + rest_own_var), self)
        miss = math.log(part.rate_kg_m2) - self.log_rates[part.click]
        seen_var = own**2 / part.ground + part.relative_sd**2
        gain = shared**2 / (shared**2 + seen_var)
        sd = math.sqrt(shared**2 * (1.0 - gain) + rest_own_var)
        return Oracle(tuple(rate + gain * miss for rate in self.log_rates), sd, self)


def oracle(
    household: Household, product: Product, history: Sequence[Record], target_kg_m2: float, *, shared: float = 1.0
) -> Oracle:
    """The oracle of a household; `shared` is the part of a pass's variance that its whole length has in common."""
    del history, target_kg_m2
    rates = [household.rate_kg_m2(product, click) for click in range(household.clicks + 1)]
    logs = tuple(math.log(rate) if rate > 0.0 else CLOSED for rate in rates)
    sd = household.noise_sd
    return Oracle(logs, sd, None, (math.sqrt(shared) * sd, math.sqrt(1.0 - shared) * sd))


def _loss(log_ratio: float, sd: float) -> float:
    """Expected error of a last pass over what is left, log(rate / left) being normal.

    Short by a share misses that share; more than is left bares a stripe: 2 (1 - left / rate), the reference page's
    "cost of running out".
    """
    if log_ratio == CLOSED:
        return 1.0
    over = _NORMAL.cdf(log_ratio / sd)
    half_var = 0.5 * sd * sd
    short = (1.0 - over) - math.exp(log_ratio + half_var) * _NORMAL.cdf(-log_ratio / sd - sd)
    bare = over - math.exp(half_var - log_ratio) * _NORMAL.cdf(log_ratio / sd - sd)
    return short + 2.0 * bare
