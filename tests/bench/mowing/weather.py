"""Daily weather that comes with packages of the registry; nothing of it is copied into this repository.

Seattle 2012 to 2015 (vega-datasets: NOAA, public domain) has four years of temperatures and rain. Greensboro (pvlib:
TMY3 of NREL) has one year by the hour with the sun's radiation, and no rain: there rain is invented from the clouds.
"""

import csv
import io
import random
from dataclasses import dataclass
from datetime import date, timedelta
from functools import cache
from importlib.resources import files

from lawn.engine.watering.reference_et import hargreaves_et_mm
from lawn.engine.watering.sun import top_radiation_mj_m2

SEATTLE, GREENSBORO = "seattle", "greensboro"


@dataclass(frozen=True)
class Day:
    """One day's weather."""

    date: date
    min_c: float
    max_c: float
    rain_mm: float
    et0_mm: float
    light: float  # radiation at the top of the air over that of midsummer

    @property
    def mean_c(self) -> float:
        """Mean of lowest and highest."""
        return (self.min_c + self.max_c) / 2.0


@dataclass(frozen=True)
class Hour:
    """One hour's weather where it is known."""

    air_c: float
    sun_w_m2: float
    wind_m_s: float
    dew_point_c: float
    clouds: float  # share of the sky


@cache
def days(place: str) -> tuple[Day, ...]:
    """The days of a place."""
    return _seattle() if place == SEATTLE else _greensboro()


def _day(on: date, low: float, high: float, rain: float, latitude: float) -> Day:
    number = on.timetuple().tm_yday
    top = top_radiation_mj_m2(latitude_deg=latitude, day_of_year=number)
    et0 = hargreaves_et_mm(mean_c=(low + high) / 2, min_c=low, max_c=high, top_mj_m2=top)
    return Day(on, low, high, rain, et0, top / top_radiation_mj_m2(latitude_deg=latitude, day_of_year=172))


def _seattle() -> tuple[Day, ...]:
    text = (files("vega_datasets") / "_data" / "seattle-weather.csv").read_text(encoding="utf-8")
    found = []
    for row in csv.DictReader(io.StringIO(text)):
        on = date(*(int(part) for part in row["date"].replace("-", "/").split("/")))
        low, high, rain = (float(row[name]) for name in ("temp_min", "temp_max", "precipitation"))
        found.append(_day(on, low, high, rain, latitude=47.45))
    return tuple(found)


@cache
def hours() -> tuple[Hour, ...]:
    """The 8,760 hours of Greensboro."""
    text = (files("pvlib") / "data" / "723170TYA.CSV").read_text(encoding="utf-8").split("\n", 1)[1]
    names = ("Dry-bulb (C)", "GHI (W/m^2)", "Wspd (m/s)", "Dew-point (C)", "TotCld (tenths)")
    rows = [[float(row[name]) for name in names] for row in csv.DictReader(io.StringIO(text))]
    return tuple(Hour(air, sun, wind, dew, clouds / 10) for air, sun, wind, dew, clouds in rows)


def _greensboro() -> tuple[Day, ...]:
    """A year of typical months, twice in a row so that there is a second season to learn in."""
    chance = random.Random(7)
    found = []
    for at in range(730):
        day = hours()[at % 365 * 24 : at % 365 * 24 + 24]
        air = [hour.air_c for hour in day]
        grey = sum(hour.clouds for hour in day) / 24
        rain = chance.expovariate(1 / 9) if chance.random() < 0.75 * grey**2 else 0.0
        found.append(_day(date(2021, 1, 1) + timedelta(at), min(air), max(air), rain, 36.1))
    return tuple(found)
