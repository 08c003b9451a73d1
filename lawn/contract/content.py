"""What an op says, as one text: its hash tells whether it came before; whether it can be stored is read off it."""

import hashlib
import json
import re
import sys
from collections.abc import Iterator
from typing import Any

_HALF_PAIR = re.compile("[\ud800-\udfff]")
# NUL and halves of surrogate pairs as JSON in ASCII writes them; whole pairs and other texts may look like these
_ODD_ESCAPE = re.compile(r"\\u(?:0000|d[89a-f])")


_MANY_DIGITS = re.compile("[0-9]{309}")
_LARGEST = int(sys.float_info.max)
# JSON nested deeper than this says nothing a record of ours would say, and not every reader follows it.
MOST_DEPTH = 64


def is_deeper(value: object, most: int) -> bool:
    """Whether a JSON value is nested deeper than `most` lists and groups; taken level by level, however deep it is."""
    level = [value] if isinstance(value, dict | list) else []
    for _ in range(most):
        inner = [one for held in level for one in (held.values() if isinstance(held, dict) else held)]
        level = [one for one in inner if isinstance(one, dict | list)]
        if not level:
            return False
    return True


def text_of(op: dict[str, Any]) -> str:
    """Return what an op says but for its number, as JSON in ASCII with sorted names.

    The number is left out since after a fork the same op comes under a new one.
    """
    said = {key: op.get(key) for key in ("op", "hlc", "schema", "m")}
    return json.dumps(said, sort_keys=True, separators=(",", ":"))


def hash_of(text: str) -> str:
    """Return the hash of what an op says."""
    return hashlib.sha256(text.encode()).hexdigest()


def unreadable(op: dict[str, Any], text: str | None = None) -> bool:
    """Whether an op holds NUL or half a surrogate pair, which PostgreSQL or UTF-8 cannot store.

    Where its `text` is at hand, most ops are seen to be sound at a glance.
    """
    if text is not None and not _ODD_ESCAPE.search(text):
        return False
    whole = json.dumps(op, ensure_ascii=False)
    if "\\u0000" in whole and "\x00" in "".join(_texts(op)):
        return True
    return _HALF_PAIR.search(whole) is not None


def is_too_deep(op: dict[str, Any], text: str | None = None) -> bool:
    """Whether what an op says is nested too deep; with few brackets in its `text` that is seen at a glance."""
    if text is not None and text.count("[") + text.count("{") <= MOST_DEPTH:
        return False
    return is_deeper(op.get("m"), MOST_DEPTH)


def is_too_large(op: dict[str, Any], text: str | None = None) -> bool:
    """Whether an op holds a whole number without a like on a phone: JSON sets no end to them, a phone does."""
    if text is not None and not _MANY_DIGITS.search(text):
        return False
    level: list[Any] = [op.get("m")]
    while level:
        if any(isinstance(one, int) and not -_LARGEST <= one <= _LARGEST for one in level):
            return True
        groups = [one.values() if isinstance(one, dict) else one for one in level if isinstance(one, dict | list)]
        level = [inner for held in groups for inner in held]
    return False


def _texts(value: object) -> Iterator[str]:
    """Yield every text in a JSON value, names of fields included."""
    if isinstance(value, str):
        yield value
    elif isinstance(value, dict):
        for name, inner in value.items():
            yield str(name)
            yield from _texts(inner)
    elif isinstance(value, list):
        for inner in value:
            yield from _texts(inner)
