"""A table of daily weather as text, read the same on the server and on the phone."""

from lawn.engine.core.dates import AHEAD_DAYS, day_number
from lawn.engine.core.errors import EngineError
from lawn.engine.core.numeric import choice, text
from lawn.engine.core.working import DEFINITION, step
from lawn.engine.weather import FIGURES, cells
from lawn.engine.weather.columns import columns_of

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

MOST_LETTERS = 1500000  # twenty years of eight columns
MOST_DAYS = 7400  # a little over twenty years
MOST_PROBLEMS = 200
_MARKS = (",", ";", "\t")
_HEAD_LINES = 60  # titles and remarks that may stand above the headings
_TEMPERATURES = ("min_c", "max_c", "mean_c")
_ASKED = {"min_c": "temperature_unit", "max_c": "temperature_unit", "mean_c": "temperature_unit",
          "rain_mm": "rain_unit", "et0_mm": "rain_unit", "wind_m_s": "wind_unit"}  # fmt: skip


def read_table(
    *,
    table: str,
    today: str,
    temperature_unit: str | None = None,
    rain_unit: str | None = None,
    wind_unit: str | None = None,
    date_order: str | None = None,
) -> "tuple[dict[str, object], list[dict[str, object]]]":
    """Days of weather out of a table as text: any common headings and units, bad rows named by their line.

    A row with one figure that cannot be is left out whole and named: it may be a slip in all of them. Where the
    headings name no unit, or all dates could be read two ways, nothing is guessed: `needs` says what to ask.

    Args:
        table: the table as text, a day a line, headings above; commas, semicolons or tabs between [text]
        today: day on which it is read; later days have no weather yet [date]
        temperature_unit?: unit where a heading names none [one of c, f]
        rain_unit?: the same for rain [one of mm, cm, in]
        wind_unit?: the same for wind [one of m_s, km_h, mph, kn]
        date_order?: which comes first where the year stands last [one of day_first, month_first]
    Returns:
        days: those that were read, in the order of their dates [list]
        days.date: the day [date]
        days.min_c?: lowest temperature [C]
        days.max_c?: highest temperature [C]
        days.mean_c?: mean temperature [C]
        days.rain_mm?: rain [mm]
        days.et0_mm?: water that a short grass would use [mm]
        days.wind_m_s?: wind [m/s]
        columns: what was taken from where [list]
        columns.name: figure that the column holds [text]
        columns.heading: its heading as written [text]
        columns.unit: its unit [text or null]
        ignored: headings of the columns that were not taken [list of texts]
        needs: arguments without which it cannot be read: a unit, or the order of day and month [list of texts]
        problems: rows that were left out, at most 200 of them [list]
        problems.line: line of the table, the first is 1 [line]
        problems.column: heading of the cell that is wrong [text]
        problems.value: what stands there [text]
        problems.code: what is wrong: no_date, no_number, out_of_range, min_over_max, twice, ahead, nothing [text]
        problems.low: lowest value allowed, in the column's unit [column unit or null]
        problems.high: highest value allowed, in the column's unit [column unit or null]
        left_out: rows that were left out, all of them [rows]
    Raises:
        no_headings: no line of the table has headings of a date and of weather
        too_long: the table is longer than twenty years of days
        wrong_type: the table is no text
    Source: definition
    """
    lines = text("table", table).replace("\r\n", "\n").replace("\r", "\n").split("\n")
    if len(table) > MOST_LETTERS:
        raise EngineError(code="too_long", name="table", value=None, message="The table is too long: cut it in parts.")
    now = day_number("today", today)
    told = _told(temperature_unit, rain_unit, wind_unit, date_order)
    at, mark, columns = _headings(lines)
    rows = _rows(lines, at, mark)
    units = {one["name"]: one["unit"] or told[_ASKED[one["name"]]] for one in columns["figures"]}
    dates = [_date_cells(columns["date"], row) for _, row in rows]
    order = cells.order_in(dates) or told["date_order"]
    needs = sorted(
        {_ASKED[name] for name in units if units[name] is None} | ({"date_order"} if order is None else set())
    )
    days, problems = ({}, []) if needs else _read(rows, dates, columns, units, order or "", mark, now)
    value: dict[str, object] = {
        "days": [days[key] for key in sorted(days)],
        "columns": [{"name": c["name"], "heading": c["heading"], "unit": units[c["name"]]} for c in columns["figures"]],
        "ignored": columns["ignored"],
        "needs": needs,
        "problems": problems[:MOST_PROBLEMS],
        "left_out": len(problems),
    }
    return value, [_step(len(rows), len(days), len(problems))]


def _told(
    temperature_unit: object, rain_unit: object, wind_unit: object, date_order: object
) -> "dict[str, str | None]":
    return {
        "temperature_unit": _one("temperature_unit", temperature_unit, ("c", "f")),
        "rain_unit": _one("rain_unit", rain_unit, ("mm", "cm", "in")),
        "wind_unit": _one("wind_unit", wind_unit, ("m_s", "km_h", "mph", "kn")),
        "date_order": _one("date_order", date_order, ("day_first", "month_first")),
    }


def _one(name: str, value: object, allowed: tuple[str, ...]) -> str | None:
    return None if value is None else choice(name, value, allowed)


def _headings(lines: list[str]) -> "tuple[int, str, dict[str, Any]]":
    """The line of the headings, what parts its cells, and what its columns mean."""
    for at, line in enumerate(lines[:_HEAD_LINES]):
        plain = line.replace("\ufeff", "")
        marks = sorted([(-plain.count(mark), place) for place, mark in enumerate(_MARKS)])
        mark = _MARKS[marks[0][1]]
        found = columns_of(cells.split(plain, mark)) if mark in plain else None
        if found is not None:
            return at, mark, found
    message = "The table has no line of headings with a date and temperatures or rain."
    raise EngineError(code="no_headings", name="table", value=None, message=message)


def _rows(lines: list[str], at: int, mark: str) -> "list[tuple[int, list[str]]]":
    """The rows below the headings with the numbers of their lines; blank ones and remarks left out."""
    rows = []
    for number in range(at + 1, len(lines)):
        line = lines[number].strip()
        if line.replace(mark, "").strip() and line[0] != "#":
            rows.append((number + 1, cells.split(lines[number], mark)))
    if len(rows) > MOST_DAYS:
        raise EngineError(code="too_long", name="table", value=None, message="The table is too long: cut it in parts.")
    return rows


def _date_cells(at: list[int], row: list[str]) -> list[str]:
    if len(at) == 3:
        return [_cell(row, place) for place in at]
    return cells.numbers_in(_cell(row, at[0]))


def _cell(row: list[str], place: int) -> str:
    return row[place] if place < len(row) else ""


def _read(
    rows: "list[tuple[int, list[str]]]",
    dates: list[list[str]],
    columns: "dict[str, Any]",
    units: "dict[str, Any]",
    order: str,
    mark: str,
    now: int,
) -> "tuple[dict[str, dict[str, object]], list[dict[str, object]]]":
    """Every row as a day by its date, or as a problem."""
    days: dict[str, dict[str, object]] = {}
    problems: list[dict[str, object]] = []
    for place, (line, row) in enumerate(rows):
        try:
            day = _day(row, dates[place], columns, units, order, mark, now)
            if day["date"] in days:
                raise _wrong("twice", columns, row)
        except _RowError as wrong:
            wrong.facts["line"] = line
            problems.append(wrong.facts)
            continue
        days[str(day["date"])] = day
    return days, problems


class _RowError(Exception):
    """A row that cannot be taken, with what is wrong."""

    def __init__(self, facts: dict[str, object]) -> None:
        super().__init__("row")
        self.facts = facts


def _wrong(code: str, columns: "dict[str, Any]", row: list[str]) -> _RowError:
    """What is wrong with the date of a row."""
    said = "-".join([_cell(row, place) for place in columns["date"]])
    return _RowError({"column": "date", "value": said[:40], "code": code, "low": None, "high": None})


def _day(
    row: list[str],
    numbers: list[str],
    columns: "dict[str, Any]",
    units: "dict[str, Any]",
    order: str,
    mark: str,
    now: int,
) -> dict[str, object]:
    try:
        date = cells.date_of(numbers, order)
    except EngineError:
        raise _wrong("no_date", columns, row) from None
    if day_number("date", date) > now + AHEAD_DAYS:
        raise _wrong("ahead", columns, row)
    day: dict[str, object] = {"date": date}
    for one in columns["figures"]:
        value = _figure(_cell(row, one["at"]), one, units[one["name"]], mark)
        if value is not None:
            day[one["name"]] = value
    low, high = day.get("min_c"), day.get("max_c")
    if isinstance(low, float) and isinstance(high, float) and low > high:
        raise _wrong("min_over_max", columns, row)
    if len(day) == 1:
        raise _wrong("nothing", columns, row)
    return day


def _figure(cell: str, column: "dict[str, Any]", unit: str, mark: str) -> float | None:
    """The figure of a cell as it is stored."""
    name = column["name"]
    zero, factor = cells.UNITS[unit]
    if name == "rain_mm" and cell.strip().lower() in cells.TRACE:
        return 0.0
    facts: dict[str, object] = {"column": column["heading"], "value": cell[:40], "low": None, "high": None}
    facts["code"] = "no_number"
    try:
        written = cells.figure(cell, mark != ",")
    except EngineError:
        raise _RowError(facts) from None
    if written is None:
        return None
    low, high = FIGURES[name][2], FIGURES[name][3]
    value = (written - zero) * factor
    if not low <= value <= high:
        facts.update({"code": "out_of_range", "low": low / factor + zero, "high": high / factor + zero})
        raise _RowError(facts)
    return value


def _step(rows: int, days: int, problems: int) -> dict[str, object]:
    return step(
        what="Days read",
        formula="rows beneath the headings, less those left out; °F less 32 times 5/9 is °C, an inch is 25.4 mm",
        numbers={"rows": rows, "left_out": problems},  # where something is still to be asked, no day is read
        result=days,
        unit="days",
        source=DEFINITION,
    )
