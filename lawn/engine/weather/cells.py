"""What stands in the cells of a table: dates and figures as people and programs write them."""

from lawn.engine.core.dates import day_number, day_text
from lawn.engine.core.errors import EngineError

ABSENT = ("", "na", "n/a", "nan", "null", "none", "-", "--", "---", "m", "missing", "-9999", "-9999.0", "-99.9", "-999")
TRACE = ("t", "tr", "trace")  # rain too little to measure
# (what is written less zero) times factor, exact by definition: NIST SP 811, appendix B
UNITS = {
    "c": (0.0, 1.0),
    "f": (32.0, 5.0 / 9.0),
    "mm": (0.0, 1.0),
    "cm": (0.0, 10.0),
    "in": (0.0, 25.4),
    "m_s": (0.0, 1.0),
    "km_h": (0.0, 1.0 / 3.6),
    "mph": (0.0, 0.44704),
    "kn": (0.0, 1852.0 / 3600.0),
}


def split(line: str, mark: str) -> list[str]:
    """Part a line at its mark; what stands in quotation marks is one cell, and two of them within mean one.

    Args:
        line: one line of a table [text]
        mark: what parts its cells [text]
    Returns:
        cells: the cells without blanks around them [list of texts]
    Source: definition
    """
    if '"' not in line:
        return [cell.strip() for cell in line.split(mark)]
    cells: list[str] = []
    cell = ""
    quoted = False
    at = 0
    while at < len(line):
        sign = line[at]
        if sign == '"' and quoted and line[at + 1 : at + 2] == '"':
            cell += '"'
            at += 1
        elif sign == '"':
            quoted = not quoted
        elif sign == mark and not quoted:
            cells.append(cell.strip())
            cell = ""
        else:
            cell += sign
        at += 1
    cells.append(cell.strip())
    return cells


def figure(cell: str, comma: bool) -> float | None:
    """The number in a cell; nothing where it says that there is none.

    Args:
        cell: the cell as written [text]
        comma: true where a comma stands for the decimal point [true or false]
    Returns:
        figure: the number, null where there is none [column unit or null]
    Raises:
        wrong_type: the cell is neither a number nor a mark of absence
    Source: definition
    """
    plain = cell.strip().replace("\u2212", "-")
    if plain.lower() in ABSENT:
        return None
    if comma and plain.count(",") == 1 and "." not in plain:
        plain = plain.replace(",", ".")
    body = plain[1:] if plain[:1] in ("-", "+") else plain
    whole, _, part = body.partition(".")
    if not (whole + part).isdigit() or len(body) > 12:
        raise EngineError(code="no_number", name="cell", value=cell, message="This is not a number.")
    return float(plain)


def numbers_in(cell: str) -> list[str]:
    """The runs of digits of a date as written, the time of day left out.

    Args:
        cell: the cell as written [text]
    Returns:
        numbers: its runs of digits [list of texts]
    Source: definition
    """
    plain = cell.strip().split("T")[0].split(" ")[0]
    if len(plain) == 8 and plain.isdigit():
        return [plain[:4], plain[4:6], plain[6:]]
    for mark in ("/", "."):
        plain = plain.replace(mark, "-")
    return plain.split("-")


def order_in(dates: list[list[str]]) -> str | None:
    """Which comes first where the year stands last: told by numbers above 12; nothing where all are 12 or less.

    Args:
        dates: the numbers of each date [list]
    Returns:
        order: day_first or month_first; year_first where the year leads; null where it cannot be told [text]
    Source: definition
    """
    last = [one for one in dates if len(one) == 3 and len(one[2]) == 4 and all(part.isdigit() for part in one)]
    if not last:
        return "year_first"
    if any(int(one[0]) > 12 for one in last):
        return "day_first"
    if any(int(one[1]) > 12 for one in last):
        return "month_first"
    return None


def date_of(numbers: list[str], order: str) -> str:
    """The date that three numbers say.

    Args:
        numbers: year, month and day, or as `order` says where the year stands last [list of texts]
        order: day_first, month_first or year_first [text]
    Returns:
        date: as 2026-05-01 [date]
    Raises:
        wrong_type: they are no date of the calendar
        out_of_range: the year is before 1900 or after 2200
    Source: definition
    """
    parts = list(numbers) if len(numbers) == 3 else ["", "", ""]
    if len(parts[2]) == 4:
        day, month = (parts[0], parts[1]) if order == "day_first" else (parts[1], parts[0])
        parts = [parts[2], month, day]
    padded = [("0" + part)[-2:] if len(part) < 3 else part for part in parts[1:]]
    return day_text(day_number("date", parts[0] + "-" + "-".join(padded)))
