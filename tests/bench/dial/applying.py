"""One application of a product on ground of area 1, walked as two parts: what falls where, what is measured.

A pass's noise has a part common to its whole length and each part's own. With a check, the hopper is weighed after
the first part and the dial set anew for the rest. The error is the mean over the ground of |put down - target| over
the target; where the hopper runs out, the ground beyond lacks that pass altogether.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass, field

from tests.bench.dial.households import Household, Noise
from tests.bench.dial.methods import LEAST_KG_M2, LEAST_SD, Maker, Mind, Part, Record
from tests.bench.dial.truths import Product

NOTHING_KG_M2 = 1e-5  # less than this is not seen to come out
RAN_OUT_SD = 0.03  # of a rate known by where the hopper ran out
PARTS = (0, 1)


@dataclass(frozen=True)
class Way:
    """How a household walks: passes, a check after a share of each (0: none), the scale's error, the noise's kind."""

    passes: int
    check: float = 0.0
    weighing_sd: float = 0.01
    shared: float = 1.0  # part of a pass's variance that its whole length has in common

    @property
    def shares(self) -> tuple[float, float]:
        """The two parts of the ground."""
        first = self.check or 0.5
        return first, 1.0 - first


@dataclass(frozen=True)
class Claim:
    """Whether a pass fell inside the 90 % interval given for it, and whether it was neither clogged nor damp."""

    inside: bool
    clean: bool


@dataclass(frozen=True)
class Done:
    """How an application ended."""

    error: float  # mean over the ground of |put down - target| / target
    used_error: float  # |used - target| / target over the whole ground
    empty_early: bool  # the load was gone in a pass that was not the last
    short_share: float  # ground that the last pass did not reach
    bare_share: float  # ground that got nothing at all
    claims: tuple[Claim, ...] = ()


@dataclass
class Walk:
    """The state of one application: what is in the hopper, what it is thought to be, what lies on the two parts."""

    household: Household
    product: Product
    way: Way
    history: list[Record]
    target: float
    left: float
    seen: float
    put: list[float] = field(default_factory=lambda: [0.0, 0.0])
    seen_put: list[float] = field(default_factory=lambda: [0.0, 0.0])
    claims: list[Claim] = field(default_factory=list)


@dataclass
class Pass:
    """One pass under way."""

    to_go: int
    noise: Noise
    clicks: list[int]
    rates: list[float]
    now_seen: float | None = None  # weighed at the check


def apply(
    household: Household, product: Product, maker: Maker, history: list[Record], application: int, way: Way
) -> Done:
    """Walk an application; what was measured is added to the history."""
    target = household.targets_kg_m2[application]
    walk = Walk(household, product, way, history, target, left=target, seen=target)
    for number in range(way.passes):
        mind = maker(household, product, history, target)
        one = _begin(walk, mind, application, number)
        if way.check:
            _check(walk, mind, one)
        spent = [share * rate for share, rate in zip(way.shares, one.rates, strict=True)]
        if spent[0] + spent[1] > walk.left:
            return _ran_out(walk, one, number)
        _end(walk, one, spent)
    return _done(walk)


def _begin(walk: Walk, mind: Mind, application: int, number: int) -> Pass:
    to_go = walk.way.passes - number
    load = max(walk.seen, LEAST_KG_M2)
    if walk.way.check:
        load = min(_missing(walk, 0), load / walk.way.shares[0])
    choice = mind.choose(load, to_go, first=number == 0)
    noise = walk.household.noise(application, number)
    one = Pass(to_go, noise, [choice.click, choice.click], [])
    one.rates = _rates(walk, one)
    whole = sum(share * rate for share, rate in zip(walk.way.shares, one.rates, strict=True))
    inside = choice.holds(whole) if choice.click else None
    if inside is not None:
        walk.claims.append(Claim(inside, noise.bad == 0.0))
    return one


def _missing(walk: Walk, part: int) -> float:
    return max(walk.target - walk.seen_put[part], LEAST_KG_M2)


def _rates(walk: Walk, one: Pass) -> list[float]:
    """What each part of the ground gets, while there is something in the hopper."""
    return [
        walk.household.rate_kg_m2(walk.product, one.clicks[part]) * math.exp(_shift(walk, one.noise, part))
        for part in PARTS
    ]


def _shift(walk: Walk, noise: Noise, part: int) -> float:
    own = math.sqrt((1.0 - walk.way.shared) / walk.way.shares[part]) * noise.parts[part]
    return walk.household.noise_sd * (math.sqrt(walk.way.shared) * noise.shared + own) + noise.bad


def _check(walk: Walk, mind: Mind, one: Pass) -> None:
    """Weigh after the first part and set the dial for the rest."""
    share = walk.way.shares[0]
    spent = share * one.rates[0]
    if spent >= walk.left or not one.clicks[0]:
        return
    now = walk.left - spent
    one.now_seen = min(max(now * (1 + walk.way.weighing_sd * one.noise.weighing[2]), LEAST_KG_M2), walk.seen)
    if one.rates[0] <= NOTHING_KG_M2:
        one.now_seen = walk.seen
    used = walk.seen - one.now_seen
    part = Part(one.clicks[0], used, share, one.now_seen, walk.way.weighing_sd * now)
    one.clicks[1] = mind.rest(part, _missing(walk, 1), one.to_go)
    one.rates = _rates(walk, one)


def _end(walk: Walk, one: Pass, spent: list[float]) -> None:
    """The pass is over and something may be left: weigh it and write it down."""
    before, share = walk.seen, walk.way.shares
    walk.left -= spent[0] + spent[1]
    least = walk.seen if one.now_seen is None else one.now_seen
    walk.seen = min(max(walk.left * (1 + walk.way.weighing_sd * one.noise.weighing[0]), LEAST_KG_M2), least)
    walk.put = [walk.put[part] + one.rates[part] for part in PARTS]
    if one.now_seen is None:
        used = spent[0] + spent[1]
        measured = before - walk.seen if used > NOTHING_KG_M2 else 0.0
        walk.seen_put = [put + measured for put in walk.seen_put]
        _write(walk, one.clicks[0], measured, 1.0, walk.seen, _sd(walk, walk.left, used))
        return
    for part, used in enumerate((before - one.now_seen, one.now_seen - walk.seen)):
        walk.seen_put[part] += used / share[part]
        there = walk.left + spent[1] if part == 0 else walk.left
        seen = one.now_seen if part == 0 else walk.seen
        _write(walk, one.clicks[part], used, share[part], seen, _sd(walk, there, spent[part]))


def _sd(walk: Walk, there: float, used: float) -> float:
    """Relative error of an amount used, from weighing what is left."""
    return max(LEAST_SD, walk.way.weighing_sd * there / max(used, LEAST_KG_M2))


def _write(
    walk: Walk, click: int, used: float, ground: float, left: float, sd: float, *, ran_out: bool = False
) -> None:
    """Write a pass or part of one down; ground that was not walked leaves no record."""
    if click:
        seen = used if used > 1e-6 * ground else 0.0
        walk.history.append(Record(walk.product, click, seen, ground, left, sd, ran_out))


def _ran_out(walk: Walk, one: Pass, number: int) -> Done:
    """The hopper is empty before the ground is covered: where it happened tells the rate."""
    share, left = walk.way.shares, walk.left
    first = share[0] * one.rates[0]
    covered = left / one.rates[0] if first > left else share[0] + (left - first) / one.rates[1]
    paced = math.exp(0.02 * one.noise.weighing[1])
    if one.clicks[0] == one.clicks[1]:
        _write(walk, one.clicks[0], left * paced, covered, 0.0, RAN_OUT_SD, ran_out=True)
    else:
        used = first * math.exp(0.01 * one.noise.weighing[3])
        _write(walk, one.clicks[0], used, share[0], left - first, LEAST_SD)
        _write(walk, one.clicks[1], (left - first) * paced, covered - share[0], 0.0, RAN_OUT_SD, ran_out=True)
    got = (min(covered, share[0]), max(covered - share[0], 0.0))
    error = _run_out_error(walk, one.rates, got)
    last = number == walk.way.passes - 1
    short, bare = (1.0 - covered if last else 0.0), (1.0 - covered if number == 0 else 0.0)
    return Done(error, 0.0, not last, short, bare, tuple(walk.claims))


def _run_out_error(walk: Walk, rates: Sequence[float], got: Sequence[float]) -> float:
    """Ground reached and ground not reached, part by part."""
    missed = 0.0
    for part in PARTS:
        missed += got[part] * abs(walk.put[part] + rates[part] - walk.target)
        missed += (walk.way.shares[part] - got[part]) * abs(walk.put[part] - walk.target)
    return missed / walk.target


def _done(walk: Walk) -> Done:
    share, target = walk.way.shares, walk.target
    error = sum(share[part] * abs(walk.put[part] - target) for part in PARTS)
    used = sum(share[part] * walk.put[part] for part in PARTS)
    return Done(error / target, abs(used - target) / target, False, 0.0, 0.0, tuple(walk.claims))
