"""The contract as TypeScript: frontend/src/records/kinds.gen.ts, types and limits of every record and entry body."""

import json
from typing import Any

from lawn.contract.table import contract

FILE = "records/kinds.gen.ts"  # in frontend/src

_HEAD = """\
/** Written by `uv run manage.py types` from fixtures/kinds/: what each record holds, and the limits of its fields. */
import type { Typed } from "../format/units";
"""
_TABLE = """\
/** What a field may hold, and what it is called. */
export interface Rule {
  readonly type: FieldType;
  readonly label: string;
  readonly required?: boolean;
  /** Of the fields so marked one at least must be there. */
  readonly any?: boolean;
  readonly server_only?: boolean;
  readonly low?: number;
  readonly high?: number;
  readonly unit?: string;
  readonly choices?: readonly string[];
  readonly max?: number;
  readonly bytes?: number;
  /** A moment of something done: no further ahead of now than clocks and time zones stand apart. */
  readonly ahead_days?: number;
}

export type Rules = Readonly<Record<string, Rule>>;

export interface KindTable {
  readonly shape: "settings" | "entry" | "server";
  readonly groups: Readonly<Record<string, Rules>>;
  readonly body?: Rules;
  readonly bodies?: Readonly<Record<string, Rules>>;
}
"""
_TYPES = {
    "text": "string",
    "number": "number",
    "integer": "number",
    "flag": "boolean",
    "date": "string",
    "moment": "string",
    "id": "string",
    "ids": "string[]",
    "json": "unknown",
}


def text() -> str:
    """Write the whole file."""
    kinds = contract()["kinds"]
    unions = [
        _union("FieldType", [*_TYPES, "choice"]),
        _union("Kind", list(kinds)),
        _union("EntryKind", list(kinds["entry"]["bodies"])),
    ]
    return "\n".join([_HEAD, "\n".join(unions), *_interfaces(kinds), _TABLE, _table(kinds)])


def _union(name: str, names: list[str]) -> str:
    return f"export type {name} = {' | '.join(json.dumps(one) for one in names)};\n"


def _interfaces(kinds: dict[str, Any]) -> list[str]:
    entry = kinds["entry"]
    groups = [
        _interface(_camel(kind, group), rules) for kind, row in kinds.items() for group, rules in row["groups"].items()
    ]
    common = _interface("EntryBody", entry["body"])
    bodies = [
        _interface(_camel(name, "body"), rules, "extends EntryBody ", {"kind": json.dumps(name)})
        for name, rules in entry["bodies"].items()
    ]
    by_kind = [f"  {name}: {_camel(name, 'body')};" for name in entry["bodies"]]
    return [*groups, common, *bodies, _block("export interface Bodies", by_kind), _groups(kinds)]


def _groups(kinds: dict[str, Any]) -> str:
    """Every group of every kind by their names, so that one function reads them all."""
    lines = ["  " + kind + ": { " + "; ".join(f"{group}: {_camel(kind, group)}" for group in row["groups"]) + " };"
             for kind, row in kinds.items() if row["groups"]]  # fmt: skip
    return "/** Every group by its kind and name. */\n" + _block("export interface Groups", lines)


def _interface(name: str, rules: dict[str, Any], extends: str = "", fixed: dict[str, str] | None = None) -> str:
    lines = [f"  {field}: {written};" for field, written in (fixed or {}).items()]
    for field, rule in rules.items():
        lines.append(f"  /** {_comment(rule)} */")
        lines.append(f"  {field}{'' if rule.get('required') else '?'}: {_type(field, rule)};")
    return _block(f"export interface {name} {extends}".rstrip(), lines)


def _block(head: str, lines: list[str]) -> str:
    return "\n".join([head + " {", *lines, "}", ""])


def _comment(rule: dict[str, Any]) -> str:
    unit = f" [{rule['unit']}]" if "unit" in rule else ""
    return f"{rule['label'].replace('*/', '* /')}{unit}"


def _type(field: str, rule: dict[str, Any]) -> str:
    if rule["type"] == "choice":
        return " | ".join(json.dumps(one) for one in rule["choices"])
    if rule["type"] == "json" and field.endswith("_typed"):
        return "Record<string, Typed>" if field == "hopper_typed" else "Typed"
    named: str = rule["type"]
    return _TYPES[named]


def _camel(*names: str) -> str:
    return "".join(word.capitalize() for name in names for word in name.split("_"))


def _table(kinds: dict[str, Any]) -> str:
    lines = ["export const KINDS: Readonly<Record<Kind, KindTable>> = {"]
    for kind, row in kinds.items():
        lines += [f"  {kind}: {{", f'    shape: "{row["shape"]}",', *_rules("body", row, 4)]
        for part in ("bodies", "groups"):
            inner = [line for name in row.get(part, {}) for line in _rules(name, row[part], 6)]
            lines += [f"    {part}: {{", *inner, "    },"] if part in row else []
        lines.append("  },")
    return "\n".join([*lines, "};", ""])


def _rules(name: str, row: dict[str, Any], depth: int) -> list[str]:
    if name not in row:
        return []
    pad = " " * depth
    fields = [f"{pad}  {field}: {json.dumps(rule, ensure_ascii=False)}," for field, rule in row[name].items()]
    return [f"{pad}{name}: {{", *fields, f"{pad}}},"]
