"""The record kinds of fixtures/kinds.json: which groups and fields there are, and what each allows."""

import json
from functools import cache
from pathlib import Path
from typing import Any

KINDS_FILE = Path(__file__).resolve().parents[2] / "fixtures" / "kinds.json"

Rule = dict[str, Any]
Rules = dict[str, Rule]


@cache
def contract() -> dict[str, Any]:
    """Return the whole file."""
    loaded: dict[str, Any] = json.loads(KINDS_FILE.read_text(encoding="utf-8"))
    return loaded


def schema() -> int:
    """Return the schema number of the file, sent with every answer."""
    return int(contract()["schema"])


def groups_of(kind: str) -> dict[str, Rules]:
    """Return {group: {field: rule}} of a kind; for entries, the overlay groups."""
    groups: dict[str, Rules] = contract()["kinds"][kind]["groups"]
    return groups


def settings_fields(kind: str) -> Rules:
    """Return {field: rule} over all groups of a settings kind."""
    return {name: rule for rules in groups_of(kind).values() for name, rule in rules.items()}


def entry_kinds() -> list[str]:
    """Return the kinds of log entry."""
    return list(contract()["kinds"]["entry"]["body"]["kind"]["choices"])
