"""The engine's cases: data that both runtimes are asked, with the answers they must give."""

import json
import math
from pathlib import Path
from typing import Any, NamedTuple

FOLDER = Path(__file__).resolve().parents[2] / "fixtures" / "parity"
Json = dict[str, Any]
NEAR = 1e-12  # relative
NOTHING = 1e-15  # a difference of large numbers that ought to be 0 may leave this much


class Case(NamedTuple):
    """One call, its arguments, and the values expected at paths into its answer."""

    file: str
    row: Json

    @property
    def name(self) -> str:
        """The case as a sentence."""
        return f"{self.row['call'] if self.row['call'] else 'door'} {self.row['it']}"


def cases() -> list[Case]:
    """Every case of every file."""
    files = sorted(FOLDER.glob("*.json"))
    return [Case(path.stem, row) for path in files for row in json.loads(path.read_text())["cases"]]


def at(answer: Any, path: str) -> Any:
    """What stands at a path such as value.zones.0.used_kg; an empty group where there is nothing."""
    for part in path.split("."):
        if isinstance(answer, list):
            answer = answer[int(part)] if int(part) < len(answer) else {}
        else:
            answer = answer[part] if isinstance(answer, dict) and part in answer else {}
    return answer


def differs(one: Any, other: Any, near: float = NEAR, path: str = "") -> str:
    """Say where two answers differ, or nothing: numbers within near, everything else alike."""
    if isinstance(one, bool) or isinstance(other, bool) or one is None or other is None:
        return "" if one is other else f"{path}: {one!r} and {other!r}"
    if isinstance(one, (int, float)) and isinstance(other, (int, float)):
        same = math.isclose(one, other, rel_tol=near, abs_tol=NOTHING)
        return "" if same else f"{path}: {one!r} and {other!r}"
    if isinstance(one, dict) and isinstance(other, dict):
        if set(one) != set(other):
            return f"{path}: fields {sorted(set(one) ^ set(other))}"
        return next((d for key in one if (d := differs(one[key], other[key], near, f"{path}.{key}"))), "")
    if isinstance(one, list) and isinstance(other, list):
        if len(one) != len(other):
            return f"{path}: {len(one)} and {len(other)} items"
        both = enumerate(zip(one, other, strict=True))
        return next((d for i, (a, b) in both if (d := differs(a, b, near, f"{path}.{i}"))), "")
    return "" if type(one) is type(other) and one == other else f"{path}: {one!r} and {other!r}"


def broken_promises(case: Case, answer: Json) -> list[str]:
    """Each place where an answer is not what its case expects."""
    near = float(case.row.get("near", NEAR))
    wanted = case.row["expect"].items()
    return [d for path, value in wanted if (d := differs(value, at(answer, path), near, path))]
