"""The posterior of a dial: an exact, closed-form answer to "what does each click put down", learned from passes.

Every grid point (exponent, edge of the port, travel of the port) is one possible curve; likelihood.py says how well
past passes fit it. "No pass was bad" and "pass k was bad" are summed. What never flowed counts too.
"""

import math
from collections import namedtuple

from lawn.engine.dial.likelihood import (
    BAD_VAR,
    EDGES,
    EXPONENTS,
    FEWEST_FOR_BAD,
    MARGIN_GRANULES,
    NEGLIGIBLE,
    PASS_SD,
    REFERENCE_GRANULE_MM,
    TRAVELS_MM,
    Group,
    Pass,
    Product,
    Seen,
    Sums,
    dead_zone,
    peak,
)

# One possible curve of the product: log rate = base + exponent * log(u - dead_zone); level_var is that of base.
Curve = namedtuple("Curve", ("weight", "base", "exponent", "dead_zone", "level_var"))
Posterior = namedtuple("Posterior", ("curves", "bad_chances", "pass_var"))

# Source: computed (the design's simulation) unless a line says otherwise.
REFERENCE_DENSITY_KG_M3 = 780.0
OFFSET_SD = 0.25  # of a product whose density is not known
OFFSET_SD_BY_DENSITY = 0.15
# Seed and lime beside fertilizer (source: computed, from the range of seed in the table of bulk densities, 180 to
# 390 kg/m3 against 780; seed flows worse than round grains besides): where no density is told, and where one is.
UNLIKE_SD = 0.7
UNLIKE_SD_BY_DENSITY = 0.5
OFFSET_SD_GRANULES_UNKNOWN = 0.25  # added in squares where the granule size is not known
UNKNOWN_GRANULE_MM = 1.6
MIDDLE_TRAVEL_MM = 21.0
NOTHING_ANYWAY = 0.03  # chance that nothing comes at an opening that should flow
MOST_PASSES = 30
DROPPED_WEIGHT = 3e-4  # curves that together weigh less are left out


def latest_passes(passes: list[Pass]) -> list[Pass]:
    """The last 30 passes, oldest first, but so that each product keeps its latest one."""
    if len(passes) <= MOST_PASSES:
        return passes
    kept: list[int] = []
    met: list[str] = []
    backwards = list(range(len(passes) - 1, -1, -1))
    for place in backwards:
        if passes[place].product not in met and len(kept) < MOST_PASSES:
            met.append(passes[place].product)
            kept.append(place)
    for place in backwards:
        if place not in kept and len(kept) < MOST_PASSES:
            kept.append(place)
    return [passes[place] for place in sorted(kept)]


def fit(
    *, passes: list[Pass], product: Product, pass_sd: float = PASS_SD, unlike: list[str] | None = None
) -> Posterior:
    """Learn the curves of a product on this spreader from past passes of any product.

    Args:
        passes: past passes, oldest first, any number; the last 30 count [list]
        product: the product to be spread [Product]
        pass_sd: how far one pass differs from the next, nothing changed [share; above 0]
        unlike: products that are seed or lime; what others taught says little of them, nor they of others [list]
    Returns:
        posterior: weighted curves for this product, heaviest first, and each used pass's chance of being bad
            [Posterior]
    Source: computed
    Checked: the dial-model examples of the reference page, with a pass's noise at 0.085
    """
    used = latest_passes(passes)
    groups, of_product = _groups(used, product, unlike or [])
    own = of_product[product.id]
    seen = [
        _seen(one, groups[of_product[one.product]], of_product[one.product], pass_sd) for one in used if not one.nothing
    ]
    sums = Sums(seen, groups, own)
    places = [sums.rows(edge, travel_mm) for edge in EDGES for travel_mm in TRAVELS_MM]
    cells, bad = _collapse(places, len(seen))
    own_mm = _mm(product.granule_mm)
    curves = [_curve(cell, own_mm, groups[own].mean) for cell in cells]
    for one in used:
        if one.nothing:
            curves = _after_nothing(curves, one.opening, _mm(one.granule_mm) - own_mm)
    return Posterior(_heaviest(curves), _bad_chances(bad, used), pass_sd**2)


def _mm(diameter_mm: float | None) -> float:
    return UNKNOWN_GRANULE_MM if diameter_mm is None else diameter_mm


def densities(passes: list[Pass], product: Product) -> dict[str, float | None]:
    """Latest known bulk density of every product met, the one to be spread last [kg/m3]."""
    known: dict[str, float | None] = {}
    for name, density_kg_m3 in [(one.product, one.density_kg_m3) for one in passes] + [
        (product.id, product.density_kg_m3)
    ]:
        if density_kg_m3 is not None or name not in known:
            known[name] = density_kg_m3
    return known


def _groups(passes: list[Pass], product: Product, unlike: list[str]) -> tuple[list[Group], dict[str, int]]:
    """Prior offset of every product met, by its latest known density and granules."""
    density = densities(passes, product)
    granule: dict[str, float | None] = {}
    order: list[str] = []
    for name, granule_mm in [(one.product, one.granule_mm) for one in passes] + [(product.id, product.granule_mm)]:
        if name not in order:
            order.append(name)
        if granule_mm is not None or name not in granule:
            granule[name] = granule_mm
    groups = [_group(density[name], granule[name], name in unlike) for name in order]
    return groups, {name: place for place, name in enumerate(order)}


def _group(density_kg_m3: float | None, granule_mm: float | None, unlike: bool) -> Group:
    more = 0.0 if granule_mm is not None else OFFSET_SD_GRANULES_UNKNOWN**2
    if unlike:
        more += (UNLIKE_SD if density_kg_m3 is None else UNLIKE_SD_BY_DENSITY) ** 2
    if density_kg_m3 is None:
        return Group(0.0, OFFSET_SD**2 + more)
    return Group(math.log(density_kg_m3 / REFERENCE_DENSITY_KG_M3), OFFSET_SD_BY_DENSITY**2 + more)


def _seen(one: Pass, group: Group, place: int, pass_sd: float) -> Seen:
    var = pass_sd**2 + one.sd**2
    return Seen(place, one.opening, _mm(one.granule_mm), one.log_rate - group.mean, 1.0 / var, 1.0 / (var + BAD_VAR))


def _collapse(places: list[list[tuple[float, ...]]], count: int) -> tuple[list[list[float]], list[float]]:
    """Sum the suspicions at every grid point: weight, mean and second moment; and each pass's bad weight."""
    best = max([peak(row[3], row[4], row[5]) for rows in places for row in rows])
    floor = best - NEGLIGIBLE
    found: list[list[float]] = []
    bad = [0.0] * (count + 1)  # the last one gathers "none was bad", whose place is -1
    for rows in places:
        cells = [[rows[0][0], rows[0][1], n, 0.0, 0.0, 0.0] for n in EXPONENTS]
        for _, _, place, c0, c1, c2, mean0, mean1, var in rows:
            if peak(c0, c1, c2) >= floor:
                for cell in cells:
                    n = cell[2]
                    height = c0 + n * (c1 + c2 * n)
                    if height >= floor:
                        weight = math.exp(height - best)
                        mean = mean0 + mean1 * n
                        cell[3] += weight
                        cell[4] += weight * mean
                        cell[5] += weight * (mean * mean + var)
                        bad[int(place)] += weight
        found.extend([cell for cell in cells if cell[3] > 0.0])
    return found, bad


def _curve(cell: list[float], own_mm: float, offset: float) -> Curve:
    """One grid point's curve for the product to be spread; its level as one normal of the same two moments."""
    edge, travel_mm, n, weight, first, second = cell
    mean = first / weight
    half = math.log(0.5 - dead_zone(edge, travel_mm, REFERENCE_GRANULE_MM))
    var = max(second / weight - mean * mean, 1e-9)
    return Curve(weight, mean + offset - n * half, n, dead_zone(edge, travel_mm, own_mm), var)


def _after_nothing(curves: list[Curve], opening: float, wider_mm: float) -> list[Curve]:
    """Weigh the curves by an opening at which nothing came out; granules wider by so much have a wider dead zone."""
    weighed: list[Curve] = []
    for curve in curves:
        closed_below = curve.dead_zone + MARGIN_GRANULES * wider_mm / MIDDLE_TRAVEL_MM
        weighed.append(_weighed(curve, curve.weight * (NOTHING_ANYWAY if opening > closed_below else 1.0)))
    return weighed


def _weighed(curve: Curve, weight: float) -> Curve:
    return Curve(weight, curve.base, curve.exponent, curve.dead_zone, curve.level_var)


def _heaviest(curves: list[Curve]) -> list[Curve]:
    """The heaviest curves, weights made to sum to 1; the lightest ones of next to no weight are dropped."""
    order = sorted([(-curve.weight, place) for place, curve in enumerate(curves)])
    whole = 0.0
    for curve in curves:
        whole += curve.weight
    kept: list[Curve] = []
    so_far = 0.0
    for _, place in order:
        kept.append(curves[place])
        so_far += curves[place].weight
        if so_far >= (1.0 - DROPPED_WEIGHT) * whole:
            break
    return [_weighed(one, one.weight / so_far) for one in kept]


def _bad_chances(bad: list[float], passes: list[Pass]) -> list[tuple[int, float]]:
    """Each flowing pass's place in the history and its chance of having been bad; none where none was suspected."""
    if len(bad) - 1 < FEWEST_FOR_BAD:
        return []
    whole = 0.0
    for weight in bad:
        whole += weight
    flowing = [one.index for one in passes if not one.nothing]
    return [(index, bad[place] / whole) for place, index in enumerate(flowing)]
