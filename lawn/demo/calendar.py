"""Where on the globe the demo lives on the day it is loaded, and how the scenario's nominal dates move for that.

Grass grows for half the year on either half of the globe, so there is always one of them where it grows today.
"""

from datetime import date, timedelta
from typing import Any


class Calendar:
    """The day of loading as a nominal day of the scenario, and the stretch of nominal days which the log tells."""

    def __init__(self, raw: dict[str, Any], today: date) -> None:
        first, last = (date.fromisoformat(raw["grows"][end]) for end in ("from", "until"))
        self.today = today
        begun, self.southern = _season_begun(first, last + timedelta(days=1), today)
        self.nominal_today = first + (today - begun)
        self.nominal_first = self.nominal_today - (today - months_before(today, raw["log_months"]))

    def moved(self, nominal: date) -> date:
        """The day on which a nominal day falls."""
        return self.today - (self.nominal_today - nominal)

    def tells(self, nominal: date) -> bool:
        """Whether the log holds what is told of a nominal day: from its first day to the day before loading."""
        return self.nominal_first <= nominal < self.nominal_today


def _season_begun(north: date, south: date, today: date) -> tuple[date, bool]:
    """When the growing season of today began, and whether it is the southern half's."""
    starts = [
        (start.replace(year=year), start is south) for year in (today.year - 1, today.year) for start in (north, south)
    ]
    return max(row for row in starts if row[0] <= today)


def months_before(day: date, months: int) -> date:
    """The same day of the month so many months earlier, or the last of that month where it is shorter."""
    year, month = divmod(day.year * 12 + day.month - 1 - months, 12)
    following = date(year + (month == 11), (month + 1) % 12 + 1, 1)
    return min(date(year, month + 1, 1) + timedelta(days=day.day - 1), following - timedelta(days=1))
