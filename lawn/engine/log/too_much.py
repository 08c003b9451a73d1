"""More on one zone than a ceiling allows, added up over the days that the ceiling is for."""

from lawn.engine.core.dates import day_number, day_text, year_of
from lawn.engine.core.numeric import at_least, total
from lawn.engine.nutrition.spacing import ALL_DAYS, QUICK_DAYS, YEAR_DAYS

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

# kind, what is added up, ceiling it is held against, days it is added up over, source of the days
WINDOWS = (
    ("quick", "quick_n_kg_m2", "n_quick_once_kg_m2", QUICK_DAYS[0], QUICK_DAYS[1]),
    ("all_n", "n_kg_m2", "n_once_kg_m2", ALL_DAYS[0], ALL_DAYS[1]),
    ("phosphate", "p2o5_kg_m2", "p2o5_year_kg_m2", YEAR_DAYS[0], YEAR_DAYS[1]),
)


def windows(
    *, zones: "dict[str, list[dict[str, Any]]]", ceilings: "dict[str, dict[str, Any]]", fewest: int
) -> "list[dict[str, Any]]":
    """Applications that pass a ceiling together within its days, each with those before it.

    Args:
        zones: applications by zone, in the order done [group of values]
        ceilings: ceilings by zone [group of values]
        fewest: applications it takes: 2 for a log, 1 for a job not yet begun [applications]
    Returns:
        passed: each with kind, zone_id, rows (application and amount), amount_kg_m2, ceiling_kg_m2, window_days and
            source [list]
    Source: common practice
    """
    found: list[dict[str, Any]] = []
    for zone_id in sorted(zones):
        for at in range(len(zones[zone_id])):
            seen: set[str] = set()
            for window in WINDOWS:
                one = _window(zone_id, zones[zone_id], at, window, ceilings.get(zone_id, {}), fewest)
                if one is not None and not (one["kind"] == "all_n" and "quick" in seen):
                    seen.add(one["kind"])
                    found.append(one)
    return found


def down_within(*, rows: "list[dict[str, Any]]", at: int, what: str, days: float) -> "list[dict[str, Any]]":
    """What was put down in the days up to an application, itself among it.

    Args:
        rows: applications of a zone, in the order done [list]
        at: place of the one asked about [place]
        what: what is added up, by its name [text]
        days: days it is added up over; 1 is its own day [day]
    Returns:
        within: the applications that brought any [list]
    Source: definition
    """
    return [one for one in rows[: at + 1] if one[what] and rows[at]["day"] - one["day"] < days]


def _window(
    zone_id: str,
    rows: "list[dict[str, Any]]",
    at: int,
    window: "tuple[str, str, str, int, str]",
    ceilings: "dict[str, Any]",
    fewest: int,
) -> "dict[str, Any] | None":
    kind, what, ceiling, days, source = window
    limit = ceilings.get(ceiling)
    if limit is None or not rows[at][what]:
        return None
    within = down_within(rows=rows, at=at, what=what, days=days)
    amount = total([one[what] for one in within])
    if len(within) < fewest or at_least(limit, amount):
        return None
    return {
        "kind": kind,
        "zone_id": zone_id,
        "rows": [(one["spread"], one[what]) for one in within],
        "amount_kg_m2": amount,
        "ceiling_kg_m2": limit,
        "window_days": days,
        "source": source,
    }


def years(
    *,
    zones: "dict[str, list[dict[str, Any]]]",
    ceilings: "dict[str, dict[str, Any]]",
    today: int,
    fewest: int,
) -> "list[dict[str, Any]]":
    """Zones whose nitrogen passes the year's ceiling, in the calendar year of today or else in the last 365 days.

    A southern season is split by the calendar, so the last 365 days are a year as well.

    Args:
        zones: applications by zone, in the order done [group of values]
        ceilings: ceilings by zone [group of values]
        today: the day asked about, as a day number [day]
        fewest: applications it takes: 2 for a log, 1 for a job not yet begun [applications]
    Returns:
        passed: as `windows` gives them, with window_days null for the calendar year [list]
    Source: definition
    """
    found: list[dict[str, Any]] = []
    for zone_id in sorted(zones):
        limit = ceilings.get(zone_id, {}).get("n_year_kg_m2")
        fed = [one for one in zones[zone_id] if one["n_kg_m2"]]
        calendar = [one for one in fed if one["spread"]["year"] == year_of(today)]
        rolling = [one for one in fed if -1 <= today - one["day"] < YEAR_DAYS[0]]
        for rows, days in ((calendar, None), (rolling, YEAR_DAYS[0])):
            amount = total([one["n_kg_m2"] for one in rows])
            if limit is None or len(rows) < fewest or at_least(limit, amount):
                continue
            passed = {"kind": "nitrogen", "zone_id": zone_id, "amount_kg_m2": amount, "ceiling_kg_m2": limit}
            passed["rows"] = [(one["spread"], one["n_kg_m2"]) for one in rows]
            passed["window_days"], passed["source"] = days, YEAR_DAYS[1]
            found.append(passed)
            break
    return found


def first_day(*, rows: "list[tuple[int, float]]", planned: float, limit: float, days: int, today: int) -> int | None:
    """The first day on which an amount fits under its ceiling with what lies in the days before it.

    Args:
        rows: day number and amount of what was put down before [list]
        planned: the amount to come [kg/m2]
        limit: the ceiling [kg/m2]
        days: days the ceiling is for [day]
        today: the first day asked about [day]
    Returns:
        day: its number, or nothing where the amount alone is over the ceiling [day]
    Source: definition
    """
    if not at_least(limit, planned):
        return None
    for day in sorted([today] + [before + days for before, _ in rows if before + days > today]):
        within = [amount for before, amount in rows if 0 <= day - before < days]
        if at_least(limit, total(within + [planned])):
            return day
    return None


def next_year(*, today: int) -> int:
    """The first day of the next calendar year.

    Args:
        today: a day number [day]
    Returns:
        day: number of 1 January after it [day]
    Source: definition
    """
    return day_number("day", str(int(day_text(today)[:4]) + 1) + "-01-01")
