"""What a household does on an invented lawn, and what it can know: cuts and looks with their errors, forecasts."""

import math
import random
from dataclasses import dataclass
from functools import cache

from tests.bench.mowing.truths import Grown, Lawn
from tests.bench.mowing.weather import Day, days

RULER_MM, NOTCH_MM, CUT_MM = 3.0, 8.0, 2.0  # errors of a ruler, of "about a notch over", of the mower
NIGHTS = (2, 5)  # Wednesday and Saturday
FIRST_CUT = 60  # days into the weather
GROWN_SHARE = 1.3  # of the height wanted: then it looks long enough to mow
FORECAST_DAYS, AHEAD_DAYS = 16, 60
CLIMATE_SD_C = 3.5
FIRST_SD_C, MORE_SD_C = 0.8, 0.25  # error of a forecast of tomorrow, and of every day further
KEPT = 0.7  # of a day's forecast error is the next day's too


@dataclass(frozen=True)
class Cut:
    """A cut, and the look before it; the first has none."""

    at: int  # place of its day
    wanted_mm: float  # what the mower was set to
    true_mm: float  # what it left
    look_mm: float | None = None
    error_mm: float = 0.0


@dataclass(frozen=True)
class Ahead:
    """A day of a forecast, beyond its end of the climate."""

    mean_c: float
    sd_c: float
    rain_mm: float
    et0_mm: float


def cuts(on: Lawn, grown: Grown, weather: tuple[Day, ...]) -> list[Cut]:
    """The household mows on its nights when the grass looks long, to the height wanted or by a third."""
    rng = random.Random(on.seed + 99)
    found = [Cut(FIRST_CUT, on.target_mm, on.target_mm + rng.gauss(0.0, CUT_MM))]
    height = found[0].true_mm
    for at in range(FIRST_CUT + 1, len(weather) - 1):
        height += grown.growth_mm[at]
        if weather[at].date.weekday() in NIGHTS and height >= GROWN_SHARE * on.target_mm:
            error = RULER_MM if rng.random() < on.ruler else NOTCH_MM
            look = height + rng.gauss(0.0, error)
            wanted = max(on.target_mm, height * 2 / 3)
            height = wanted + rng.gauss(0.0, CUT_MM)
            found.append(Cut(at, wanted, height, look, error))
    return found


def true_days(on: Lawn, grown: Grown, cut: Cut) -> float | None:
    """Days from a cut until the grass truly stands at one and a half times the height wanted, where it does."""
    height, limit = cut.true_mm, 1.5 * on.target_mm
    if height >= limit:
        return None
    for past, growth in enumerate(grown.growth_mm[cut.at + 1 : cut.at + AHEAD_DAYS]):
        if height + growth >= limit:
            return past + (limit - height) / growth
        height += growth
    return None


@cache
def climate(place: str) -> dict[int, Ahead]:
    """Usual weather of each day of the year: what two weeks about it had, over all years."""
    by_day: dict[int, list[Day]] = {}
    for day in days(place):
        by_day.setdefault(day.date.timetuple().tm_yday, []).append(day)
    found = {}
    for number in range(1, 367):
        near = [day for off in range(-7, 8) for day in by_day.get((number + off - 1) % 365 + 1, [])]
        means = [
            sum(values) / len(near) for values in zip(*((d.mean_c, d.rain_mm, d.et0_mm) for d in near), strict=True)
        ]
        found[number] = Ahead(means[0], CLIMATE_SD_C, means[1], means[2])
    return found


def forecast(place: str, at: int, seed: int) -> list[Ahead]:
    """The days after one, as forecast then: errors grow with the lead and go together, rain fades to the usual."""
    rng = random.Random(seed * 1009 + at)
    found, error = [], 0.0
    for lead, day in enumerate(days(place)[at + 1 : at + AHEAD_DAYS], start=1):
        usual = climate(place)[day.date.timetuple().tm_yday]
        if lead > FORECAST_DAYS:
            found.append(usual)
            continue
        sd = min(CLIMATE_SD_C, FIRST_SD_C + MORE_SD_C * lead)
        error = KEPT * error + math.sqrt(1 - KEPT**2) * rng.gauss(0.0, 1.0)
        less = (sd / CLIMATE_SD_C) ** 2  # a forecast that knows little keeps to the climate
        mean = (1 - less) * day.mean_c + less * usual.mean_c + error * sd * math.sqrt(1 - less)
        seen = max(0.0, 1 - lead / 20)
        rain = seen * day.rain_mm * math.exp(rng.gauss(0.0, 0.3)) + (1 - seen) * usual.rain_mm
        found.append(Ahead(mean, sd, rain, (1 - less) * day.et0_mm + less * usual.et0_mm))
    return found
