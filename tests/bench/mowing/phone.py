"""The forecast as a phone asks it: the log of the last months and the days that are known, all by `mowing.forecast`."""

from dataclasses import dataclass, field
from datetime import date, timedelta
from typing import Any

from tests.bench.mowing.household import AHEAD_DAYS, FORECAST_DAYS, Ahead, Cut, climate
from tests.bench.mowing.methods import Json, Said, ask
from tests.bench.mowing.truths import Grown, Lawn
from tests.bench.mowing.weather import Day

BACK_DAYS = 150  # as far as the phone reaches back (frontend/src/features/mowing/model/forecast.ts)
PHONE = "phone: "
EVERY = 4  # cuts: the phone learns anew from its log each time it asks, which takes long over thousands of cuts
LATITUDE_DEG = 41.0


@dataclass
class Phone:
    """What a phone says whose log tells of feeds, rain and waterings, or of less."""

    on: Lawn
    place: str
    weather: tuple[Day, ...]
    grown: Grown
    feed: bool = True
    rain: bool = True
    watered: bool = True
    mows: list[Json] = field(default_factory=list)

    def seen(self, before: Cut, now: Cut) -> None:
        """The look goes into the log with the cut it was taken before."""
        self.mows.append(self._mow(now) | {"height_before_mm": now.look_mm, "error_mm": now.error_mm})

    def due(self, cut: Cut, ahead: list[Ahead]) -> Said | None:
        if not self.mows:
            self.mows.append(self._mow(cut))
        today = self.weather[cut.at].date
        first = today - timedelta(BACK_DAYS)
        asked = {
            "zones": [{"id": "z", "turf": "cool", "target_mm": self.on.target_mm}],
            "mows": [one for one in self.mows if one["date"] >= first.isoformat()],
            "days": self._days(cut.at, ahead, first, today),
            "feeds": self._feeds(today),
            "waterings": self._waterings(cut.at) if self.watered else [],
            "today": today.isoformat(),
            "latitude_deg": LATITUDE_DEG,
        }
        found = ask("mowing.forecast", **asked)["zones"]["z"]
        if found["known"] != "forecast":
            return None
        mid, low, high = (_days_to(found[name], today) for name in ("mow_by", "earliest", "latest"))
        return Said(mid + 0.5, low, high + 1.0)  # the day on which it gets so high, said in whole days

    def _mow(self, cut: Cut) -> Json:
        return {"date": self._date(cut.at), "zone_ids": ["z"], "cut_height_mm": cut.wanted_mm}

    def _date(self, at: int) -> str:
        return self.weather[at].date.isoformat()

    def _feeds(self, today: date) -> list[Json]:
        return [
            {"date": one.date.isoformat(), "zone_ids": ["z"], "n_kg_m2": one.n_kg_m2, "slow_share": one.slow_share}
            for one in self.grown.feeds
            if self.feed and one.date <= today
        ]

    def _waterings(self, at: int) -> list[Json]:
        given = enumerate(self.grown.watered_mm[: at + 1])
        return [{"date": self._date(on), "zone_ids": ["z"], "watered_mm": mm} for on, mm in given if mm > 0]

    def _days(self, at: int, ahead: list[Ahead], first: date, today: date) -> list[Json]:
        """Days that the service told, past ones and sixteen to come, and the climate beyond: joined as on the phone."""
        past = [self._told(day.date, day.mean_c, day.rain_mm, day.et0_mm) for day in self.weather[: at + 1]]
        coming = [
            self._told(today + timedelta(lead), day.mean_c, day.rain_mm, day.et0_mm)
            for lead, day in enumerate(ahead[:FORECAST_DAYS], start=1)
        ]
        usual = climate(self.place)
        found = ask(
            "weather.join",
            first=max(first, self.weather[0].date).isoformat(),
            last=(today + timedelta(AHEAD_DAYS)).isoformat(),
            today=today.isoformat(),
            fetched=past[-BACK_DAYS - 1 :] + coming,
            climate_c=[usual[min(365, day)].mean_c for day in range(1, 367)],
        )
        days: list[Json] = found["days"]
        return days

    def _told(self, on: date, mean_c: float, rain_mm: float, et0_mm: float) -> Json:
        water = {"rain_mm": rain_mm, "et0_mm": max(0.0, et0_mm)} if self.rain else {}
        return {"date": on.isoformat(), "mean_c": mean_c, **water}


def _days_to(day: str | None, today: date) -> float:
    return float(AHEAD_DAYS if day is None else (date.fromisoformat(day) - today).days)


def phones(on: Lawn, place: str, weather: tuple[Day, ...], grown: Grown) -> dict[str, Any]:
    """What each thing in the log is worth to the phone."""
    return {
        PHONE + "feeds, rain, waterings": Phone(on, place, weather, grown),
        PHONE + "feeds and rain": Phone(on, place, weather, grown, watered=False),
        PHONE + "rain": Phone(on, place, weather, grown, feed=False, watered=False),
        PHONE + "feeds": Phone(on, place, weather, grown, rain=False, watered=False),
        PHONE + "neither": Phone(on, place, weather, grown, feed=False, rain=False, watered=False),
    }
