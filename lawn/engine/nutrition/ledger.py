"""The nitrogen ledger: what a zone has had this year, what is left of its ceiling, what went over."""

from lawn.engine.core.dates import AHEAD_DAYS, day_number, year_of
from lawn.engine.core.numeric import at_least, group, listing, number, optional_number, text, total
from lawn.engine.core.working import DEFINITION, N_UNIT, step

MOST_ENTRIES = 5000
CEILINGS = ("n_year_kg_m2", "n_once_kg_m2", "n_quick_once_kg_m2")


def ledger(
    *, entries: list[object], zone: str, today: str, ceilings: dict[str, object]
) -> tuple[dict[str, object], list[dict[str, object]]]:
    """Nitrogen a zone has had in the calendar year of today, up to a day ahead.

    A day, since clocks and time zones stand apart; what is dated later has not been done, as in `record.totals`.

    Nitrogen of unknown slow-release share counts as quick: the cautious side.

    Args:
        entries: feedings of any zone and year, up to 5000 [list]
        entries.date: day of the feeding [date]
        entries.zone: the zone fed [text]
        entries.n_kg_m2: nitrogen per area [kg/m2; 0 to 5]
        entries.slow_share?: slow-release share of it [share; 0 to 1]
        zone: the zone asked about [text]
        today: the day asked about [date]
        ceilings: the ceilings that apply, none of them needed [group of values]
        ceilings.n_year_kg_m2?: for the year [kg/m2; 0 to 5]
        ceilings.n_once_kg_m2?: for one day [kg/m2; 0 to 5]
        ceilings.n_quick_once_kg_m2?: for the quick part on one day [kg/m2; 0 to 5]
    Returns:
        n_year_kg_m2: nitrogen so far this year [kg/m2]
        slow_n_year_kg_m2: the part known to be slow-release [kg/m2]
        left_kg_m2: what the year's ceiling leaves, null without a ceiling; never below 0 [kg/m2 or null]
        breaches: each ceiling passed [list]
        breaches.ceiling: which one, as it is named among the ceilings [one of n_year_kg_m2, n_once_kg_m2,
            n_quick_once_kg_m2]
        breaches.limit_kg_m2: what it allows [kg/m2]
        breaches.n_kg_m2: what was put down [kg/m2]
        breaches.date: day it was passed [date]
        feedings: days the zone was fed this year [days]
    Raises:
        out_of_range: a number is outside its range
        wrong_type: a date is no date
    Source: definition
    """
    asked = text("zone", zone)
    now = day_number("today", today)
    limits = _limits(ceilings)
    rows = _rows(entries, asked, now)
    year_kg_m2 = total([row[1] for row in rows])
    slow_kg_m2 = total([row[2] for row in rows])
    yearly = limits["n_year_kg_m2"]
    left = None if yearly is None else max(0.0, yearly - year_kg_m2)
    by_day = _by_day(rows)
    breaches = _breaches(by_day, limits)
    if yearly is not None and not at_least(yearly, year_kg_m2):
        breaches.append(_breach("n_year_kg_m2", yearly, year_kg_m2, today[:10]))
    value: dict[str, object] = {
        "n_year_kg_m2": year_kg_m2,
        "slow_n_year_kg_m2": slow_kg_m2,
        "left_kg_m2": left,
        "breaches": breaches,
        "feedings": len(by_day),
    }
    return value, _working(rows, year_kg_m2, slow_kg_m2, yearly, left)


def _limits(ceilings: object) -> dict[str, float | None]:
    given = group("ceilings", ceilings, CEILINGS)
    return {name: optional_number("ceilings." + name, given.get(name)) for name in CEILINGS}


def _rows(entries: object, zone: str, today: int) -> list[tuple[str, float, float]]:
    """This zone's feedings of this year as (date, nitrogen, slow part), in date order."""
    rows: list[tuple[int, float, float, str]] = []
    for at, item in enumerate(listing("entries", entries, 0, MOST_ENTRIES)):
        path = "entries[" + str(at) + "]"
        entry = group(path, item, ("date", "zone", "n_kg_m2", "slow_share"))
        day = day_number(path + ".date", entry.get("date"))
        n_kg_m2 = number(path + ".n_kg_m2", entry.get("n_kg_m2"))
        slow = optional_number(path + ".slow_share", entry.get("slow_share")) or 0.0
        if (
            text(path + ".zone", entry.get("zone")) == zone
            and day <= today + AHEAD_DAYS
            and year_of(day) == year_of(today)
        ):
            rows.append((day, n_kg_m2, n_kg_m2 * slow, str(entry["date"])[:10]))
    rows.sort()
    return [(row[3], row[1], row[2]) for row in rows]


def _by_day(rows: list[tuple[str, float, float]]) -> list[tuple[str, float, float]]:
    """The feedings of one day together: two spreading jobs on a day are one feeding to the grass."""
    days: list[tuple[str, list[float], list[float]]] = []
    for date, n_kg_m2, slow_kg_m2 in rows:
        if not days or days[-1][0] != date:
            days.append((date, [], []))
        days[-1][1].append(n_kg_m2)
        days[-1][2].append(slow_kg_m2)
    return [(date, total(all_n), total(all_slow)) for date, all_n, all_slow in days]


def _breaches(by_day: list[tuple[str, float, float]], limits: dict[str, float | None]) -> list[dict[str, object]]:
    found: list[dict[str, object]] = []
    for date, n_kg_m2, slow_kg_m2 in by_day:
        for name, fed in (("n_once_kg_m2", n_kg_m2), ("n_quick_once_kg_m2", n_kg_m2 - slow_kg_m2)):
            limit = limits[name]
            if limit is not None and not at_least(limit, fed):
                found.append(_breach(name, limit, fed, date))
    return found


def _breach(ceiling: str, limit: float, fed: float, date: str) -> dict[str, object]:
    return {"ceiling": ceiling, "limit_kg_m2": limit, "n_kg_m2": fed, "date": date}


def _working(
    rows: list[tuple[str, float, float]],
    year_kg_m2: float,
    slow_kg_m2: float,
    yearly: float | None,
    left: float | None,
) -> list[dict[str, object]]:
    days = [row[0] for row in rows]
    working = [
        step(
            what="Nitrogen so far this year",
            formula="nitrogen of every feeding since 1 January, added",
            numbers={"days": days, "n_kg_m2": [row[1] for row in rows]},
            result=year_kg_m2,
            unit=N_UNIT,
            source=DEFINITION,
        ),
        step(
            what="Of it known to be slow-release",
            formula="nitrogen times its slow-release share, added; unknown shares count as quick",
            numbers={"days": days, "slow_n_kg_m2": [row[2] for row in rows]},
            result=slow_kg_m2,
            unit=N_UNIT,
            source=DEFINITION,
        ),
    ]
    if yearly is not None:
        working.append(
            step(
                what="Nitrogen left of the year's ceiling",
                formula="ceiling less what was fed, never below nothing",
                numbers={"ceiling_kg_m2": yearly, "n_year_kg_m2": year_kg_m2},
                result=left,
                unit=N_UNIT,
                source=DEFINITION,
            )
        )
    return working
