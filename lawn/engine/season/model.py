"""A mixed-integer model as it grows: columns, rows, what each stands for; and weeks in words for its rows."""

from lawn.engine.core.dates import day_text
from lawn.engine.season.needs import WEEK

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

FAR = 1e6  # a bound that no plan reaches


class Model:
    """Columns and rows by number; `told` says of each column what it means."""

    def __init__(self) -> None:
        """Begin with nothing."""
        self.columns: list[dict[str, object]] = []
        self.rows: list[dict[str, Any]] = []
        self.told: list[dict[str, Any]] = []
        self.constant = 0.0

    def column(self, name: str, cost: float, told: "dict[str, Any]", high: float = 1.0, integer: bool = True) -> int:
        """Add a column from 0 to high and give its number."""
        self.columns.append({"name": name, "low": 0.0, "high": high, "cost": cost, "integer": integer})
        self.told.append(told)
        return len(self.columns) - 1

    def row(
        self, name: str, low: "float | None", high: "float | None", terms: "list[list[Any]]", says: str, rule: bool
    ) -> None:
        """Add a row: low to high of the terms' sum, with what it means in words."""
        self.rows.append({"name": name, "low": low, "high": high, "terms": terms, "says": says, "rule": rule})

    def of(self, what: str) -> list[int]:
        """The columns that stand for such a thing."""
        return [at for at in range(len(self.told)) if self.told[at]["what"] == what]


MONTHS = (
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
)
JOB_WORDS = {
    "pre_emergent": "the pre-emergent",
    "overseed": "overseeding",
    "lime": "the lime",
    "aerate": "aeration",
    "soil_test": "the soil test",
}


def date_words(day: int) -> str:
    """A date as 4 May."""
    written = day_text(day)
    return str(int(written[8:])) + " " + MONTHS[int(written[5:7]) - 1]


def in_week(plan: "dict[str, Any]", week: int) -> str:
    """A week as the week of 4 May."""
    return "the week of " + date_words(plan["monday"] + WEEK * week)
