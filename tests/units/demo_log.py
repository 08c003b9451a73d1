"""The demo's log as of several days of loading, played once a day."""

from datetime import date
from functools import cache
from typing import Any

from lawn.demo.scenario import Scenario
from lawn.demo.season import entries_of

# The middle of every month, and the days on which the household changes sides, the year turns or leaps.
DAYS = [date(2027, month, 15) for month in range(1, 13)]
DAYS += [date(2027, 4, 14), date(2027, 5, 1), date(2027, 6, 8), date(2027, 9, 9), date(2027, 10, 14)]
DAYS += [date(2027, 12, 31), date(2028, 1, 1), date(2028, 2, 29)]

Played = tuple[Scenario, list[dict[str, Any]], date]


@cache
def log_of(today: date) -> tuple[Scenario, list[dict[str, Any]]]:
    """The log as of a day of loading, without a database."""
    scenario = Scenario(today)
    members = {row["key"]: scenario.id_of(row["key"]) for row in scenario.people}
    items = [item for entry in entries_of(scenario, members) for item in entry.items]
    voids = [item.get("set", {}).get("void", {}).get("void", False) for item in items]
    rows = [{**item["body"], "id": item["id"], "void": void} for item, void in zip(items, voids, strict=True)]
    return scenario, rows
