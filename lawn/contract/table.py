"""The contract as its files say it: fixtures/contract.json, fixtures/kinds/ and fixtures/kinds/entry/ in one."""

import json
from functools import cache
from pathlib import Path
from typing import Any

FIXTURES = Path(__file__).resolve().parents[2] / "fixtures"
FOLDER = FIXTURES / "kinds"


@cache
def contract() -> dict[str, Any]:
    """Return the schema number and every kind by its name, in the order of their names."""
    whole = _read(FIXTURES / "contract.json")
    return {**whole, "kinds": {**_files_of(FOLDER), "entry": _entry()}}


def _entry() -> dict[str, Any]:
    """What all entries share, with the bodies of each kind; the kinds there are, are the files there are."""
    entry, bodies = _read(FOLDER / "entry.json"), _files_of(FOLDER / "entry")
    kind = {**entry["body"]["kind"], "choices": list(bodies)}
    return {**entry, "body": {**entry["body"], "kind": kind}, "bodies": bodies}


def _files_of(folder: Path) -> dict[str, Any]:
    return {path.stem: _read(path) for path in sorted(folder.glob("*.json"))}


def _read(path: Path) -> Any:
    return json.loads(path.read_text(encoding="utf-8"))
