"""Which click to walk with: the share of a pass, the last pass by least expected loss, the re-dial after a check.

All amounts are per area (kg/m2): a load over the ground it is meant for.
"""

import math

from lawn.engine.dial.likelihood import BAD_CHANCE, BAD_SHIFT, BAD_VAR, LEAST_GAP, PASS_VAR
from lawn.engine.dial.predictive import Predictive, chance_over, last_click_within, nearest_click, normal_cdf

# Source: computed (the design's simulation).
MOST_CHANCE_EMPTY = 0.05  # of emptying the load in a pass that is not the last
FAR_OUT = 7.0  # standard deviations: from here on the series of the normal tail is the better of the two
RUN_OUT_COST = 2.0  # times left (1 - left / rate): the mean difference from the aim over the ground
COARSE_STEP = 1.35  # neighbouring clicks this far apart in rate make a dial coarse there
START_REACH = 3  # clicks to either side of the even share that a first pass of two is looked for at
EVEN_WITHIN = 0.3  # log of how far off the even share it may lie; on a coarse dial the next click is allowed anyway
CHECK_REACH = 3  # after a check the curve is known well enough to choose among more clicks
CHECK_COARSE_STEP = 1.05
SHARED = 0.65  # share of a pass's variance that its whole length has in common; the rest comes and goes
DOUBTFUL = 0.2  # a click more likely than this not to flow at all is not looked ahead to
NEGLIGIBLE = 7.0
# A last pass is set near what is left: the click of least loss lies within these bounds of log(rate / left), or is
# the first one below them.
NEAR = 0.4
NEAR_SDS = 1.5
FAR_BELOW = 3.0  # clicks at which a twentieth of the load and less flows are not weighed for a last pass
# Gauss-Hermite rule of five points for a standard normal number (Abramowitz and Stegun 1964, table 25.10, rescaled).
NODES = (
    (-2.8569700138728056, 0.011257411327720689),
    (-1.355626179974266, 0.22207592200561264),
    (0.0, 0.5333333333333333),
    (1.355626179974266, 0.22207592200561264),
    (2.8569700138728056, 0.011257411327720689),
)


def share_click(*, predictive: Predictive, load_kg_m2: float, passes_to_go: int) -> int:
    """Click of a pass that is not the last; more load never means a lower click.

    Args:
        predictive: what each click may put down [Predictive]
        load_kg_m2: what there is over the ground of one pass [kg/m2; above 0]
        passes_to_go: passes still to walk, this one included [passes; 2 to 20]
    Returns:
        click: nearest to the share, chance of emptying the load at most 5 %; 1 at least [clicks]
    Source: computed
    """
    wanted = nearest_click(predictive=predictive, rate_kg_m2=load_kg_m2 / passes_to_go)
    limit = last_click_within(predictive=predictive, rate_kg_m2=load_kg_m2, chance=MOST_CHANCE_EMPTY)
    return max(1, min(wanted, limit))


def start_click(*, predictive: Predictive, load_kg_m2: float, passes: int) -> int:
    """Click to start with; of two passes the one near the even share that leaves the best to the second.

    Args:
        predictive: what each click may put down [Predictive]
        load_kg_m2: the whole load over its ground [kg/m2; above 0]
        passes: passes to walk [passes; 1 to 20]
    Returns:
        click: whole click, 1 to the dial's last [clicks]
    Source: computed
    """
    if passes == 1:
        return last_pass_click(predictive=predictive, left_kg_m2=load_kg_m2)
    plain = share_click(predictive=predictive, load_kg_m2=load_kg_m2, passes_to_go=passes)
    return _ahead(predictive, load_kg_m2, plain, _near_even(predictive, plain)) if passes == 2 else plain


def last_pass_click(*, predictive: Predictive, left_kg_m2: float) -> int:
    """Click of the last pass: the least expected loss; of equal ones the lowest. More left, never a lower click.

    Args:
        predictive: what each click may put down [Predictive]
        left_kg_m2: what is left over the ground still to cover [kg/m2; above 0]
    Returns:
        click: whole click, 1 to the dial's last [clicks]
    Source: computed
    """
    first = max(1, last_click_within(predictive=predictive, rate_kg_m2=left_kg_m2, chance=0.02))
    best, least = first, 1e300
    for click in range(first, predictive.clicks + 1):
        loss = expected_loss(predictive=predictive, click=click, left_kg_m2=left_kg_m2)
        if loss < least - 1e-9 * left_kg_m2:
            best, least = click, loss
        if chance_over(predictive=predictive, click=click, rate_kg_m2=left_kg_m2) > 0.98:
            break
    return best


def expected_loss(*, predictive: Predictive, click: int, left_kg_m2: float) -> float:
    """Expected loss of a last pass at a click: what is missing, or the stripe left bare [kg/m2]."""
    dead, rows = predictive.rows(click)
    log_left = math.log(left_kg_m2)
    loss = dead
    for weight, mean, sd in rows:
        loss += weight * relative_loss(mean - log_left, sd)
    return loss * left_kg_m2


def relative_loss(log_ratio: float, sd: float) -> float:
    """Expected loss over what is left, for log(rate / left) normal with this mean and sd.

    Short by a share costs that share; a rate above what is left bares a stripe and costs 2 (1 - left / rate), which
    is the mean difference from the aim over the ground (closed form of the two truncated exponentials).
    """
    half_var = 0.5 * sd * sd
    z = log_ratio / sd
    if z < -6.0 - sd:
        return 1.0 - math.exp(log_ratio + half_var)
    if z > 6.0 + sd:
        return RUN_OUT_COST * (1.0 - math.exp(half_var - log_ratio))
    over = normal_cdf(z)
    short = 1.0 - over - _moment_beyond(log_ratio, half_var, z, z + sd)
    return short + RUN_OUT_COST * (over - _moment_beyond(-log_ratio, half_var, z, sd - z))


def _moment_beyond(log_ratio: float, half_var: float, z: float, t: float) -> float:
    """exp(log_ratio + half_var) times the normal tail beyond t, where t * t is z * z + 2 * (log_ratio + half_var).

    Far out the first has no float and the second is 0; there the tail is its first terms (Abramowitz and Stegun, 1964,
    26.2.12), and what is large cancels.
    """
    if t < FAR_OUT:
        return math.exp(log_ratio + half_var) * normal_cdf(-t)
    r = 1.0 / (t * t)
    series = 1.0 - r * (1.0 - r * (3.0 - r * (15.0 - r * 105.0)))
    return math.exp(-0.5 * z * z) / (t * math.sqrt(2.0 * math.pi)) * series


def _near_even(predictive: Predictive, plain: int) -> list[int]:
    """Clicks at which the first of two passes stays near its even share, or one click off it on a coarse dial."""
    middle = predictive.moments(plain)[0]
    reach = 1 if _is_coarse(predictive, plain, COARSE_STEP) else 0
    near = []
    for click in _within_reach(predictive, plain, START_REACH):
        if abs(click - plain) <= reach or abs(predictive.moments(click)[0] - middle) <= EVEN_WITHIN:
            near.append(click)
    return near


def _within_reach(predictive: Predictive, plain: int, reach: int) -> list[int]:
    return list(range(max(1, plain - reach), min(plain + reach, predictive.clicks) + 1))


def _ahead(predictive: Predictive, load_kg_m2: float, plain: int, clicks: list[int]) -> int:
    """Of the plain choice and its neighbours, the click after which the last pass is likely to end best."""
    limit = max(1, last_click_within(predictive=predictive, rate_kg_m2=load_kg_m2, chance=MOST_CHANCE_EMPTY))
    best, least = plain, 1e300
    for click in clicks:
        if click > limit or (predictive.dead(click) > DOUBTFUL and click != plain):
            continue
        loss = _loss_after(predictive, click, load_kg_m2)
        if loss < least - 1e-9 * load_kg_m2:
            best, least = click, loss
    return best


def _is_coarse(predictive: Predictive, click: int, coarse_step: float) -> bool:
    """Tell whether the next click lies further off in rate than a ratio."""
    other = click + 1 if click < predictive.clicks else click - 1
    if predictive.dead(min(click, other)) > DOUBTFUL:
        return True
    return abs(predictive.moments(other)[0] - predictive.moments(click)[0]) > math.log(coarse_step)


def _loss_after(predictive: Predictive, click: int, load_kg_m2: float) -> float:
    """Expected loss of the last pass after a first one at this click has been measured (normal approximation)."""
    mean, var = predictive.moments(click)
    others = _seen_from(predictive, click, math.log(load_kg_m2))
    expected = 0.0
    for z, weight in NODES:
        miss = z * math.sqrt(var)
        used = math.exp(mean + miss)
        if used >= load_kg_m2:
            expected += weight * RUN_OUT_COST * load_kg_m2 * (1.0 - load_kg_m2 / used)
            continue
        left = load_kg_m2 - used
        log_left = math.log(left)
        least = 1.0
        for at, slope, sd in others:  # the widest open first
            ratio = at + slope * miss - log_left
            if ratio < NEAR:
                least = min(least, relative_loss(ratio, sd))
            if ratio < -NEAR - NEAR_SDS * sd:
                break
        expected += weight * least * left
    return expected


def _seen_from(predictive: Predictive, click: int, log_load: float) -> list[tuple[float, float, float]]:
    """Other clicks' mean log rate, how it moves with what this click does, and its sd once that is known."""
    var = predictive.moments(click)[1]
    others: list[tuple[float, float, float]] = []
    for other in range(predictive.clicks, 0, -1):
        at, other_var = predictive.moments(other)
        if predictive.dead(other) > DOUBTFUL or at - log_load < -FAR_BELOW:
            break
        if at - log_load > NEAR:
            continue
        slope = predictive.covariance(click, other) / var
        rest_var = other_var - slope * slope * var
        others.append((at, slope, math.sqrt(max(rest_var, predictive.next_var))))
    return others


def after_part(
    *, predictive: Predictive, opening: float, rate_kg_m2: float, done_share: float, sd: float
) -> Predictive:
    """What the clicks may put down on the rest of a pass, once part of it has been measured.

    Most of a pass's variance is taken to last for its whole length (damp, walking speed, the slack of the dial), the
    rest to come and go; the part's own rate therefore tells more of the rest than a pass of another day does. The
    pass may be a bad one; that is summed as in the fit.

    Args:
        predictive: what the clicks may put down, before this pass [Predictive]
        opening: share of travel walked so far [share; 0 to 1]
        rate_kg_m2: what it put down on the part walked [kg/m2; above 0]
        done_share: part walked over the whole pass [share; above 0, below 1]
        sd: relative error of that measurement [share]
    Returns:
        predictive: for the strips still to walk [Predictive]
    Source: computed
    """
    local = (1.0 - SHARED) * PASS_VAR
    seen_var = local / done_share + sd * sd
    rest_var = local / (1.0 - done_share)
    found: list[tuple[float, tuple[float, float, float, float]]] = []
    best = -1e300
    for part in predictive.parts:
        for chance, shift, more in _PASS_KINDS:
            height, curve = _updated(part, opening, math.log(rate_kg_m2), chance, shift, more, seen_var)
            found.append((height, curve))
            best = max(best, height)
    kept = [(math.exp(height - best), curve) for height, curve in found if height > best - NEGLIGIBLE]
    whole = 0.0
    for weight, _ in kept:
        whole += weight
    parts = [(w / whole, base, n, dead, math.sqrt(var + rest_var)) for w, (base, n, dead, var) in kept]
    rest = Predictive(parts=parts, openings=predictive.openings, pass_var=predictive.next_var)
    rest.pass_var = rest_var
    return rest


_PASS_KINDS = (
    (1.0 - BAD_CHANCE, 0.0, 0.0),
    (BAD_CHANCE, BAD_SHIFT, BAD_VAR),
)


def _updated(
    part: tuple[float, float, float, float, float],
    opening: float,
    seen: float,
    chance: float,
    shift: float,
    more_var: float,
    seen_var: float,
) -> tuple[float, tuple[float, float, float, float]]:
    """One curve of one kind of pass: log weight, and base, exponent, dead zone, variance of the level of this pass."""
    weight, base, exponent, dead_zone, sd = part
    var = sd * sd - (1.0 - SHARED) * PASS_VAR + more_var
    gap = max(opening - dead_zone, LEAST_GAP)
    miss = seen - base - exponent * math.log(gap) - shift
    spread = var + seen_var
    height = math.log(weight * chance) - 0.5 * (math.log(spread) + miss * miss / spread)
    gain = var / spread
    return height, (base + shift + gain * miss, exponent, dead_zone, var * (1.0 - gain))


def rest_click(
    *, predictive: Predictive, missing_kg_m2: float, empties_kg_m2: float, passes_to_go: int, apart: bool
) -> int:
    """Click for the strips still to walk of a pass, once its first part has been measured.

    Args:
        predictive: what the clicks may put down on these strips, from after_part [Predictive]
        missing_kg_m2: what these strips still lack, all passes together [kg/m2; above 0]
        empties_kg_m2: what there is now over the ground of these strips [kg/m2; above 0]
        passes_to_go: passes still to walk, this one included [passes; 1 to 20]
        apart: these strips are dialled apart from the others, so that the next pass can give each what it still
            lacks; only then is it looked ahead, which fills them unlike the others [true or false]
    Returns:
        click: whole click, 1 to the dial's last [clicks]
    Source: computed
    """
    load_kg_m2 = min(missing_kg_m2, empties_kg_m2)
    if passes_to_go == 1:
        return last_pass_click(predictive=predictive, left_kg_m2=load_kg_m2)
    plain = share_click(predictive=predictive, load_kg_m2=load_kg_m2, passes_to_go=passes_to_go)
    if not apart or passes_to_go != 2 or not _is_coarse(predictive, plain, CHECK_COARSE_STEP):
        return plain
    return _ahead(predictive, load_kg_m2, plain, _within_reach(predictive, plain, CHECK_REACH))
