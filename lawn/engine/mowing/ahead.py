"""How high the grass will stand, row by row of the grid, and by when it is due."""

import math

from lawn.engine.mowing import grid
from lawn.engine.warmth.response import chance_below

TOGETHER = 0.5  # how far errors of a forecast's days go the same way (common practice)


def heights(
    rows: "list[list[float]]",
    start_mm: float,
    error_mm: float,
    days: "list[list[tuple[float, float, float]]]",
) -> "list[list[tuple[float, float]]]":
    """For each day, every row's expected height and its variance."""
    sums = [[0.0, 0.0, 0.0] for _ in rows]
    found = []
    for day in days:
        now = []
        for at in range(len(rows)):
            one, part = sums[at], day[at]
            one[0] += part[0]
            one[1] += part[1]
            one[2] += part[2]
            now.append(_height(rows[at], one, start_mm, error_mm))
        found.append(now)
    return found


def _height(row: list[float], sums: list[float], start_mm: float, error_mm: float) -> "tuple[float, float]":
    plain, fed, shift = sums
    grown = max(0.0, row[1] * plain + row[2] * fed)
    misfit = grid.MISFIT_SHARE * grown
    doubt = TOGETHER * shift * row[1]
    variance = row[3] * plain * plain + 2.0 * row[4] * plain * fed + row[5] * fed * fed
    return start_mm + grown, variance + misfit * misfit + doubt * doubt + error_mm * error_mm


def reached(weights: list[float], now: "list[tuple[float, float]]", limit_mm: float) -> float:
    """Chance that a day's height has reached a limit."""
    found = 0.0
    for at in range(len(weights)):
        mean, variance = now[at]
        found += weights[at] * chance_below((mean - limit_mm) / math.sqrt(variance))
    return found


def moments(weights: list[float], now: "list[tuple[float, float]]") -> "tuple[float, float]":
    """Expected height over all rows, and its likely error."""
    mean = 0.0
    for at in range(len(weights)):
        mean += weights[at] * now[at][0]
    variance = 0.0
    for at in range(len(weights)):
        off = now[at][0] - mean
        variance += weights[at] * (now[at][1] + off * off)
    return mean, math.sqrt(variance)


def days_until(begin: float, chances: list[float], wanted: float) -> "float | None":
    """Days until a chance is reached, between days by a straight line; None where it is not."""
    before = begin
    if before >= wanted:
        return 0.0
    for at in range(len(chances)):
        if chances[at] >= wanted:
            return at + (wanted - before) / (chances[at] - before)
        before = chances[at]
    return None
