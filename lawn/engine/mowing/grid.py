"""What is believed of a lawn's growth: for every row of the grid a scale, what feed adds, and how likely it is."""

import math

from lawn.engine.core.numeric import total

ROWS = 18
BEST_MM = 5.5  # growth of a day at its best, where nothing is known: published ones are 4 to 9 mm
BEST_SD_MM = 2.75
FEED_MM = 1.5  # what a full feed adds, where nothing is known
FEED_SD_MM = 1.5
DRIFT = 0.01  # variance a week, as a share of the scale's square
MISFIT_SHARE = 0.15  # what no row explains
FORGET = 0.95  # of a row's evidence is kept at the next look
LEAST_MM = 0.3
LEAST_SEEN_MM, LEAST_FORETOLD_MM = 1.0, 0.5  # below them a height tells no more than that nothing grew
LONG_MM = 12.0  # grass that grew less was not cut for being long: its error counts against what was foretold
LEAST_WEIGHT = 1e-6


def fresh() -> "list[list[float]]":
    """The rows before anything was seen: log weight, scale, feed, and their variances."""
    scale, feed = BEST_SD_MM * BEST_SD_MM, FEED_SD_MM * FEED_SD_MM
    return [[0.0, BEST_MM, FEED_MM, scale, 0.0, feed] for _ in range(ROWS)]


def wait(rows: "list[list[float]]", weeks: float) -> None:
    """Let time pass: a lawn's vigour changes."""
    for row in rows:
        row[3] += DRIFT * weeks * row[1] * row[1]
        row[5] += DRIFT * weeks * row[2] * row[2] * 0.25


def look(rows: "list[list[float]]", sums: "list[tuple[float, float, float]]", grown_mm: float, error_mm: float) -> None:
    """Learn from a height: every row's scale by a Kalman step, its weight by how well it had foretold the growth.

    The step goes by the logarithm. People cut when the grass is long, so from look to look the days vary more than the
    growth; by the difference of heights slow spells, being long, would count for more, and every forecast come late
    (computed: the bench `mowing`).
    """
    seen = max(grown_mm, LEAST_SEEN_MM)
    for at in range(len(rows)):
        row, (plain, fed, _) = rows[at], sums[at]
        foretold = max(LEAST_FORETOLD_MM, row[1] * plain + row[2] * fed)
        by_scale, by_feed = plain / foretold, fed / foretold
        towards_scale = row[3] * by_scale + row[4] * by_feed
        towards_feed = row[4] * by_scale + row[5] * by_feed
        error = error_mm / max(seen, min(foretold, LONG_MM))
        variance = by_scale * towards_scale + by_feed * towards_feed + MISFIT_SHARE * MISFIT_SHARE + error * error
        off = math.log(seen / foretold)
        row[0] = FORGET * row[0] - 0.5 * (off * off / variance + math.log(variance))
        row[1] = max(LEAST_MM, _moved(row[1], towards_scale / variance * off))
        row[2] = max(0.0, row[2] + towards_feed / variance * off)  # a feed may do nothing; it slows no grass
        row[3] -= towards_scale * towards_scale / variance
        row[4] -= towards_scale * towards_feed / variance
        row[5] -= towards_feed * towards_feed / variance
    most = max([row[0] for row in rows])
    for row in rows:
        row[0] = max(row[0] - most, math.log(LEAST_WEIGHT))


def _moved(scale: float, by: float) -> float:
    """A scale moved, down by shares of itself: a straight step down would overshoot."""
    return scale + by if by >= 0.0 else scale * math.exp(by / scale)


def weights(rows: "list[list[float]]") -> list[float]:
    """How likely each row is."""
    found = [math.exp(row[0]) for row in rows]
    whole = total(found)
    return [one / whole for one in found]
