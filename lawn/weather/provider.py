"""The client of the weather service: asks once, believes nothing, and says in one word what went wrong.

The service is one of the open kind that needs no key: daily values at a latitude and longitude as lists beside a list
of dates, under `daily`. Its addresses are settings (EVENFALL_WEATHER, EVENFALL_WEATHER_ARCHIVE).
"""

import json
import math
import time
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Any

from django.conf import settings

from lawn.engine.weather import FIGURES
from lawn.weather.place import Place

PAST_DAYS, AHEAD_DAYS = 90, 16
CLIMATE_YEARS = 10
CONNECT_S, SILENT_S, WHOLE_S = 4.0, 6.0, 12.0
MOST_BYTES = 400_000  # ten years of daily means are 70 kB
_DATE_SLACK_DAYS = 3  # the service's day and ours stand apart, and its list may be a little longer
_NAMES = {
    "min_c": "temperature_2m_min",
    "max_c": "temperature_2m_max",
    "rain_mm": "precipitation_sum",
    "et0_mm": "et0_fao_evapotranspiration",
    "wind_m_s": "wind_speed_10m_max",
}
FIELDS = tuple(_NAMES)


class Trouble(Exception):
    """The service brought nothing; `code` is unreachable, slow, failing, too_long, wrong or empty."""

    def __init__(self, code: str) -> None:
        super().__init__(code)
        self.code = code


@dataclass(frozen=True)
class Mean:
    """The mean temperature of one day of the past."""

    date: str
    mean_c: float


def forecast(place: Place, today: date) -> dict[str, list[float | None]]:
    """Return {date: values in the order of FIELDS} from 90 days ago to 16 days ahead; raise Trouble."""
    asked = {
        "daily": ",".join(_NAMES.values()),
        "past_days": str(PAST_DAYS),
        "forecast_days": str(AHEAD_DAYS),
        "wind_speed_unit": "ms",
    }
    daily = _ask(f"{settings.WEATHER}/v1/forecast", place, asked)
    first = today - timedelta(days=PAST_DAYS + _DATE_SLACK_DAYS)
    last = today + timedelta(days=AHEAD_DAYS + _DATE_SLACK_DAYS)
    lists = {field: daily.get(name) for field, name in _NAMES.items()}
    found = {
        day: _values({field: _at(lists[field], place_in) for field in FIELDS})
        for place_in, day in _days(daily, first, last)
    }
    found = {day: values for day, values in found.items() if any(value is not None for value in values)}
    if not any(values[0] is not None and values[1] is not None for values in found.values()):
        raise Trouble("empty")
    return found


def past_means(place: Place, today: date) -> list[Mean]:
    """Return the mean temperature of each day of ten whole calendar years; raise Trouble."""
    first, last = date(today.year - CLIMATE_YEARS, 1, 1), date(today.year - 1, 12, 31)
    asked = {"daily": "temperature_2m_mean", "start_date": first.isoformat(), "end_date": last.isoformat()}
    daily = _ask(f"{settings.WEATHER_ARCHIVE}/v1/archive", place, asked)
    means = daily.get("temperature_2m_mean")
    found = [
        Mean(day, mean)
        for place_in, day in _days(daily, first, last)
        if (mean := _figure("mean_c", _at(means, place_in))) is not None
    ]
    if not found:
        raise Trouble("empty")
    return found


def _ask(url: str, place: Place, asked: dict[str, str]) -> dict[str, Any]:
    """Return what stands under `daily`; raise Trouble."""
    where = {"latitude": f"{place.latitude_deg:.1f}", "longitude": f"{place.longitude_deg:.1f}", "timezone": "auto"}
    text = _fetch(url, {**where, **asked})
    try:
        answer = json.loads(text)
    except (ValueError, RecursionError):
        raise Trouble("wrong") from None
    daily = answer.get("daily") if isinstance(answer, dict) else None
    if not isinstance(daily, dict) or not isinstance(daily.get("time"), list):
        raise Trouble("wrong")
    return daily


def _fetch(url: str, params: dict[str, str]) -> bytes:
    """Return the body of a 200, within bounds of time and size; redirects are not followed."""
    import httpx  # a sixth of what a process takes to start, and most servers and commands ask nothing outside

    ends = time.monotonic() + WHOLE_S
    limits = httpx.Timeout(SILENT_S, connect=CONNECT_S)
    try:
        with (
            httpx.Client(timeout=limits, follow_redirects=False) as client,
            client.stream("GET", url, params=params, headers={"User-Agent": "Evenfall"}) as response,
        ):
            if response.status_code != httpx.codes.OK:
                raise Trouble("failing")
            return _bounded(response.iter_bytes(), ends)
    except httpx.TimeoutException:
        raise Trouble("slow") from None
    except (httpx.HTTPError, httpx.InvalidURL, OSError):
        raise Trouble("unreachable") from None


def _bounded(chunks: Iterator[bytes], ends: float) -> bytes:
    whole = bytearray()
    for chunk in chunks:
        whole += chunk
        if len(whole) > MOST_BYTES:
            raise Trouble("too_long")
        if time.monotonic() > ends:
            raise Trouble("slow")
    return bytes(whole)


def _days(daily: dict[str, Any], first: date, last: date) -> Iterator[tuple[int, str]]:
    """Yield each date between two days with its place in the lists; what is no date is passed over."""
    for place_in, said in enumerate(daily["time"]):
        try:
            day = date.fromisoformat(said) if isinstance(said, str) and len(said) == len("2026-05-01") else None
        except ValueError:
            day = None
        if day is not None and first <= day <= last:
            yield place_in, day.isoformat()


def _at(values: object, place_in: int) -> object:
    return values[place_in] if isinstance(values, list) and place_in < len(values) else None


def _values(said: dict[str, object]) -> list[float | None]:
    """Return a day's figures inside their ranges; a lowest above the highest is neither."""
    found = {field: _figure(field, value) for field, value in said.items()}
    low, high = found["min_c"], found["max_c"]
    if low is not None and high is not None and low > high:
        found.update(min_c=None, max_c=None)
    return [found[field] for field in FIELDS]


def _figure(field: str, value: object) -> float | None:
    """Return a figure inside its range, else None: one odd value must not cost the others."""
    if isinstance(value, bool) or not isinstance(value, int | float) or not math.isfinite(value):
        return None
    low, high = FIGURES[field][2:]
    return float(value) if low <= value <= high else None
