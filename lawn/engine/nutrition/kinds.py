"""Kinds of nitrogen: how long each lasts and how it answers to warm soil."""

import math

from lawn.engine.core.working import COMMON

KINDS = ("soluble", "sulfur_coated", "polymer_coated", "condensed", "ibdu", "natural")
WARM_C = 20.0  # soil at which the printed weeks hold (common practice: they are told of the growing season)
TEN_WEEKS = 70.0
# Soluble nitrogen lasts two to six weeks (cornell_n): spread over the four between.
SOLUBLE_DAYS = 28.0
# Free after ten warm weeks: manure and feather meal, biosolids, hog waste (cornell_n, ncsu_org); the middle one.
NATURAL_SHARE = 0.6
CONDENSED_SHARE = 0.85  # urea forms feed for eight to twelve weeks (stma_2016); the share is common practice
# Days of warm soil over which a coat or IBDU lets go evenly: eight to twelve weeks, some up to twenty (cornell_n).
EVEN_DAYS = {"sulfur_coated": 70.0, "polymer_coated": 84.0, "ibdu": 70.0}
# How fast, as a share of what it is at WARM_C, by soil temperature. What microbes let go falls off sharply once soil is
# in the 50s F (rutgers_org) and hardly any comes under 10 to 12.8 C; coats and IBDU are moderate in the cold, microbes
# low to very low (cornell_n). The figures between are common practice.
BY_MICROBES = ((10.0, 0.02), (12.8, 0.2), (15.6, 0.55), (20.0, 1.0), (30.0, 1.5))
BY_WATER = ((0.0, 0.2), (10.0, 0.5), (20.0, 1.0), (30.0, 1.5))
ANSWERS = {
    "soluble": ((0.0, 1.0),),
    "sulfur_coated": BY_WATER,
    "polymer_coated": BY_WATER,
    "ibdu": BY_WATER,
    "condensed": BY_MICROBES,
    "natural": BY_MICROBES,
}
SOURCES = {
    "soluble": "cornell_n",
    "sulfur_coated": "cornell_n",
    "polymer_coated": "cornell_n",
    "ibdu": "cornell_n",
    "condensed": "stma_2016",
    "natural": "rutgers_org",
}
# Weeks that a feed lasts, at least and at most, by how much of it is slow (cornell_n: soluble 2 to 6, slow 8 to 12, up
# to 20; between them common practice, on the careful side).
PART_SLOW, MOSTLY_SLOW = 0.2, 0.5
WEEKS = {"quick": (2.0, 6.0, "cornell_n"), "part": (5.0, 10.0, COMMON), "slow": (6.0, 12.0, "cornell_n")}


def between(*, table: "tuple[tuple[float, float], ...]", at: float) -> float:
    """Read a table of pairs at a place, straight between its rows and as its ends beyond them.

    Args:
        table: pairs of place and value, in order [list]
        at: the place [number]
    Returns:
        value: what stands there [number]
    Source: definition
    """
    if at <= table[0][0]:
        return table[0][1]
    for row in range(1, len(table)):
        low, high = table[row - 1], table[row]
        if at <= high[0]:
            return low[1] + (high[1] - low[1]) * (at - low[0]) / (high[0] - low[0])
    return table[-1][1]


def pace(*, source: str, soil_c: float) -> float:
    """How fast nitrogen comes free, as a share of what it is in warm soil.

    Args:
        source: kind of nitrogen [one of soluble, sulfur_coated, polymer_coated, condensed, ibdu, natural]
        soil_c: soil temperature [C; -40 to 60]
    Returns:
        pace: 1 at 20 C [share]
    Source: rutgers_org
    """
    return between(table=ANSWERS[source], at=soil_c)


def of_a_day(*, source: str, whole: float, left: float, soil_c: float, ten_weeks_share: float) -> float:
    """Nitrogen that comes free on one day.

    Args:
        source: kind of nitrogen [text]
        whole: nitrogen of this kind that was put down [kg/m2]
        left: what of it is not free yet [kg/m2]
        soil_c: soil temperature of the day [C]
        ten_weeks_share: share free after ten warm weeks, where it comes by microbes [share]
    Returns:
        free: what comes free [kg/m2]
    Source: cornell_n
    """
    speed = pace(source=source, soil_c=soil_c)
    if source == "soluble":
        return min(left, whole / SOLUBLE_DAYS)
    if source in EVEN_DAYS:
        return min(left, whole / EVEN_DAYS[source] * speed)
    share = CONDENSED_SHARE if source == "condensed" else ten_weeks_share
    return left * (1.0 - math.exp(math.log(1.0 - share) / TEN_WEEKS * speed))


def lasting(*, source: str, slow_n_share: float) -> str:
    """Which of the three lasting classes a feed is.

    Args:
        source: kind of its slow nitrogen [text]
        slow_n_share: slow-release share of its nitrogen [share]
    Returns:
        lasting: quick, part or slow [one of quick, part, slow]
    Source: common practice
    """
    if source == "natural" or slow_n_share >= MOSTLY_SLOW:
        return "slow"
    return "part" if slow_n_share >= PART_SLOW else "quick"
