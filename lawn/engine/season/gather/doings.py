"""What the log says was put down in the last year: zone by zone, then group by group."""

from lawn.engine.core.dates import day_number
from lawn.engine.log.applications import applications_of
from lawn.engine.log.entries import in_order, split_ahead
from lawn.engine.nutrition.spacing import ALL_DAYS, YEAR_DAYS
from lawn.engine.season.needs import WEEK

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

LATELY_DAYS = ALL_DAYS[0]  # as long as feeds are added up: until then zones fed apart stay apart


def put_down(entries: object, day: int) -> "list[dict[str, Any]]":
    """The applications of the last 365 days in the order done, each with the number of its day."""
    rows, _ = split_ahead(rows=in_order(entries=entries), now=day)
    found = []
    for row in applications_of(rows=rows):
        row["day"] = day_number("occurred_at", row["date"])
        if row["day"] > day - YEAR_DAYS[0]:
            found.append(row)
    return found


def lately_of(rows: "list[dict[str, Any]]", day: int) -> dict[str, list[int]]:
    """By zone the weeks of the last 42 days in which something was put down on it."""
    found: dict[str, list[int]] = {}
    for row in rows:
        week = (row["day"] - 1) // WEEK
        for zone_id, _ in row["zones"] if row["day"] > day - LATELY_DAYS else []:
            weeks = found.setdefault(zone_id, [])
            if week not in weeks:
                weeks.append(week)
    return found


def done_of(rows: "list[dict[str, Any]]", groups: "list[dict[str, Any]]") -> "list[dict[str, object]]":
    """What each application brought to each group: the most that any of its zones had, so that none gets too much."""
    found: list[dict[str, object]] = []
    for row in rows:
        for of in groups:
            reached = [n_kg_m2 or 0.0 for zone_id, n_kg_m2 in row["zones"] if zone_id in of["zones"]]
            if reached:
                found.append(_done(row, of["id"], max(reached)))
    return found


def unknown_of(rows: "list[dict[str, Any]]") -> list[str]:
    """Entries whose nitrogen nobody entered."""
    return [row["id"] for row in rows if any(n_kg_m2 is None for _, n_kg_m2 in row["zones"])]


def _done(row: "dict[str, Any]", group_id: str, n_kg_m2: float) -> "dict[str, object]":
    done: dict[str, object] = {"date": row["date"], "group": group_id, "n_kg_m2": n_kg_m2}
    if row["product_id"] is not None:
        done["product"] = row["product_id"]
    if row["slow_n_share"] is not None:
        done["slow_n_share"] = row["slow_n_share"]
    return done
