"""Soil warmth against a made truth: heat conducted through two layers under grass, driven by the weather of each hour.

The truth knows the sun, the wind, the dew point and the clouds; the engine knows the day's mean air temperature and a
thermometer pushed in every two weeks. A thatch and root layer lies on mineral soil; each invented site has its own
heat capacities, conductivities, shade and moisture.
"""

import math
import random
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from tests.bench.mowing.methods import ask
from tests.bench.mowing.weather import Hour, hours

SITES = 12
SEED = 900  # the windows and errors were chosen on sites 300 to 311
DEPTH_MM = 100
EVERY_DAYS = 14
THERMOMETER_C = 1.0
STRIDE = 3  # every third day is judged
CELLS_M = (0.025, 0.03, 0.03, 0.04, 0.06, 0.1, 0.2, 0.4, 0.8, 1.6)
DEEP_CELL = 3  # its middle is 10.5 cm down
THATCH_CELLS = 1
STEPS = 20  # within an hour
LIMIT_C = 2.0
BOLTZMANN = 5.67e-8
IN_GRASS = 0.3  # of the wind at 10 m is left at the ground
YEAR = 365
Numbers = NDArray[np.float64]


@dataclass(frozen=True)
class Site:
    """An invented site."""

    thatch_w_m_k: float
    soil_w_m_k: float
    thatch_mj_m3_k: float
    soil_mj_m3_k: float
    sun: float  # share of the sun that reaches the grass
    wet: float  # share of what a wet surface would evaporate


@dataclass(frozen=True)
class Soil:
    """What was found over all sites, in the second year."""

    what: str
    error_c: float
    bias_c: float
    held: float  # within 1.28 of the likely errors said: 80 % where they are right


def site(seed: int) -> Site:
    """Invent a site."""
    rng = random.Random(seed)
    return Site(
        rng.uniform(0.15, 0.4),
        rng.uniform(0.6, 1.6),
        rng.uniform(0.8, 2.0),
        rng.uniform(1.8, 3.0),
        rng.uniform(0.4, 1.0),
        rng.uniform(0.4, 0.9),
    )


def truths_c(sites: list[Site]) -> list[list[float]]:
    """Daily mean temperature at the depth of every site over two like years, after one to settle."""
    year = hours()
    cells = np.full((len(sites), len(CELLS_M)), sum(hour.air_c for hour in year) / len(year))
    carry, holds = _ground(sites)
    sun, wet = np.array([one.sun for one in sites]), np.array([one.wet for one in sites])
    daily = np.zeros((YEAR, len(sites)))
    for settled in (False, True):
        for at, hour in enumerate(year):
            for _ in range(STEPS):
                flows = carry * (cells[:, :-1] - cells[:, 1:])
                cells[:, 0] += _surface(sun, wet, cells[:, 0], hour) * 3600 / STEPS / holds[:, 0]
                cells[:, :-1] -= flows * 3600 / STEPS / holds[:, :-1]
                cells[:, 1:] += flows * 3600 / STEPS / holds[:, 1:]
            if settled:
                daily[at // 24] += cells[:, DEEP_CELL] / 24
    return [[float(one) for one in daily[:, number]] * 2 for number in range(len(sites))]


def _ground(sites: list[Site]) -> tuple[Numbers, Numbers]:
    """Heat that goes from cell to cell by degree of difference, and heat each cell holds by degree."""
    thick = np.array(CELLS_M)
    top = np.arange(len(CELLS_M)) < THATCH_CELLS
    leads = np.array([np.where(top, one.thatch_w_m_k, one.soil_w_m_k) for one in sites])
    holds = np.array([np.where(top, one.thatch_mj_m3_k, one.soil_mj_m3_k) for one in sites]) * 1e6 * thick
    half = thick / 2 / leads
    return 1 / (half[:, :-1] + half[:, 1:]), holds


def _surface(sun: Numbers, wet: Numbers, top_c: Numbers, hour: Hour) -> Numbers:
    """Heat into the ground: sun and sky, less what is sent back, warmed into the wind, and evaporated."""
    damp = 6.108 * math.exp(17.27 * hour.dew_point_c / (hour.dew_point_c + 237.3))
    sky = min(1.0, (0.53 + 0.06 * math.sqrt(damp)) * (1 + 0.22 * hour.clouds**2.7))
    long = 0.96 * BOLTZMANN * (sky * (hour.air_c + 273.2) ** 4 - (top_c + 273.2) ** 4)
    blown = 5.7 + 3.8 * IN_GRASS * hour.wind_m_s  # Juerges
    could = 6.108 * np.exp(17.27 * top_c / (top_c + 237.3))
    dried = wet * blown / 0.66 * np.maximum(0.0, could - damp) * 0.35
    warmed: Numbers = 0.77 * sun * hour.sun_w_m2 + long - blown * (top_c - hour.air_c) - dried
    return warmed


def measure(sites: int = SITES, seed: int = SEED) -> list[Soil]:
    """All sites: with no readings, with one every two weeks as known by then, and looking back on them."""
    year = hours()
    air = [sum(hour.air_c for hour in year[day * 24 : day * 24 + 24]) / 24 for day in range(YEAR)] * 2
    kinds: dict[str, list[tuple[float, float]]] = {}
    numbers = range(seed, seed + sites)
    for number, truth in zip(numbers, truths_c([site(one) for one in numbers]), strict=True):
        rng = random.Random(number + 7)
        readings = [
            {"day": day, "c": truth[day] + rng.gauss(0.0, THERMOMETER_C), "error_c": THERMOMETER_C}
            for day in range(3, 2 * YEAR, EVERY_DAYS)
        ]
        for what, found in _ways(air, readings).items():
            kinds.setdefault(what, []).extend(
                (said - truth[day], sd) for day, (said, sd) in enumerate(found) if day >= YEAR and day % STRIDE == 0
            )
    return [_soil(what, rows) for what, rows in kinds.items()]


def _ways(air: list[float], readings: list[dict[str, float]]) -> dict[str, list[tuple[float, float]]]:
    days = [{"mean_c": one} for one in air]
    plain = ask("warmth.soil", days=days, depth_mm=DEPTH_MM)
    moved = ask("warmth.soil", days=days, annual_mean_c=sum(air) / len(air), depth_mm=DEPTH_MM)
    back = ask("warmth.soil", days=days, depth_mm=DEPTH_MM, readings=readings)
    then: list[tuple[float, float]] = []
    for day in range(len(days)):
        if day < YEAR or day % STRIDE:
            then.append((0.0, 1.0))
            continue
        known = [one for one in readings if one["day"] <= day]
        first = max(0, day - 120)  # of older readings nothing is left
        near = [{**one, "day": one["day"] - first} for one in known if one["day"] >= first]
        said = ask("warmth.soil", days=days[first : day + 1], depth_mm=DEPTH_MM, readings=near)
        then.append((said["daily_c"][-1], said["sd_c"][-1]))
    return {
        "no readings": list(zip(plain["daily_c"], plain["sd_c"], strict=True)),
        "no readings, moved as under trees": list(zip(moved["daily_c"], moved["sd_c"], strict=True)),
        "a reading every two weeks, as known that day": then,
        "the same, looking back": list(zip(back["daily_c"], back["sd_c"], strict=True)),
    }


def _soil(what: str, rows: list[tuple[float, float]]) -> Soil:
    count = len(rows)
    return Soil(
        what,
        math.sqrt(sum(off * off for off, _ in rows) / count),
        sum(off for off, _ in rows) / count,
        sum(abs(off) <= 1.2816 * sd for off, sd in rows) / count,
    )


def lines(found: list[Soil], sites: int = SITES) -> list[str]:
    """As a person reads it."""
    head = f"  {'':46}{'error C':>9}{'bias C':>9}{'held':>8}"
    rows = [f"  {one.what:46}{one.error_c:>9.2f}{one.bias_c:>+9.2f}{one.held:>8.1%}" for one in found]
    return [f"soil at {DEPTH_MM} mm, {sites} invented sites; error = root of the mean square", head, *rows]
