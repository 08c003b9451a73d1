"""Reads the docstrings of the engine: they are data, listed by `manage.py engine --list`, tested, and typed for phones.

An argument or a result is a line `name?: what it is [kind; range]`. The question mark says that it may be left out. Its
kind is a unit for a number; text, date, moment, true or false; `one of a, b, c`; `list of` numbers, texts, corners or
lists of corners; corner; refusal (the facts of an error). `list`, `group of values` and `groups by id` are told by
dotted lines (`zones.id`), or are those of another call: `list as spreading.start`. `or null` after it says that it may
be null. In place of a range, `low, mid and high` says that it is a group of such numbers.
"""

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

SECTIONS = ("Args:", "Returns:", "Raises:")
CONTINUED = " " * 12  # an entry that goes on in the next line is indented further


def read(doc: str) -> "dict[str, Any]":
    """Take a docstring apart.

    Args:
        doc: the docstring as written [text]
    Returns:
        parts: summary, args, returns, raises, source, checked [group of values]
    """
    parts: dict[str, Any] = {
        "summary": "",
        "args": [],
        "returns": [],
        "raises": [],
        "source": "",
        "checked": "",
    }
    section = "summary"
    for line in doc.split("\n"):
        words = line.strip()
        if words in SECTIONS:
            section = words[:-1].lower()
        elif words.startswith("Source:"):
            section, parts["source"] = "source", words[7:].strip()
        elif words.startswith("Checked:"):
            section, parts["checked"] = "checked", words[8:].strip()
        elif words:
            _take(parts, section, words, line.startswith(CONTINUED))
    for section in ("args", "returns", "raises"):
        parts[section] = [_entry(words) for words in parts[section]]
    return parts


def _take(parts: "dict[str, Any]", section: str, words: str, continued: bool) -> None:
    if section not in ("args", "returns", "raises"):
        parts[section] = (parts[section] + " " + words).strip()
    elif continued:
        parts[section][-1] += " " + words
    else:
        parts[section].append(words)


def _entry(words: str) -> "dict[str, Any]":
    """Take `name?: what it is [unit or null; low to high]` apart; the bracket is explained at the top of this file."""
    name, _, rest = words.partition(": ")
    says, _, bracket = rest.rpartition(" [")
    if not rest.endswith("]"):
        says, bracket = rest, ""
    unit, _, span = bracket.rstrip("]").partition(";")
    low, _, high = span.strip().partition(" to ")
    row = {"name": name.rstrip("?"), "optional": name.endswith("?"), "says": says}
    row.update(_unit(unit))
    row.update({"parts": _parts(span), "low": _float(low), "high": _float(high)})
    return row


def _unit(words: str) -> "dict[str, Any]":
    unit, _, like = words.partition(" as ")
    null = unit.endswith(" or null")
    unit = unit[: -len(" or null")] if null else unit
    choices = unit[len("one of ") :].split(", ") if unit.startswith("one of ") else []
    return {"unit": "text" if choices else unit, "null": null, "like": like, "choices": choices}


def _parts(span: str) -> "list[str]":
    """The names of a group of numbers, such as low, mid and high; none where it is a range or nothing."""
    return span.strip().replace(" and ", ", ").split(", ") if " and " in span else []


def _float(text: str) -> "float | None":
    try:
        return float(text)
    except ValueError:
        return None
