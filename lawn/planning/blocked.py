"""What stands in the way where no plan can be: how much gives, and the fewest rules that cannot hold together."""

from dataclasses import dataclass

from lawn.engine.season.blocking.bend import bent, giving
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
    elastic, slacks = bent(model)
    found = solve(elastic, seconds=seconds, gap_share=1e-6)
    gives = giving(slacks, found.values) if found.values else []
    return [Blocked(one["name"], one["says"], one["by"]) for one in gives]


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
