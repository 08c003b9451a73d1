"""Reads the docstrings of the engine: they are data, listed by `manage.py engine --list` and tested."""

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

SECTIONS = ("Args:", "Returns:", "Raises:")


def read(doc: str) -> "dict[str, Any]":
    """Take a docstring apart.

    Args:
        doc: the docstring as written [text]
    Returns:
        parts: summary, args, returns, raises, source, checked [group of values]
    """
    parts: "dict[str, Any]" = {
        "summary": "",
        "args": [],
        "returns": [],
        "raises": [],
        "source": "",
        "checked": "",
    }
    section = "summary"
    for line in doc.split("\n"):
        line = line.strip()
        if line in SECTIONS:
            section = line[:-1].lower()
        elif line.startswith("Source:"):
            section, parts["source"] = "source", line[7:].strip()
        elif line.startswith("Checked:"):
            section, parts["checked"] = "checked", line[8:].strip()
        elif line:
            _take(parts, section, line)
    return parts


def _take(parts: "dict[str, Any]", section: str, line: str) -> None:
    if section in ("args", "returns", "raises"):
        parts[section].append(_entry(line))
    else:
        parts[section] = (parts[section] + " " + line).strip()


def _entry(line: str) -> "dict[str, Any]":
    name, _, rest = line.partition(":")
    says, _, bracket = rest.strip().partition(" [")
    unit, _, span = bracket.rstrip("]").partition(";")
    low, _, high = span.strip().partition(" to ")
    return {
        "name": name.rstrip("?"),
        "optional": name.endswith("?"),
        "says": says,
        "unit": unit,
        "low": _float(low),
        "high": _float(high),
    }


def _float(text: str) -> "float | None":
    try:
        return float(text)
    except ValueError:
        return None
