"""How growth answers to temperature: the bell curve of growth potential, one place for all who use it."""

import math

# Optimum and width of the bell [C], by season of the grass (woods_2014).
OPTIMUM_C = {"cool": 20.0, "warm": 31.0}
WIDTH_C = {"cool": 5.5, "warm": 7.0}
TURFS = ("cool", "warm")


def response(mean_c: float, optimum_c: float, width_c: float, spread_c: float = 0.0, plateau: bool = False) -> float:
    """Share of the growth at the optimum; with a spread, its mean over a temperature that is off so far.

    A bell over a normal spread is a bell again, wider and lower. With a plateau (gs_gp_revised) warmth beyond the
    optimum takes nothing off, and of the bell only the part below the optimum counts.
    """
    off = mean_c - optimum_c
    if plateau and spread_c <= 0.0 and off >= 0.0:
        return 1.0
    wide = width_c * width_c + spread_c * spread_c
    bell = width_c / math.sqrt(wide) * math.exp(-0.5 * off * off / wide)
    if not plateau or spread_c <= 0.0:
        return bell
    below = chance_below(-off * width_c / (spread_c * math.sqrt(wide)))
    return chance_below(off / spread_c) + bell * below


def chance_below(deviations: float) -> float:
    """Chance that a normal value lies below so many standard deviations from its mean."""
    return 0.5 * math.erfc(-deviations * 0.7071067811865476)
