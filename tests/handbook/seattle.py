"""Seattle's daily weather, 2012 to 2015 (vega-datasets; NOAA, public domain), as the reference's checks use it."""

import csv
import io
from functools import cache
from importlib.resources import files
from typing import Any

Json = dict[str, Any]


@cache
def year(number: int) -> tuple[Json, ...]:
    """The days of a year: date, min_c, max_c, rain_mm."""
    text = (files("vega_datasets") / "_data" / "seattle-weather.csv").read_text(encoding="utf-8")
    return tuple(
        {
            "date": row["date"].replace("/", "-"),
            "min_c": float(row["temp_min"]),
            "max_c": float(row["temp_max"]),
            "rain_mm": float(row["precipitation"]),
        }
        for row in csv.DictReader(io.StringIO(text))
        if row["date"].startswith(str(number))
    )


def means(number: int) -> list[float]:
    """Daily means of a year."""
    return [(day["min_c"] + day["max_c"]) / 2 for day in year(number)]


def by_month(number: int, values: list[float]) -> list[list[float]]:
    """A year's daily values by month."""
    months: list[list[float]] = [[] for _ in range(12)]
    for day, value in zip(year(number), values, strict=True):
        months[int(day["date"][5:7]) - 1].append(value)
    return months
