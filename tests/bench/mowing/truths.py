"""How an invented lawn truly grows: nothing of it is of the engine's shape, and the engine sees none of it.

Warmth by cardinal temperatures (the beta curve), water by a bucket of the lawn's own size, nitrogen by what it draws
from a pool that feeds fill, light by the height of the sun, and weeks that are better or worse for no known reason.
"""

import random
from dataclasses import dataclass
from datetime import date

from tests.bench.mowing.weather import Day


@dataclass(frozen=True)
class Feed:
    """One feeding."""

    date: date
    n_kg_m2: float
    slow_share: float


@dataclass(frozen=True)
class Lawn:
    """An invented lawn and its household."""

    seed: int
    best_mm: float  # growth of a day with all it wants
    lowest_c: float
    optimum_c: float
    highest_c: float
    holds_mm: float
    bend: float  # of growth over what is missing
    recovers: float  # of what a drought took, a day
    uses: float
    native_n: float  # nitrogen response where nothing was fed
    n_half_kg_m2: float
    light_power: float
    target_mm: float
    ruler: float  # share of looks by ruler
    waters: bool
    feeds_a_year: int


def lawn(seed: int) -> Lawn:
    """Invent a lawn."""
    rng = random.Random(seed * 7919 + 5)
    return Lawn(
        seed=seed,
        best_mm=rng.uniform(4.0, 9.0),  # published growth at its best
        lowest_c=rng.uniform(-1.0, 5.0),
        optimum_c=rng.uniform(17.0, 24.0),
        highest_c=rng.uniform(31.0, 38.0),
        holds_mm=rng.uniform(20.0, 55.0),
        bend=rng.uniform(2.0, 5.0),
        recovers=rng.uniform(0.1, 0.4),
        uses=rng.uniform(0.65, 1.0),
        native_n=rng.uniform(0.45, 0.85),
        n_half_kg_m2=rng.uniform(0.0005, 0.002),
        light_power=rng.uniform(0.0, 0.4),
        target_mm=rng.uniform(50.0, 80.0),
        ruler=rng.choice((0.0, 0.5, 1.0)),
        waters=rng.random() < 0.5,
        feeds_a_year=rng.choice((0, 1, 2, 3, 4)),
    )


def beta(temperature_c: float, lowest_c: float, optimum_c: float, highest_c: float) -> float:
    """Share of growth at a temperature by the beta curve of cardinal temperatures (Yan and Hunt 1999)."""
    if not lowest_c < temperature_c < highest_c:
        return 0.0
    power = (optimum_c - lowest_c) / (highest_c - optimum_c)
    up = (temperature_c - lowest_c) / (optimum_c - lowest_c)
    return float((highest_c - temperature_c) / (highest_c - optimum_c) * up**power)


@dataclass(frozen=True)
class Grown:
    """What happened on a lawn over all days."""

    growth_mm: tuple[float, ...]
    watered_mm: tuple[float, ...]  # as the log has it: by the clock, so not exactly what fell
    feeds: tuple[Feed, ...]


def grow(on: Lawn, weather: tuple[Day, ...]) -> Grown:
    """Let a lawn grow over the days of a place."""
    rng = random.Random(on.seed * 31 + 11)
    feeds = _feeds(on, weather, rng)
    by_date = {feed.date: feed for feed in feeds}
    growth, logged = [], []
    missing, pool, slow, luck, vigor = 0.0, 0.0, 0.0, 0.0, 1.0
    since_water = 0
    for day in weather:
        since_water += 1
        water = 0.0
        if on.waters and since_water >= 4 and missing > 0.55 * on.holds_mm and 5 <= day.date.month <= 9:
            water, since_water = rng.uniform(8.0, 18.0), 0
        logged.append(water)
        fell = day.rain_mm + water * rng.uniform(0.8, 1.2)
        missing = max(0.0, missing - fell)
        dry = 1.0 - (missing / on.holds_mm) ** on.bend
        missing = min(on.holds_mm, missing + dry * on.uses * day.et0_mm)
        vigor += (dry - vigor) * (0.5 if dry < vigor else on.recovers)
        if feed := by_date.get(day.date):
            pool += feed.n_kg_m2 * (1 - feed.slow_share)
            slow += feed.n_kg_m2 * feed.slow_share
        warm = beta(day.mean_c, on.lowest_c, on.optimum_c, on.highest_c)
        freed = slow * 0.03 * max(0.2, warm)
        slow, pool = slow - freed, pool + freed
        rich = on.native_n + (1 - on.native_n) * pool / (pool + on.n_half_kg_m2)
        pool *= 1 - 0.015 - 0.035 * warm * vigor
        luck = 0.85 * luck + rng.gauss(0.0, 0.11)
        growth.append(on.best_mm * warm * vigor * rich * day.light**on.light_power * 2.718281828**luck)
    return Grown(tuple(growth), tuple(logged), feeds)


def _feeds(on: Lawn, weather: tuple[Day, ...], rng: random.Random) -> tuple[Feed, ...]:
    found = []
    for year in sorted({day.date.year for day in weather}):
        for month in sorted(rng.sample(range(4, 11), on.feeds_a_year)):
            slow = rng.choice((0.0, 0.3, 0.6))
            found.append(Feed(date(year, month, rng.randint(1, 28)), rng.uniform(0.0025, 0.0049), slow))
    return tuple(found)
