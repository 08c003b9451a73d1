"""One row of days out of all that is known: the household's own, what was fetched, and the climate for the rest."""

import math

from lawn.engine.core.dates import DAYS_BEFORE, day_number, day_text
from lawn.engine.core.errors import impossible, wrong_type
from lawn.engine.core.numeric import listing, number
from lawn.engine.core.working import COMMON, step
from lawn.engine.weather.days import checked, mean_c

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

MOST_DAYS = 800
MOST_GIVEN = 8000
YEAR_DAYS = 366  # of a leap year, so that each date has its own place
# How far the mean of a day may be off, one standard deviation: common practice, to be held against a trial.
MEASURED_SD_C = 0.7  # a station or the service's analysis beside the yard's own air
FIRST_SD_C = 1.2  # the forecast of tomorrow
LEAD_SD_C = 0.32  # and for each day ahead so much more, added as squares
CLIMATE_SD_C = 4.5  # a day's mean beside that of the climate


def join(
    *, first: str, last: str, today: str, own: object = None, fetched: object = None, climate_c: object = None
) -> "tuple[dict[str, object], list[dict[str, object]]]":
    """Days from `first` to `last`, each from the best that is known of it.

    What the household measured stands before what was fetched; the fetched fills in what it did not measure. A day
    of which neither tells a temperature is the climate's, without rain or wind: nobody knows them.

    Args:
        first: first day asked about [date]
        last: last day asked about, at most 800 days in all [date]
        today: day on which it is asked; later ones are forecasts [date]
        own?: the household's own days, as `weather.read_table` gives them [list]
        own.date: the day [date]
        own.min_c?: lowest temperature [C; -60 to 60]
        own.max_c?: highest temperature [C; -60 to 60]
        own.mean_c?: mean temperature [C; -60 to 60]
        own.rain_mm?: rain [mm; 0 to 1000]
        own.et0_mm?: water that a short grass would use [mm; 0 to 25]
        own.wind_m_s?: wind [m/s; 0 to 60]
        fetched?: days the weather service told [list]
        fetched.date: the day [date]
        fetched.min_c?: lowest temperature [C; -60 to 60]
        fetched.max_c?: highest temperature [C; -60 to 60]
        fetched.mean_c?: mean temperature [C; -60 to 60]
        fetched.rain_mm?: rain [mm; 0 to 1000]
        fetched.et0_mm?: water that a short grass would use [mm; 0 to 25]
        fetched.wind_m_s?: wind [m/s; 0 to 60]
        climate_c?: mean in C of each day of a leap year, 1 January first, as `warmth.climate` gives them
            [list of numbers]
    Returns:
        days: one for each day of which something is known, in order [list]
        days.date: the day [date]
        days.of: where its temperature comes from [one of own, fetched, climate]
        days.mean_c?: mean temperature [C]
        days.sd_c?: likely error of that mean [K]
        days.min_c?: lowest temperature [C]
        days.max_c?: highest temperature [C]
        days.rain_mm?: rain [mm]
        days.et0_mm?: water that a short grass would use [mm]
        days.wind_m_s?: wind [m/s]
        known_to: last day of which own or fetched weather tells the temperature, null without any [date or null]
        from_climate: days that are the climate's [days]
    Raises:
        wrong_type: a date is none, or the climate has not 366 days
        impossible: the last day comes before the first, or there are more than 800
        out_of_range: a figure is outside its range
    Source: common practice
    Checked: nothing: which source stands before which is ours
    """
    start, end, now = day_number("first", first), day_number("last", last), day_number("today", today)
    if not start <= end < start + MOST_DAYS:
        message = "The last day must be 0 to 799 days after the first."
        raise impossible(name="last", value=last, message=message)
    usual = _climate(climate_c)
    mine, told = _by_date("own", own), _by_date("fetched", fetched)
    rows = [_joined(day, now, mine, told, usual) for day in range(start, end + 1)]
    days = [row for row in rows if len(row) > 2]
    known = [str(row["date"]) for row in days if row["of"] != "climate"]
    guessed = len([row for row in days if row["of"] == "climate"])
    value: dict[str, object] = {"days": days, "known_to": max(known) if known else None, "from_climate": guessed}
    return value, [
        step(
            what="Days from the climate alone",
            formula="days without own or fetched temperature; their mean may be off by 4.5 °C or more",
            numbers={"days": len(days), "known": len(known)},
            result=guessed,
            unit="days",
            source=COMMON,
        )
    ]


def _climate(climate_c: object) -> list[float]:
    if climate_c is None:
        return []
    rows = listing("climate_c", climate_c, 0, YEAR_DAYS)
    if len(rows) != YEAR_DAYS:
        raise wrong_type(name="climate_c", value=climate_c, wanted="366 temperatures, a leap year of them")
    return [number("climate_c[" + str(at) + "]", one, -60.0, 60.0) for at, one in enumerate(rows)]


def _by_date(name: str, given: object) -> "dict[str, dict[str, Any]]":
    found: dict[str, dict[str, Any]] = {}
    for at, item in enumerate(listing(name, given, 0, MOST_GIVEN) if given is not None else []):
        day = checked(name + "[" + str(at) + "]", item)
        found[day["date"]] = day
    return found


def _joined(
    day: int, now: int, mine: "dict[str, dict[str, Any]]", told: "dict[str, dict[str, Any]]", usual: list[float]
) -> "dict[str, Any]":
    date = day_text(day)
    own, fetched = mine.get(date, {}), told.get(date, {})
    row: dict[str, Any] = dict(fetched)
    row.update(own)
    row["date"] = date
    for of, source in (("own", own), ("fetched", fetched)):
        mean = mean_c(source)
        if mean is not None:
            row.update({"of": of, "mean_c": mean, "sd_c": _sd_c(day - now)})
            return row
    row["of"] = "climate"
    if usual:
        row.update(
            {"mean_c": usual[DAYS_BEFORE[int(date[5:7]) - 1] + int(date[8:]) - 1 + (1 if date[5:7] > "02" else 0)]}
        )
        row["sd_c"] = CLIMATE_SD_C
    return row


def _sd_c(ahead: int) -> float:
    if ahead <= 0:
        return MEASURED_SD_C
    return min(CLIMATE_SD_C, math.sqrt(FIRST_SD_C**2 + (LEAD_SD_C * ahead) ** 2))
