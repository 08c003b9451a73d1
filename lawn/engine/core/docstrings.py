"""Reads the docstrings of the engine: they are data, listed by `manage.py engine --list` and tested."""

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
    """Take `name?: what it is [unit; low to high]` apart."""
    name, _, rest = words.partition(": ")
    says, _, bracket = rest.rpartition(" [")
    if not rest.endswith("]"):
        says, bracket = rest, ""
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
