"""Draws tables of weather and days of several sources."""

from datetime import date, timedelta
from random import Random

from tests.parity.drawing_base import Json, some

FIRST = date(2024, 1, 1)


def _day(s: Random, day: date) -> Json:
    low = s.uniform(-20, 25)
    known = {"mean_c": low + 4, "rain_mm": s.uniform(0, 40), "et0_mm": s.uniform(0, 8), "wind_m_s": s.uniform(0, 12)}
    return some(s, {"date": day.isoformat(), "min_c": low, "max_c": low + s.uniform(0, 20)}, **known)


def _days(s: Random, first: date, count: int) -> list[Json]:
    return [_day(s, first + timedelta(days=at)) for at in range(count)]


def months(s: Random) -> Json:
    """A year of days, or too few."""
    return {"days": _days(s, FIRST, s.choice([366, 400, 366, 90]))}


def join(s: Random) -> Json:
    """A span with some days of each source."""
    first = FIRST + timedelta(days=s.randint(0, 400))
    last, today = first + timedelta(days=s.randint(0, 40)), first + timedelta(days=s.randint(0, 30))
    args = {"first": first.isoformat(), "last": last.isoformat(), "today": today.isoformat()}
    climate = [s.uniform(-10, 25) for _ in range(366)]
    return some(s, args, own=_days(s, first, s.randint(0, 9)), fetched=_days(s, first, 30), climate_c=climate)


def read_table(s: Random) -> Json:
    """A table with a slip here and there."""
    mark = s.choice([",", ";", "\t"])
    unit = s.choice(["(°F)", "_C", ""])
    lines = [mark.join(["Date", f"Tmin {unit}", f"Tmax {unit}", s.choice(["Rain in", "Precip (mm)", "rain"]), "RH"])]
    for at in range(s.randint(1, 40)):
        day = FIRST + timedelta(days=at)
        said = s.choice([day.isoformat(), f"{day.month}/{day.day}/{day.year}", day.strftime("%Y%m%d"), "soon"])
        cells = [said, str(s.randint(-10, 20)), str(s.randint(5, 40)), s.choice(["0.2", "T", "", "NA", "x", "99999"])]
        lines.append(mark.join([*cells, "80"]))
    args = {"table": "\n".join(lines), "today": "2026-05-01"}
    order = s.choice(["day_first", "month_first"])
    return some(s, args, temperature_unit="f", rain_unit="mm", wind_unit="mph", date_order=order)
