"""A day of weather, checked."""

from lawn.engine.core.dates import DATE_LENGTH, day_number
from lawn.engine.core.numeric import group, optional_number, text
from lawn.engine.weather import NAMES

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any


def checked(path: str, item: object) -> "dict[str, Any]":
    """One day of weather with what is known of it.

    Args:
        path: where it stands, for the names of errors [text]
        item: the day as given [group of values]
    Returns:
        day: its date, and its figures as far as they are known [group of values]
    Raises:
        wrong_type: it is no day
        out_of_range: a figure is outside its range
    Source: definition
    """
    given = item if isinstance(item, dict) else group(path, item, ())
    day_number(path + ".date", given.get("date"))
    day: dict[str, Any] = {"date": text(path + ".date", given.get("date"))[:DATE_LENGTH]}
    for name in NAMES:
        value = optional_number(path + "." + name, given.get(name))
        if value is not None:
            day[name] = value
    return day


def mean_c(day: "dict[str, Any]") -> float | None:
    """Mean temperature of a day; halfway between lowest and highest where no mean is known.

    Args:
        day: a checked day [group of values]
    Returns:
        mean: mean temperature, null where it is not known [C or null]
    Source: definition
    """
    if "mean_c" in day:
        return float(day["mean_c"])
    if "min_c" in day and "max_c" in day:
        return (float(day["min_c"]) + float(day["max_c"])) / 2.0
    return None
