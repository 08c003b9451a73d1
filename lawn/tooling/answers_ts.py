"""An answer of every call as the engine gave it: platform/engine/recorded.gen.ts, what the phone's tests answer."""

import json
from functools import cache
from pathlib import Path
from typing import Any

from lawn.engine.door import call, calls, describe

FILE = "platform/engine/recorded.gen.ts"  # in frontend/src
CASES = Path(__file__).resolve().parents[2] / "fixtures" / "parity"

_HEAD = """\
/**
 * For tests. Written by `uv run manage.py types`: of every call the shortest answer the engine gives to a case of
 * fixtures/parity/. Types and answers so prove each other: what is typed wrongly is no answer of this file.
 */
import type { CallName, Value } from "./types";

export const RECORDED: { readonly [N in CallName]: Value<N> } = {
"""


def text() -> str:
    """Write the whole file."""
    answers = _answers()
    if missing := sorted(set(calls()) - set(answers)):
        raise LookupError(f"No case of fixtures/parity/ is answered by: {', '.join(missing)}. Write one, then again.")
    lines = [f"  {json.dumps(name)}: {json.dumps(answers[name], ensure_ascii=False)}," for name in sorted(calls())]
    return "\n".join([_HEAD.rstrip("\n"), *lines, "};", "", *_by_id(), ""])


def _by_id() -> list[str]:
    """Where an answer holds groups by id, whose names are no fields."""
    rows = {row["call"]: [one["name"] for one in row["returns"] if one["unit"] == "groups by id"] for row in describe()}
    lines = [f"  {json.dumps(name)}: {json.dumps(found)}," for name, found in rows.items() if found]
    head = "/** Where an answer holds groups by id: their names are ids, not fields. */"
    return [head, "export const BY_ID: { readonly [N in CallName]?: readonly string[] } = {", *lines, "};"]


@cache
def _answers() -> dict[str, Any]:
    found: dict[str, Any] = {}
    for path in sorted(CASES.rglob("*.json")):
        for case in json.loads(path.read_text(encoding="utf-8"))["cases"]:
            answer = call(case["call"], case["args"])
            if "value" in answer and _shorter(_plain(answer["value"]), found.get(case["call"])):
                found[case["call"]] = _plain(answer["value"])
    return found


def _shorter(one: Any, other: Any) -> bool:
    return other is None or len(json.dumps(one)) < len(json.dumps(other))


def _plain(value: Any) -> Any:
    """Floats to twelve digits: the last bits are the machine's own."""
    if isinstance(value, float):
        return float(f"{value:.12g}")
    if isinstance(value, dict):
        return {name: _plain(one) for name, one in value.items()}
    return [_plain(one) for one in value] if isinstance(value, list | tuple) else value
