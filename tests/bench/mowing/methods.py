"""Ways of saying when the grass is due: ours through the engine's door, the last rate, and three that know nothing."""

from dataclasses import dataclass, field
from datetime import timedelta
from typing import Any, Protocol

from lawn.engine.door import call
from tests.bench.mowing.household import AHEAD_DAYS, Ahead, Cut
from tests.bench.mowing.truths import Grown, Lawn
from tests.bench.mowing.weather import Day

Json = dict[str, Any]
WEEK_MM = 38.1  # 1.5 in a week: what a healthy lawn is said to grow (unl_growth)
RECENT_DAYS = 14  # watering of so many days is taken to go on


@dataclass(frozen=True)
class Said:
    """Days from a cut until it is due; ours with the 80 % range."""

    mid: float
    low: float | None = None
    high: float | None = None


class Method(Protocol):
    """A way of saying it, told of every cut and look in turn."""

    def seen(self, before: Cut, now: Cut) -> None:
        """A look, taken before a cut."""

    def due(self, cut: Cut, ahead: list[Ahead]) -> Said | None:
        """How long from a cut, or None where it cannot say yet."""


@dataclass
class LastRate:
    """The growth between the last cut and the last look goes on."""

    target_mm: float
    rate_mm: float | None = None

    def seen(self, before: Cut, now: Cut) -> None:
        assert now.look_mm is not None
        self.rate_mm = max(1.0, now.look_mm - before.wanted_mm) / (now.at - before.at)

    def due(self, cut: Cut, ahead: list[Ahead]) -> Said | None:
        return None if self.rate_mm is None else Said((1.5 * self.target_mm - cut.wanted_mm) / self.rate_mm)


@dataclass
class Fixed:
    """A growth, or a number of days, that never changes."""

    target_mm: float
    rate_mm: float | None = None
    every: float = 0.0

    def seen(self, before: Cut, now: Cut) -> None:
        """Nothing is learnt."""

    def due(self, cut: Cut, ahead: list[Ahead]) -> Said | None:
        return Said(self.every if self.rate_mm is None else (1.5 * self.target_mm - cut.wanted_mm) / self.rate_mm)


def ask(name: str, **args: Any) -> Json:
    """An answer of the engine."""
    given = call(name, args)
    if "error" in given:
        raise ValueError(f"the bench asks {name} amiss: {given['error']}")
    value: Json = given["value"]
    return value


@dataclass
class Ours:
    """The engine's, with what a household logs; water and feeds can be left out to see what they are worth."""

    on: Lawn
    weather: tuple[Day, ...]
    grown: Grown
    water: bool = True
    feed: bool = True
    belief: Json | None = None
    shares: list[float] = field(default_factory=list)
    missing: list[float] = field(default_factory=list)

    def __post_init__(self) -> None:
        rows = [
            {"date": day.date.isoformat(), "et0_mm": day.et0_mm, "rain_mm": day.rain_mm, "watered_mm": watered}
            for day, watered in zip(self.weather, self.grown.watered_mm, strict=True)
        ]
        for first in range(0, len(rows), 400):  # years, a part at a time
            start = {"start_depletion_mm": self.missing[-1]} if self.missing else {}
            found = ask("watering.need", days=rows[first : first + 400], turf="cool", soil="loam", **start)
            self.shares += found["water_share"]
            self.missing += found["depletion_mm"]

    def seen(self, before: Cut, now: Cut) -> None:
        look = {
            "cut": self._date(before.at),
            "cut_mm": before.wanted_mm,
            "looked": self._date(now.at),
            "height_mm": now.look_mm,
            "error_mm": now.error_mm,
        }
        days = [self._row(at) for at in range(before.at + 1, now.at + 1)]
        more = {"belief": self.belief} if self.belief else {}
        found = ask("mowing.learn", turf="cool", seen=[look], days=days, feeds=self._feeds(now.at), **more)
        self.belief = found["belief"]

    def due(self, cut: Cut, ahead: list[Ahead]) -> Said | None:
        found = ask(
            "mowing.next",
            turf="cool",
            target_mm=self.on.target_mm,
            cut=self._date(cut.at),
            cut_mm=cut.wanted_mm,
            days=self._coming(cut.at, ahead),
            feeds=self._feeds(cut.at),
            **({"belief": self.belief} if self.belief else {}),
        )
        ends = ("after_days", "earliest_after_days", "latest_after_days")
        mid, low, high = (AHEAD_DAYS if found[name] is None else found[name] for name in ends)
        return Said(mid, low, high)

    def _date(self, at: int) -> str:
        return self.weather[at].date.isoformat()

    def _row(self, at: int) -> Json:
        share = self.shares[at] if self.water else 1.0
        return {"date": self._date(at), "mean_c": self.weather[at].mean_c, "water_share": share}

    def _feeds(self, until: int) -> list[Json]:
        if not self.feed:
            return []
        done = [one for one in self.grown.feeds if one.date <= self.weather[until].date]
        return [
            {"date": one.date.isoformat(), "n_kg_m2": one.n_kg_m2, "slow_share": one.slow_share} for one in done[-6:]
        ]

    def _coming(self, at: int, ahead: list[Ahead]) -> list[Json]:
        dates = [(self.weather[at].date + timedelta(day)).isoformat() for day in range(1, len(ahead) + 1)]
        water = self._water(at, ahead, dates) if self.water else [1.0] * len(ahead)
        return [
            {"date": on, "mean_c": day.mean_c, "sd_c": day.sd_c, "water_share": share}
            for on, day, share in zip(dates, ahead, water, strict=True)
        ]

    def _water(self, at: int, ahead: list[Ahead], dates: list[str]) -> list[float]:
        recent = self.grown.watered_mm[max(0, at + 1 - RECENT_DAYS) : at + 1]
        daily = sum(recent) / RECENT_DAYS
        days = [
            {"date": on, "et0_mm": day.et0_mm, "rain_mm": day.rain_mm, "watered_mm": daily}
            for on, day in zip(dates, ahead, strict=True)
        ]
        found = ask(
            "watering.need", days=days, turf="cool", soil="loam", start_depletion_mm=min(600.0, self.missing[at])
        )
        shares: list[float] = found["water_share"]
        return shares


def methods(on: Lawn, weather: tuple[Day, ...], grown: Grown, few: bool = False) -> dict[str, Method]:
    """All ways on one lawn."""
    target = on.target_mm
    found: dict[str, Method] = {
        "ours": Ours(on, weather, grown),
        "last rate": LastRate(target),
        "1.5 in a week": Fixed(target, WEEK_MM / 7),
        "every 7 days": Fixed(target, every=7.0),
        "every 3.5 days": Fixed(target, every=3.5),
    }
    if not few:
        found["ours, feeds not told"] = Ours(on, weather, grown, feed=False)
        found["ours, water and feeds not told"] = Ours(on, weather, grown, water=False, feed=False)
    return found
