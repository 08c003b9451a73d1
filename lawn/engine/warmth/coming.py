"""What days not measured add to warmth of the soil: doubt of their air, and when it passes what a job waits for."""

import math

from lawn.engine.warmth.soil import whole_days

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

MEASURED_SD_C = 0.7  # air of a station near by: the published error of the soil holds it already (common practice)
IN_A_ROW = 3  # days beyond a mark before it counts as passed: crabgrass is told by a mean of three (ncsu_2017)
TURN_DAYS = 30  # a turn so far ahead is one of the year; a nearer one may be a cold week (common practice)
# Of a day's error the next day has so much too: warm and cold spells last for days, so they do not cancel in a mean of
# days (common practice: means of neighbouring days go together by 0.6 to 0.8).
SHARED = 0.7


def air_variances(sds: "list[float]", settled: int, window: float) -> "list[float]":
    """Variance of each day's weighted mean of the air.

    From how far off each day's air may be; up to day `settled` a reading told of the soil itself.
    """
    more = [0.0 if at <= settled else _beyond_measured(sds[at]) for at in range(len(sds))]
    shares = [SHARED**apart for apart in range(whole_days(window))]
    return [_variance(more, at, window, shares) for at in range(len(sds))]


def _beyond_measured(sd: float) -> float:
    return math.sqrt(max(0.0, sd * sd - MEASURED_SD_C * MEASURED_SD_C))


def _variance(sds: "list[float]", at: int, window: float, shares: "list[float]") -> float:
    window = min(window, at + 1.0)
    found, weights, back = 0.0, 0.0, 0
    offs: list[tuple[int, float]] = []
    while back <= at and window - back > 0.0:
        weights += window - back
        off = (window - back) * sds[at - back]
        if off > 0.0:
            found += off * off
            for other, its in offs:
                found += 2.0 * off * its * shares[back - other]
            offs.append((back, off))
        back += 1
    return found / (weights * weights)


def passing(coming: "list[dict[str, Any]]", mark: float) -> "dict[str, object]":
    """The side of a mark that the first of these days is on, and when the other is reached; nulls where it is not."""
    if not coming:
        return {"now": None, "passes": None, "earliest": None, "latest": None}
    below = coming[0]["mid"] < mark
    passes = _beyond(coming, 0, "mid", mark, below)
    turn = _turn(coming, len(coming) if passes is None else passes, below)
    earliest = _beyond(coming, turn, "high" if below else "low", mark, below)
    latest = _beyond(coming, turn, "low" if below else "high", mark, below)
    return {
        "now": "below" if below else "above",
        "passes": _date(coming, passes),
        "earliest": _date(coming, earliest),
        "latest": _date(coming, latest),
    }


def _turn(coming: "list[dict[str, Any]]", end: int, below: bool) -> int:
    """The day from which soil is on its way to a mark: in autumn it cools first and does not come nearer."""
    found = 0
    for at in range(1, end):
        if (coming[at]["mid"] < coming[found]["mid"]) == below and coming[at]["mid"] != coming[found]["mid"]:
            found = at
    return found if found >= TURN_DAYS else 0


def _date(coming: "list[dict[str, Any]]", at: "int | None") -> "str | None":
    return None if at is None else str(coming[at]["date"])


def _beyond(coming: "list[dict[str, Any]]", begin: int, of: str, mark: float, upward: bool) -> "int | None":
    in_a_row = 0
    for at in range(begin, len(coming)):
        in_a_row = in_a_row + 1 if (coming[at][of] >= mark) == upward else 0
        if in_a_row == IN_A_ROW:
            return at + 1 - IN_A_ROW
    return None
