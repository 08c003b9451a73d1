"""Growth from warmth, water and feed: a small grid of answers to temperature, each with and without water."""

import math

from lawn.engine.warmth.response import response

# Optimum and width [C] of each answer to temperature (computed: the bench `mowing`); the published curve is among them.
COOL = tuple([(optimum, width) for optimum in (17.0, 20.0, 23.0) for width in (5.5, 8.0, 12.0)])
WARM = tuple([(optimum, width) for optimum in (28.0, 31.0, 34.0) for width in (5.5, 7.0, 10.0)])
SHAPES = {"cool": COOL, "warm": WARM}
FEED_LASTS_DAYS = 20.0  # quick nitrogen is seen for 2 to 6 weeks (cornell_n)
FEED_SEEN_DAYS = 5.0  # and after days to a week
SLOW_FREE_DAYS = 70.0  # slow nitrogen comes free over 8 to 12 weeks (cornell_n)
FULL_FEED_KG_M2 = 0.005  # of nitrogen at work: the most a month's growth asks for (gs_n)
STEP_C = 0.5  # for how much a degree more or less would change growth


def fed_share(feeds: "list[tuple[int, float, float]]", day: int) -> float:
    """How far feeds are at work on a day: 0 nothing, 1 a full month's nitrogen; feeds are day, nitrogen, slow share."""
    found = 0.0
    for fed, n_kg_m2, slow in feeds:
        past = float(day - fed)
        if past > 0.0:
            found += n_kg_m2 * ((1.0 - slow) * _quick(past) + slow * _slow(past))
    return min(1.0, found / FULL_FEED_KG_M2)


def _quick(past: float) -> float:
    return min(1.0, past / FEED_SEEN_DAYS) * math.exp(-past / FEED_LASTS_DAYS)


def _slow(past: float) -> float:
    """Freed evenly, and used up as it comes."""
    freeing = min(past, SLOW_FREE_DAYS)
    held = FEED_LASTS_DAYS / SLOW_FREE_DAYS * (1.0 - math.exp(-freeing / FEED_LASTS_DAYS))
    return held * math.exp(-(past - freeing) / FEED_LASTS_DAYS)


def answers(turf: str, mean_c: float, sd_c: float) -> "list[tuple[float, float]]":
    """For every answer to temperature, the share of growth a day allows and what the weather's doubt may shift."""
    found = []
    for optimum, width in SHAPES[turf]:
        share = response(mean_c, optimum, width, sd_c, turf == "warm")
        shift = _shift(mean_c, optimum, width, sd_c, share, turf == "warm") if sd_c > 0.0 else 0.0
        found.append((share, shift))
    return found


def day_growth(warm: "list[tuple[float, float]]", water: float, fed: float) -> "list[tuple[float, float, float]]":
    """For every row of the grid, a day's growth at scale 1: plain, of feed, and what the weather's doubt may shift.

    Rows come in pairs: the answer to temperature alone, then the same times the water the grass gets.
    """
    found = []
    for share, shift in warm:
        found.append((share, share * fed, shift))
        found.append((share * water, share * water * fed, shift * water))
    return found


def _shift(mean_c: float, optimum: float, width: float, sd_c: float, share: float, plateau: bool) -> float:
    """Change of a day's growth where all days of a forecast come out warmer by their error."""
    if plateau and mean_c >= optimum:
        return 0.0
    return share * (optimum - mean_c) / (width * width + sd_c * sd_c) * sd_c
