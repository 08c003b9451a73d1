"""What stands in the way where no plan can be: how much gives, and the fewest rules that cannot hold together."""

from dataclasses import dataclass
from typing import Any

from lawn.planning.solver import Json, solve

SECONDS = 10.0


@dataclass(frozen=True)
class Blocked:
    """A rule in words, and by how much it would have to give, in its own unit."""

    name: str
    says: str
    gives: float


def what_gives(model: Json, seconds: float = SECONDS) -> list[Blocked]:
    """An elastic solve: the rules that give where the least of them does, each by how much."""
    bent, slacks = _bent(model)
    found = solve(bent, seconds=seconds, gap_share=1e-6)
    pairs = [(row, found.values[up] + found.values[down]) for row, up, down in slacks] if found.values else []
    return [Blocked(row["name"], row["says"], gives) for row, gives in pairs if gives > 1e-6]


def smallest_set(model: Json, seconds: float = SECONDS) -> list[Blocked]:
    """Rules every one of which is needed for the plan to be impossible: each is left out once, to see."""
    kept = [at for at, row in enumerate(model["rows"]) if row["rule"]]
    if _possible(_with(model, kept), seconds):
        return []
    kept = _narrowed(model, kept, seconds)
    rows = model["rows"]
    return [Blocked(rows[at]["name"], rows[at]["says"], 0.0) for at in kept]


def _narrowed(model: Json, kept: list[int], seconds: float) -> list[int]:
    """Leave out halves, quarters and at last single rules, as long as it stays impossible."""
    size = max(1, len(kept) // 2)
    while True:
        at = 0
        while at < len(kept):
            fewer = kept[:at] + kept[at + size :]
            if len(fewer) < len(kept) and not _possible(_with(model, fewer), seconds):
                kept = fewer
            else:
                at += size
        if size == 1:
            return kept
        size = max(1, size // 2)


def _with(model: Json, kept: list[int]) -> Json:
    """The model with only these of its rules; what ties columns together stays."""
    chosen = set(kept)
    rows = [row for at, row in enumerate(model["rows"]) if at in chosen or not row["rule"]]
    columns = [{**one, "cost": 0.0} for one in model["columns"]]
    return {"columns": columns, "rows": rows}


def _possible(model: Json, seconds: float) -> bool:
    return solve(model, seconds=seconds).state != "blocked"


def _bent(model: Json) -> tuple[Json, list[tuple[Json, int, int]]]:
    """The model with two columns for every rule, by which it may be broken at a cost, and no other cost."""
    columns: list[Any] = [{**one, "cost": 0.0} for one in model["columns"]]
    rows, slacks = [], []
    for row in model["rows"]:
        terms = list(row["terms"])
        if row["rule"]:
            up, down = len(columns), len(columns) + 1
            scale = max([abs(factor) for _, factor in terms] or [1.0])
            for _ in range(2):
                columns.append({"name": "gives", "low": 0.0, "high": 1e6, "cost": 1.0 / scale, "integer": False})
            terms += [[up, 1.0], [down, -1.0]]
            slacks.append((row, up, down))
        rows.append({**row, "terms": terms})
    return {"columns": columns, "rows": rows}, slacks
