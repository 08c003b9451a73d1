"""What is known of a place, asked of the service at most once in a few hours, and what of it is new to a phone."""

import threading
from dataclasses import dataclass, field
from datetime import UTC, date, datetime, timedelta
from typing import Any

from django.conf import settings
from django.db.models import Q

from lawn.engine.door import call
from lawn.models import Household, WeatherPlace
from lawn.weather import provider
from lawn.weather.place import Place, place_of

EVERY = timedelta(hours=3)
AFTER_TROUBLE = timedelta(minutes=20)
KEPT_DAYS = 400
FORGOTTEN = timedelta(days=KEPT_DAYS)
# Requests that wait for the service at once, in one process: a slow service must not take all threads.
_ASKING = threading.BoundedSemaphore(2)


@dataclass(frozen=True)
class Known:
    """What a household may know of its weather: off here, off for them (not_on), no_place, waiting or known."""

    state: str
    place: Place | None = None
    fetched_at: datetime | None = None
    # why the last try brought nothing, in one word; "" where it did
    trouble: str = ""
    cursor: str = ""
    # whether the days are all there are, in the place of what the phone has; else only what is new to it
    whole: bool = False
    days: list[dict[str, Any]] = field(default_factory=list)


def known(household: Household, since: str, now: datetime) -> Known:
    """Return what is new since a cursor, after asking the service where that is due."""
    place = place_of(household)
    if not settings.WEATHER:
        return Known("off")
    if not household.forecast:
        return Known("not_on", place)
    if place is None:
        return Known("no_place")
    kept = _looked_up(place, now)
    if kept.fetched_at is None:
        return Known("waiting", place, trouble=kept.trouble)
    return _since(kept, place, since)


def _since(kept: WeatherPlace, place: Place, since: str) -> Known:
    series, _, number = since.partition(".")
    whole = series != str(kept.series) or not number.isdigit()
    seen = 0 if whole else int(number[:9])
    days = [_day(key, kept.days[key]) for key in sorted(kept.days) if kept.days[key][0] > seen]
    return Known("known", place, kept.fetched_at, kept.trouble, f"{kept.series}.{kept.version}", whole, days)


def _day(key: str, row: list[Any]) -> dict[str, Any]:
    figures = dict(zip(provider.FIELDS, row[1:], strict=True))
    return {"date": key, **{name: value for name, value in figures.items() if value is not None}}


def _row(place: Place, now: datetime) -> WeatherPlace:
    row, _ = WeatherPlace.objects.get_or_create(
        latitude_tenths=place.latitude_tenths, longitude_tenths=place.longitude_tenths, defaults={"asked_at": now}
    )
    return row


def _looked_up(place: Place, now: datetime) -> WeatherPlace:
    """Return the place's row, renewed first where that is due and nobody else is at it."""
    row = _row(place, now)
    if not _is_due(row, now) or not _ASKING.acquire(blocking=False):
        return row
    try:
        if _claimed(row, now):
            _renew(row, place, now)
    finally:
        _ASKING.release()
    row.refresh_from_db()
    return row


def _is_due(row: WeatherPlace, now: datetime) -> bool:
    return row.tried_at is None or row.tried_at <= now - (AFTER_TROUBLE if row.trouble else EVERY)


def _claimed(row: WeatherPlace, now: datetime) -> bool:
    """Take the try for this request: of several at once only one finds the row as it was read."""
    mine = WeatherPlace.objects.filter(pk=row.pk).filter(
        Q(tried_at=None) if row.tried_at is None else Q(tried_at=row.tried_at)
    )
    return mine.update(tried_at=now, asked_at=now) == 1


def _renew(row: WeatherPlace, place: Place, now: datetime) -> None:
    """Ask the service; no transaction is open meanwhile."""
    today = now.astimezone(UTC).date()
    try:
        fresh = provider.forecast(place, today)
    except provider.Trouble as why:
        WeatherPlace.objects.filter(pk=row.pk).update(trouble=why.code)
        return
    days, changed = merged(row.days, fresh, row.version + 1, today)
    WeatherPlace.objects.filter(pk=row.pk).update(days=days, version=row.version + changed, fetched_at=now, trouble="")
    WeatherPlace.objects.filter(asked_at__lt=now - FORGOTTEN).delete()


def merged(
    kept: dict[str, list[Any]], fresh: dict[str, list[float | None]], version: int, today: date
) -> tuple[dict[str, list[Any]], int]:
    """Lay fresh days over kept ones, each changed one under `version`; return them, and 1 where any changed else 0.

    Days of the past that the service no longer tells stay as they were last told, up to 400 days.
    """
    first = (today - timedelta(days=KEPT_DAYS)).isoformat()
    days = {key: row for key, row in kept.items() if key >= first}
    changed = {key: values for key, values in fresh.items() if key not in days or days[key][1:] != values}
    days.update({key: [version, *values] for key, values in changed.items()})
    return days, 1 if changed else 0


def climate(household: Household, now: datetime) -> dict[str, Any]:
    """Return the twelve monthly means of the household's place from the service's archive, or why there are none.

    Asked of the archive once a place: whole years do not change. `state` is known, off, no_place or trouble.
    """
    place = place_of(household)
    if not settings.WEATHER or not settings.WEATHER_ARCHIVE:
        return {"state": "off"}
    if place is None:
        return {"state": "no_place"}
    row = _row(place, now)
    if row.climate is None:
        if not _claimed_climate(row, now):
            return {"state": "trouble", "trouble": "slow"}
        try:
            row.climate = _means(place, now)
        except provider.Trouble as why:
            return {"state": "trouble", "trouble": why.code}
        WeatherPlace.objects.filter(pk=row.pk).update(climate=row.climate)
    return {"state": "known", **row.climate}


def _claimed_climate(row: WeatherPlace, now: datetime) -> bool:
    """Take the try, at most one in a minute: the archive is large, and a thumb is quick."""
    free = Q(climate_tried_at=None) | Q(climate_tried_at__lt=now - timedelta(minutes=1))
    return WeatherPlace.objects.filter(free, pk=row.pk).update(climate_tried_at=now, asked_at=now) == 1


def _means(place: Place, now: datetime) -> dict[str, Any]:
    days = provider.past_means(place, now.astimezone(UTC).date())
    answer = call("weather.months", {"days": [{"date": day.date, "mean_c": day.mean_c} for day in days]})
    if "error" in answer:
        raise provider.Trouble("empty")
    found = answer["value"]
    return {"monthly_mean_c": found["monthly_mean_c"], "years": f"{found['from'][:4]} to {found['to'][:4]}"}
