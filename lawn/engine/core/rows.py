"""Reads long lists of days: each row checked as elsewhere, but the names of errors are built only where there is one.

A household's weather is hundreds of rows, and on a phone the checks would cost more than the sums.
"""

from lawn.engine.core.dates import day_number
from lawn.engine.core.errors import impossible
from lawn.engine.core.glossary import GLOSSARY
from lawn.engine.core.numeric import group, listing, number


def rows_of(name: str, value: object, known: tuple[str, ...], most: int) -> "list[dict[str, object]]":
    """Return a list of 1 to most groups that hold only known fields, or raise."""
    found = listing(name, value, 1, most)
    for at in range(len(found)):
        row = found[at]
        if not isinstance(row, dict) or not _all_known(row, known):
            group(_path(name, at), row, known)
    return found  # type: ignore[return-value]  # each was found to be a group


def column(name: str, rows: "list[dict[str, object]]", field: str) -> list[float]:
    """Return a field of every row as numbers inside the glossary's range, or raise."""
    low, high = GLOSSARY[field][2], GLOSSARY[field][3]
    found = []
    for at in range(len(rows)):
        value = rows[at].get(field)
        if type(value) is float and low <= value <= high:
            found.append(value)
        else:
            found.append(number(_path(name, at) + "." + field, value))
    return found


def optional_column(name: str, rows: "list[dict[str, object]]", field: str, otherwise: float) -> list[float]:
    """Return a field of every row, and `otherwise` where a row has none."""
    found = []
    for at in range(len(rows)):
        value = rows[at].get(field)
        found.append(otherwise if value is None else number(_path(name, at) + "." + field, value))
    return found


def unbroken(name: str, rows: "list[dict[str, object]]") -> int:
    """Return the number of the first day where every row is the day after the one before, or raise."""
    first = day_number(_path(name, 0) + ".date", rows[0].get("date"))
    for at in range(1, len(rows)):
        path = _path(name, at) + ".date"
        if day_number(path, rows[at].get("date")) != first + at:
            message = "Every day must follow the one before, with none left out and none twice."
            raise impossible(name=path, value=rows[at].get("date"), message=message)
    return first


def run_with(name: str, value: object, day: int, most: int) -> "tuple[int, list[dict[str, object]]]":
    """Return the days without a gap that hold `day`, each with its mean temperature, and the number of the first.

    Where nobody knows a day's temperature it is missing, and what lies beyond it is of no use. No rows where none holds
    `day`. What else is known of a day is let pass: whoever asks takes what it needs.
    """
    found: list[dict[str, object]] = []
    start, last = day, day - 1
    given = listing(name, value, 0, most)
    for at in range(len(given)):
        row = given[at]
        if not isinstance(row, dict):
            row = group(_path(name, at), row, ())
        if row.get("mean_c") is None:
            continue
        now = day_number(_path(name, at) + ".date", row.get("date"))
        if not found or now != last + 1:
            if start <= day <= last:  # the run that holds the day has ended
                break
            found, start = [], now
        found.append(row)
        last = now
    return (start, found) if start <= day <= last else (day, [])


def _all_known(row: "dict[str, object]", known: tuple[str, ...]) -> bool:
    return all(key in known for key in row)


def _path(name: str, at: int) -> str:
    return name + "[" + str(at) + "]"
