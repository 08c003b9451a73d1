"""Soil warmth from air: a published running mean, moved by the household's own readings, and how far off it may be."""

import math

from lawn.engine.core.errors import impossible
from lawn.engine.core.numeric import number, optional_number, total, whole
from lawn.engine.core.rows import column, rows_of
from lawn.engine.core.working import COMMON, step

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

MOST_DAYS = 1000
MOST_READINGS = 1000
USUAL_DEPTH_MM = 100.0  # the depth the published running means were fitted at (zheng_1993)
USUAL_WINDOW = 11.0  # days
# The age of a linearly weighted mean is a third of its days; 50 mm more soil delay it by 1.3 days (okstate_sine).
DAYS_PER_MM = 3.0 * 1.3 / 50.0
LEAST_WINDOW = 3.0
# Bare, moist or thinly thatched ground follows the air sooner than the published mean: shares of its window that are
# tried where there are readings, and how likely each is before them (computed: the bench `mowing`).
SOONER = ((1.0, 0.5), (0.7, 0.3), (0.45, 0.2))
# Of the way to the mean of the year (biomebgc, a model of forests); on open turf it makes it worse (bench `mowing`).
TO_ANNUAL_SHARE = 0.2
# Published errors are 1.5 to 2.9 C (zheng_1993). Of their middle a part lasts for weeks (site, season) and is what
# readings correct; the rest comes and goes within days, and stays.
SLOW_C = 1.5
FAST_C = 1.6
FORGET_DAYS = 28.0  # the offset drifts with the season: of what a reading told, a third is left after so long
READING_ERROR_C = 1.0  # a household thermometer pushed in by hand, where its error was not told


def soil(
    *,
    days: object,
    depth_mm: float | None = None,
    start_c: float | None = None,
    annual_mean_c: float | None = None,
    readings: object = None,
) -> tuple[dict[str, object], "list[dict[str, object]]"]:
    """Daily mean temperature of the soil under grass, with its likely error.

    Args:
        days: the days in order, forecast ones last [list]
        days.mean_c: mean temperature of the air [C; -60 to 60]
        depth_mm?: depth in the soil; 100 when not said [mm; 20 to 300]
        start_c?: soil temperature on the first day, where it was measured [C; -30 to 50]
        annual_mean_c?: mean air temperature of the place's year: for ground under trees, where summer stays cooler
            and winter milder; left out on open turf [C; -30 to 40]
        readings?: own soil readings at that depth [list]
        readings.day: place of its day in the list, the first being 0 [place; 0 to 1000]
        readings.c: what the thermometer showed [C; -30 to 60]
        readings.error_c?: its likely error; 1 when not said [K; 0.05 to 10]
    Returns:
        daily_c: temperature of each day [list of numbers]
        sd_c: its likely error on each day [list of numbers]
        depth_mm: the depth they are for [mm]
        annual_mean_c: mean of the year as given; null where no day was moved towards one [C or null]
        offset_c: what the readings add on the last day [K]
        window_days: days of air that count, as the readings have shown where there are some [day]
        readings: readings used [count]
    Raises:
        out_of_range: an argument is outside its range
        impossible: a reading's day is not among the days
    Source: zheng_1993
    Checked: eleven days at 5 C then one at 16 C give 6.83 C before the move to the year's mean (biomebgc)
    """
    air = column("days", rows_of("days", days, ("mean_c",), MOST_DAYS), "mean_c")
    depth = optional_number("depth_mm", depth_mm)
    deep = USUAL_DEPTH_MM if depth is None else depth
    year = optional_number("annual_mean_c", annual_mean_c)
    seen = _readings(readings, start_c, len(air))
    ways = [_way(air, _window(deep) * share, chance, year, seen) for share, chance in (SOONER if seen else SOONER[:1])]
    daily, sds, window = _together(ways)
    plain = _plain_day(air, len(air) - 1, _window(deep), year)
    value: dict[str, object] = {
        "daily_c": daily,
        "sd_c": sds,
        "depth_mm": deep,
        "annual_mean_c": year,
        "offset_c": daily[-1] - plain,
        "window_days": window,
        "readings": len(seen),
    }
    return value, _working(air, value, plain, sds[-1])


def running_mean_c(air: list[float], at: int, window: float) -> float:
    """Mean of the last days weighted 1 (oldest) to `window` (newest); fewer at the start of a record."""
    window = min(window, at + 1.0)
    weights, found = 0.0, 0.0
    back = 0
    while back <= at and window - back > 0.0:
        weights += window - back
        found += (window - back) * air[at - back]
        back += 1
    return found / weights


def _window(depth_mm: float) -> float:
    return max(LEAST_WINDOW, USUAL_WINDOW + DAYS_PER_MM * (depth_mm - USUAL_DEPTH_MM))


def _plain_day(air: list[float], at: int, window: float, year: "float | None") -> float:
    mean = running_mean_c(air, at, window)
    return mean if year is None else mean + TO_ANNUAL_SHARE * (year - mean)


def _way(
    air: list[float], window: float, chance: float, year: "float | None", seen: "list[tuple[int, float, float]]"
) -> "dict[str, Any]":
    """One window: each day's temperature and variance, and how likely the window is after the readings."""
    plain = [_plain_day(air, at, window, year) for at in range(len(air))]
    offsets, variances, told = _offsets(plain, seen)
    return {
        "window": window,
        "told": math.log(chance) + told,
        "daily": [plain[at] + offsets[at] for at in range(len(air))],
        "variances": variances,
    }


def _together(ways: "list[dict[str, Any]]") -> "tuple[list[float], list[float], float]":
    """Temperatures, their likely errors and the window, over all windows by how likely each is."""
    most = max([way["told"] for way in ways])
    weights = [math.exp(way["told"] - most) for way in ways]
    whole_weight = total(weights)
    weights = [one / whole_weight for one in weights]
    daily, sds = [], []
    for at in range(len(ways[0]["daily"])):
        mean = total([weights[k] * ways[k]["daily"][at] for k in range(len(ways))])
        spread = FAST_C * FAST_C
        for k in range(len(ways)):
            off = ways[k]["daily"][at] - mean
            spread += weights[k] * (ways[k]["variances"][at] + off * off)
        daily.append(mean)
        sds.append(math.sqrt(spread))
    return daily, sds, total([weights[k] * ways[k]["window"] for k in range(len(ways))])


def _readings(readings: object, start_c: float | None, count: int) -> "list[tuple[int, float, float]]":
    """Readings as day, temperature, variance, in the order of their days."""
    found = []
    start = optional_number("start_c", start_c)
    if start is not None:
        found.append((0, start, READING_ERROR_C * READING_ERROR_C))
    if readings is None or readings == []:
        return found
    rows = rows_of("readings", readings, ("day", "c", "error_c"), MOST_READINGS)
    for at in range(len(rows)):
        path = "readings[" + str(at) + "]."
        day = whole(path + "day", rows[at].get("day"))
        if day >= count:
            message = "This reading's day is not among the days given."
            raise impossible(name=path + "day", value=day, message=message, low=0, high=count - 1)
        error = optional_number(path + "error_c", rows[at].get("error_c"))
        error = READING_ERROR_C if error is None else error
        found.append((day, number(path + "c", rows[at].get("c")), error * error))
    return sorted(found)


def _offsets(plain: list[float], seen: "list[tuple[int, float, float]]") -> "tuple[list[float], list[float], float]":
    """Offset and its variance on each day, and how well the readings were foretold.

    Forward by a scalar Kalman filter, then back over the days between.
    """
    keep = math.exp(-1.0 / FORGET_DAYS)
    slow = SLOW_C * SLOW_C
    means, variances = [], []
    mean, variance, next_seen, told = 0.0, slow, 0, 0.0
    for at in range(len(plain)):
        if at:
            mean, variance = _drift(mean, variance, keep, slow)
        while next_seen < len(seen) and seen[next_seen][0] == at:
            _, read, error = seen[next_seen]
            foretold = variance + error + FAST_C * FAST_C
            gain, off = variance / foretold, read - plain[at] - mean
            told -= 0.5 * (off * off / foretold + math.log(foretold))
            mean += gain * off
            variance *= 1.0 - gain
            next_seen += 1
        means.append(mean)
        variances.append(variance)
    means, variances = _smoothed(means, variances, keep, slow)
    return means, variances, told


def _drift(mean: float, variance: float, keep: float, slow: float) -> tuple[float, float]:
    return keep * mean, keep * keep * variance + (1.0 - keep * keep) * slow


def _smoothed(
    means: list[float], variances: list[float], keep: float, slow: float
) -> "tuple[list[float], list[float]]":
    """A later reading tells of the days before it too (Rauch, Tung and Striebel); the last day stays as it is."""
    means, variances = means[:], variances[:]
    for at in range(len(means) - 2, -1, -1):
        ahead, ahead_variance = _drift(means[at], variances[at], keep, slow)
        back = keep * variances[at] / ahead_variance
        means[at] += back * (means[at + 1] - ahead)
        variances[at] += back * back * (variances[at + 1] - ahead_variance)
    return means, variances


def _working(air: list[float], value: "dict[str, Any]", plain: float, sd: float) -> "list[dict[str, object]]":
    published = _window(value["depth_mm"])
    mean = running_mean_c(air, len(air) - 1, published)
    steps = [
        _step(
            "Days of air that count, as published",
            "11 at 100 mm; deeper soil lags, shallower follows sooner",
            {"depth_mm": value["depth_mm"]},
            published,
            "day",
            "okstate_sine",
        ),
        _step(
            "Weighted mean of the air up to the last day",
            "the newest day weighs most, each older one less by one",
            {"mean_c": air[-whole_days(published) :]},
            mean,
            "C",
            "biomebgc",
        ),
        _step("Depth", "as said, else that of the published means", {}, value["depth_mm"], "mm", "zheng_1993"),
        _step("Readings used", "those given, and the soil on the first day", {}, value["readings"], "readings", COMMON),
        _step(
            "Days of air that count here",
            "the published window, 0.7 and 0.45 of it, each by how well it foretold the readings",
            {"readings": value["readings"], "published_days": published},
            value["window_days"],
            "day",
            "computed",
        ),
    ]
    if value["annual_mean_c"] is not None:
        words = "as given, for ground under trees"
        steps.append(_step("Mean of the year", words, {}, value["annual_mean_c"], "C", "biomebgc"))
    steps += [
        _step(
            "Soil by the published mean",
            "the weighted mean, moved 0.2 of the way to the mean of the year where that is given",
            {"weighted_mean_c": mean, "annual_mean_c": value["annual_mean_c"]},
            plain,
            "C",
            "biomebgc",
        ),
        _step(
            "What own readings add on the last day",
            "each reading weighed by its error against what is known; a third of it is left after 4 weeks",
            {"readings": value["readings"], "forget_days": FORGET_DAYS},
            value["offset_c"],
            "K",
            COMMON,
        ),
        _step(
            "Soil on the last day",
            "the published mean and what readings add",
            {"published_c": plain, "offset_c": value["offset_c"]},
            value["daily_c"][-1],
            "C",
            "zheng_1993",
        ),
        _step(
            "Likely error on the last day",
            "root of the square of what lasts for weeks, less what readings settled, and of what days bring",
            {"lasting_error_c": SLOW_C, "of_days_error_c": FAST_C, "readings": value["readings"]},
            sd,
            "K",
            "zheng_1993",
        ),
    ]
    return steps


def _step(
    what: str, formula: str, numbers: "dict[str, object]", result: object, unit: str, source: str
) -> "dict[str, object]":
    numbers = numbers or {"as_given": result}
    return step(what=what, formula=formula, numbers=numbers, result=result, unit=unit, source=source)


def whole_days(window: float) -> int:
    """How many days a window reaches back over; a part of a day counts as one."""
    return int(window) if window == int(window) else int(window) + 1
