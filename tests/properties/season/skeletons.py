"""The skeletons of the year and climates to try them in, for the tests of the season."""

import json
from pathlib import Path
from typing import Any

from lawn.engine.door import call

FOLDER = Path(__file__).resolve().parents[3] / "fixtures" / "published"
KEYS = ("a", "b", "c", "d", "e", "f")
# Means of the twelve months, C, invented after the kind of place each skeleton is for; f is the south.
MONTHS: dict[str, list[float]] = {
    "a": [-4, -2, 4, 10, 16, 21, 24, 23, 18, 11, 5, -1],
    "b": [3, 5, 9, 14, 19, 24, 26, 25, 21, 15, 9, 5],
    "c": [7, 9, 13, 17, 22, 26, 27, 27, 24, 18, 12, 8],
    "d": [13, 14, 17, 20, 24, 27, 28, 28, 26, 22, 18, 14],
    "e": [4, 5, 6, 8, 12, 15, 17, 17, 14, 11, 7, 5],
    "f": [22, 22, 20, 16, 13, 10, 9, 10, 13, 15, 18, 20],
}


def skeleton(key: str) -> dict[str, Any]:
    """A skeleton as it is shipped."""
    found: dict[str, Any] = json.loads((FOLDER / f"season_{key}.json").read_text(encoding="utf-8"))
    return found


def daily(months: list[float]) -> list[float]:
    """The usual year of a place."""
    found: list[float] = call("warmth.climate", {"monthly_mean_c": months})["value"]["daily_mean_c"]
    return found


def windows(year: list[float], jobs: list[Any], first: str, turf: str = "cool") -> dict[str, dict[str, Any]]:
    """The dated windows of a year by the names of their jobs."""
    answer = call("season.windows", {"climate": {"daily_mean_c": year}, "jobs": jobs, "first": first, "turf": turf})
    assert "error" not in answer, answer
    return {row["job"]: row for row in answer["value"]["windows"]}
