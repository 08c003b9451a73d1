"""The engine's calls as TypeScript: frontend/src/platform/engine/calls.gen.ts, arguments and answers of every call."""

import json
from typing import Any

from lawn.engine.door import describe

FILE = "platform/engine/calls.gen.ts"  # in frontend/src

_HEAD = """\
/** Written by `uv run manage.py types` from the engine's docstrings: what each call takes and answers. */
import type { EngineError } from "./types";
"""
_TYPES = {
    "text": "string",
    "date": "string",
    "moment": "string",
    "true or false": "boolean",
    "corner": "[number, number]",
    "refusal": "EngineError",
    "list of numbers": "number[]",
    "list of texts": "string[]",
    "list of corners": "[number, number][]",
    "list of lists of corners": "[number, number][][]",
}
# What a call takes it leaves as it is.
_TAKEN = {
    "corner": "readonly [number, number]",
    "list of numbers": "readonly number[]",
    "list of texts": "readonly string[]",
    "list of corners": "readonly (readonly [number, number])[]",
    "list of lists of corners": "readonly (readonly (readonly [number, number])[])[]",
}
_NESTED = {"list": "{}[]", "group of values": "{}", "groups by id": "Record<string, {}>"}
_SECTIONS = {"args": "Args", "returns": "Value"}

Row = dict[str, Any]


def text() -> str:
    """Write the whole file."""
    calls = describe()
    types = [line for call in calls for part in _SECTIONS for line in _declared(call, part)]
    table = [f"  {json.dumps(call['call'])}: {{ args: {_named(call['call'], 'args')}; value: "
             f"{_named(call['call'], 'returns')} }};" for call in calls]  # fmt: skip
    return "\n".join([_HEAD, *types, "/** Every call by its name. */", "export interface Calls {", *table, "}", ""])


def _named(call: str, part: str) -> str:
    words = call.replace(".", "_").split("_")
    return "".join(word.capitalize() for word in words) + _SECTIONS[part]


def _declared(call: Row, part: str) -> list[str]:
    about = [f"/** {_comment(call['summary'])} */"] if part == "args" else []
    return [*about, f"export interface {_named(call['call'], part)} {{", *_fields(call, part, "", 1), "}", ""]


def _fields(call: Row, part: str, inside: str, depth: int) -> list[str]:
    """The lines of one level: rows whose names have no further dot."""
    rows = [row for row in call[part] if row["name"].startswith(inside) and "." not in row["name"][len(inside) :]]
    return [line for row in rows for line in _field(call, part, row, depth)]


def _field(call: Row, part: str, row: Row, depth: int) -> list[str]:
    pad, name = "  " * depth, row["name"].split(".")[-1]
    known = row["unit"] in _TYPES or row["unit"] in _NESTED or row["parts"]
    unit = "" if known and not row["parts"] else f" [{row['unit']}]"
    written = _type(call, part, row, depth) + (" | null" if row["null"] else "")
    return [f"{pad}/** {_comment(row['says'])}{unit} */", f"{pad}{name}{'?' * row['optional']}: {written};"]


def _type(call: Row, part: str, row: Row, depth: int) -> str:
    if row["like"]:
        return f"{_named(row['like'], part)}[{json.dumps(row['name'].split('.')[-1])}]"
    if row["choices"]:
        joined = " | ".join(json.dumps(one) for one in row["choices"])
        return joined
    if row["parts"]:
        return "{ " + "; ".join(f"{one}: number" for one in row["parts"]) + " }"
    if row["unit"] in _NESTED:
        inner = _fields(call, part, row["name"] + ".", depth + 1)
        block = "\n".join(["{", *inner, "  " * depth + "}"])
        taken = "readonly " if part == "args" and row["unit"] == "list" else ""
        return taken + _NESTED[row["unit"]].replace("{}", block)
    return (_TYPES | (_TAKEN if part == "args" else {})).get(row["unit"], "number")


def _comment(words: str) -> str:
    return words.replace("*/", "* /")
